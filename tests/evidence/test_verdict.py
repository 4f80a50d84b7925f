"""Verdicts, which are rules of our own: an exhaustive table, then what must hold for any numbers."""

from math import exp, log

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from build_tools.evidence.claims.verdict import (
    LEANING_SHARE,
    Directions,
    RatioInterval,
    share_within,
    verdict,
)

NONE = Directions()
MARGIN = 1.1


def judged(claimed, estimate=None, directions=NONE):
    return verdict(
        claimed, RatioInterval(*estimate) if estimate else None, directions, MARGIN
    ).verdict


@pytest.mark.parametrize(
    ("estimate", "more", "less", "similar"),
    [
        # ratio, low, high       claimed more     claimed less     claimed similar
        ((1.30, 1.20, 1.41), "shown", "contradicted", "contradicted"),
        ((0.77, 0.71, 0.83), "contradicted", "shown", "contradicted"),
        ((1.20, 1.02, 1.41), "shown", "contradicted", "not shown"),
        (
            (1.04, 1.01, 1.07),
            "shown",
            "contradicted",
            "shown",
        ),  # a difference, and too small to matter
        (
            (1.04, 1.00, 1.08),
            "not shown",
            "not shown",
            "shown",
        ),  # an interval that touches 1 does not exclude it
        ((1.00, 0.95, 1.05), "not shown", "not shown", "shown"),
        ((1.20, 0.96, 1.50), "leaning", "not shown", "not shown"),
        ((0.83, 0.67, 1.04), "not shown", "leaning", "not shown"),
        (
            (1.20, 0.60, 2.40),
            "not shown",
            "not shown",
            "not shown",
        ),  # on the claimed side, but any direction goes
        (
            (1.001, 0.50, 2.00),
            "not shown",
            "not shown",
            "not shown",
        ),  # the hair's breadth that must not lean
        (
            (1.05, 0.98, 1.125),
            "not shown",
            "not shown",
            "leaning",
        ),  # within the margin: no lean to more, a lean to alike
        (
            (1.00, 0.40, 2.50),
            "not shown",
            "not shown",
            "not shown",
        ),  # a middle of 1 alone is no likeness
        ((1.30, 1.30, 1.30), "shown", "contradicted", "contradicted"),
        ((1.00, 1.00, 1.00), "not shown", "not shown", "shown"),
    ],
)
def test_the_estimate_decides(estimate, more, less, similar):
    assert (judged("more", estimate), judged("less", estimate), judged("similar", estimate)) == (
        more,
        less,
        similar,
    )


@pytest.mark.parametrize(
    ("directions", "more", "less", "similar"),
    [
        (Directions(0, 0, 0), "untested", "untested", "untested"),
        (Directions(3, 0, 0), "leaning", "contradicted", "contradicted"),
        (Directions(0, 1, 0), "contradicted", "leaning", "contradicted"),
        (Directions(0, 0, 2), "not shown", "not shown", "leaning"),
        (Directions(2, 1, 0), "not shown", "not shown", "not shown"),
        (Directions(2, 0, 1), "not shown", "not shown", "not shown"),
        (Directions(0, 2, 1), "not shown", "not shown", "not shown"),
        (Directions(1, 1, 1), "not shown", "not shown", "not shown"),
    ],
)
def test_directions_alone(directions, more, less, similar):
    assert tuple(judged(c, None, directions) for c in ("more", "less", "similar")) == (
        more,
        less,
        similar,
    )


def test_contrary_directions_are_named_but_do_not_decide():
    judgement = verdict(
        "more", RatioInterval(1.3, 1.2, 1.41), Directions(more=0, less=2, neither=1), MARGIN
    )
    assert judgement.verdict == "shown"
    assert "3 samples without a usable spread" in judgement.reason and "2 less" in judgement.reason


def test_a_shown_difference_that_is_trivial_says_so():
    assert "count as alike" in verdict("more", RatioInterval(1.04, 1.01, 1.07), NONE, MARGIN).reason
    assert (
        "count as alike" not in verdict("more", RatioInterval(1.2, 1.01, 1.4), NONE, MARGIN).reason
    )


@pytest.mark.parametrize("margin", [1.0, 0.9, float("nan")])
def test_a_margin_must_exceed_one(margin):
    with pytest.raises(ValueError, match="margin"):
        verdict("more", None, NONE, margin)


@pytest.mark.parametrize(
    "numbers",
    [(1, 1.1, 1.2), (1, 0.8, 0.9), (0, 0, 1), (1, 0.5, float("inf")), (float("nan"), 0.5, 2)],
)
def test_an_impossible_estimate_is_refused(numbers):
    with pytest.raises(ValueError, match="0 < low <= ratio <= high"):
        RatioInterval(*numbers)


def test_share_of_an_interval_is_taken_on_the_log_scale():
    assert share_within(RatioInterval(1, 0.5, 2), 0, 9) == pytest.approx(0.5)
    assert share_within(RatioInterval(2, 0.5, 8), -9, 0) == pytest.approx(0.25)
    # One standard error from 1 is where a normal interval (z = 1.96 either side) reaches about the leaning share.
    assert share_within(RatioInterval(exp(1), exp(1 - 1.96), exp(1 + 1.96)), 0, 9) == pytest.approx(
        LEANING_SHARE, abs=0.01
    )


logs = st.floats(-1.5, 1.5)
margins = st.floats(1.02, 1.5)
directions = st.builds(Directions, st.integers(0, 4), st.integers(0, 4), st.integers(0, 4))


@st.composite
def estimates(draw):
    middle, half = draw(logs), draw(st.floats(0, 1.5))
    return RatioInterval(
        exp(middle), min(exp(middle - half), exp(middle)), max(exp(middle + half), exp(middle))
    )


def inverse(estimate):
    return RatioInterval(1 / estimate.ratio, 1 / estimate.high, 1 / estimate.low)


def clear_of_thresholds(estimate, margin):
    """Not so near a threshold that taking reciprocals could move a bound across it by rounding."""
    bounds = [abs(log(x)) for x in (estimate.ratio, estimate.low, estimate.high)]
    shares = [
        share_within(estimate, *span) for span in ((0, 9), (-9, 0), (-log(margin), log(margin)))
    ]
    return (
        all(abs(b) > 1e-9 and abs(b - log(margin)) > 1e-9 for b in bounds)
        and all(abs(s - LEANING_SHARE) > 1e-9 for s in shares)
        and (estimate.low == estimate.high or log(estimate.high / estimate.low) > 1e-6)
    )


def turned(directions):
    return Directions(directions.less, directions.more, directions.neither)


@given(st.none() | estimates(), directions, margins)
def test_turning_the_contrast_round_turns_the_claim_round(estimate, told, margin):
    assume(estimate is None or clear_of_thresholds(estimate, margin))
    other = inverse(estimate) if estimate else None
    for claimed, mirrored in (("more", "less"), ("less", "more"), ("similar", "similar")):
        assert (
            verdict(claimed, estimate, told, margin).verdict
            == verdict(mirrored, other, turned(told), margin).verdict
        )


@given(estimates(), directions, margins, st.floats(0, 1))
def test_more_data_on_the_same_side_never_turns_a_shown_claim(estimate, told, margin, shrink):
    """A narrower interval about the same estimate, and more samples telling the same."""
    narrow = RatioInterval(
        estimate.ratio,
        min(estimate.low**shrink * estimate.ratio ** (1 - shrink), estimate.ratio),
        max(estimate.high**shrink * estimate.ratio ** (1 - shrink), estimate.ratio),
    )
    for claimed in ("more", "less"):
        if verdict(claimed, estimate, told, margin).verdict == "shown":
            assert (
                verdict(
                    claimed, narrow, Directions(told.more + 1, told.less, told.neither), margin
                ).verdict
                == "shown"
            )


@given(estimates(), directions, margins)
def test_what_shows_more_contradicts_less(estimate, told, margin):
    more, less = (verdict(c, estimate, told, margin).verdict for c in ("more", "less"))
    assert (more == "shown") == (less == "contradicted") and (more == "contradicted") == (
        less == "shown"
    )
    assert not (more == "leaning" and less == "leaning")


@given(st.sampled_from(["more", "less", "similar"]), directions, margins)
def test_directions_alone_never_show(claimed, told, margin):
    assert verdict(claimed, None, told, margin).verdict != "shown"


@given(st.sampled_from(["more", "less", "similar"]), st.none() | estimates(), directions, margins)
def test_every_reason_is_one_sentence(claimed, estimate, told, margin):
    reason = verdict(claimed, estimate, told, margin).reason
    assert (
        reason[0].isupper() and reason.endswith(".") and ". " not in reason and ".." not in reason
    )
