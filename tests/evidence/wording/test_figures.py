"""Numbers in a sentence: gains, ratios, people and weeks."""

import pytest
from answers import asked, made, within
from hypothesis import assume, given
from hypothesis import strategies as st

from build_tools.evidence.terms import Gains, RatioInterval
from build_tools.evidence.wording import figures
from build_tools.evidence.wording.clauses import WORDS, Compared

GROWTH = Compared(WORDS["growth"], "X", "Y", "P")
ACTIVATION = Compared(WORDS["activation"], "X", "Y", "P")
PARTS = Compared(WORDS["growth"], "P", "Q", within="X")


@pytest.mark.parametrize(
    ("gains", "estimate", "told"),
    [
        # The second's growth factor times the ratio's interval, less 1: as a corresponding risk is had from a comparator's
        # (GRADE's form, from memory); reckoned by hand: 1.11 x 1.028 = 1.141, 1.11 x 1.10 = 1.221.
        ((1.18, 1.11), (1.063, 1.028, 1.10), "about 18% against 11% (18% could be 14% to 22%)"),
        ((1.19, 1.05), (1.133, 1.057, 1.22), "about 19% against 5% (19% could be 11% to 28%)"),
        (
            (1.03, 1.02),
            (1.01, 0.96, 1.12),
            "about 3% against 2% (3% could be from 2% lost to 14% gained)",
        ),
        ((1.02, 0.99), (1.03, 1.01, 1.06), "about 2% against 1% lost (2% could be 0% to 5%)"),
        ((1.12, 1.11), (1.01, 0.97, 1.05), "about 12% against 11% (12% could be 8% to 17%)"),
        # As many decimals as keep the interval's near end from the other side's gain.
        (
            (1.132, 1.111),
            (1.019, 1.003, 1.035),
            "about 13.2% against 11.1% (13.2% could be 11.4% to 15%)",
        ),
        ((1.081, 1.08), (1.001, 0.985, 1.017), "about 8% against 8% (8% could be 6% to 10%)"),
    ],
)
def test_gains(gains, estimate, told):
    assert figures.gained(Gains(*gains), RatioInterval(*estimate)) == told


@given(st.floats(1.001, 1.3), st.floats(1.0005, 1.2), st.floats(1, 1.3))
def test_a_found_difference_never_reads_as_none(gain, near, further):
    """What leaves out no difference keeps its near end apart from the other side's gain."""
    assume(gain * near - gain > 0.0003)
    told = figures.gained(
        Gains(gain * near * further, gain), RatioInterval(near * further, near, near * further**2)
    )
    second = told.split(" against ")[1].split(" ")[0]
    assert told.split("could be ")[1].split(" to ")[0] != second


@pytest.mark.parametrize(
    ("sides", "estimate", "whose", "told"),
    [
        (GROWTH, (1.06, 1.03, 1.09), False, "6% larger at the end (could be 3% to 9%)"),
        (
            GROWTH,
            (0.94, 0.91, 0.98),
            True,
            "6% smaller at the end with the first (could be 2% to 9%)",
        ),
        (
            GROWTH,
            (1.01, 0.97, 1.05),
            True,
            "1% larger at the end with the first (could be 3% smaller to 5% larger)",
        ),
        (
            PARTS,
            (1.01, 0.97, 1.05),
            True,
            "1% more for the first, each from its start (could be 3% less to 5% more)",
        ),
        (ACTIVATION, (1.53, 1.2, 1.95), False, "53% more (could be 20% to 95%)"),
        (ACTIVATION, (1.0, 0.96, 1.04), True, "no difference (could be 4% less to 4% more)"),
        (
            ACTIVATION,
            (0.98, 0.9, 1.05),
            True,
            "2% less in the first (could be 10% less to 5% more)",
        ),
        (ACTIVATION, (2.4, 1.3, 4.4), False, "2.4 times as much (could be 1.3 to 4.4 times)"),
        (ACTIVATION, (1.8, 1.05, 2.9), False, "80% more (could be 5% more to 2.9 times as much)"),
        (
            ACTIVATION,
            (3.2, 1.04, 9.0),
            False,
            "3.2 times as much (could be 4% more to 9 times as much)",
        ),
        (
            ACTIVATION,
            (1.25, 0.6, 2.6),
            True,
            "25% more in the first (could be 40% less to 2.6 times as much)",
        ),
        (
            ACTIVATION,
            (1.0004, 0.9999, 1.0009),
            True,
            "under 0.1% more in the first (could be under 0.1% less to under 0.1% more)",
        ),
    ],
)
def test_ratios(sides, estimate, whose, told):
    assert figures.ratio(RatioInterval(*estimate), sides, whose) == told


def test_gains_that_do_not_fit_the_estimate_are_left_out():
    told = figures.size(made("found", gains=Gains(1.05, 1.11)), GROWTH, False)
    assert told == "about 6% larger at the end (could be 3% to 10%)"


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({}, "28 people, 12 weeks"),
        ({"people": 1, "weeks": (1, 1)}, "1 person, 1 week"),
        ({"weeks": None}, "28 people"),
        ({"groups": 3}, "28 people in 3 groups, 12 weeks"),
        ({"studies": 3, "people": 75, "weeks": (6, 12)}, "3 studies of 75 people, 6 to 12 weeks"),
        ({"people": 0}, "12 weeks"),
        ({"weeks": (8.5, 8.5)}, "28 people, 8.5 weeks"),
    ],
)
def test_on_whom_it_rests(changes, told):
    assert figures.support(made("found", **changes), False) == told


def test_a_signal_is_of_one_session():
    assert (
        figures.support(made("found", question=asked("activation")), False)
        == "28 people, one session"
    )
    assert (
        figures.whom(made("found", question=within("activation")))
        == "one study of 28 people in one session"
    )


@pytest.mark.parametrize(
    ("changes", "of", "told"),
    [
        ({}, None, "one study of 28 people over 12 weeks"),
        ({"studies": 2, "people": 41, "weeks": None}, None, "two studies of 41 people"),
        ({"studies": 3, "people": 60}, 2, "two of three studies (60 people over 12 weeks)"),
        ({"studies": 3, "people": 60}, 3, "three studies of 60 people over 12 weeks"),
        ({"studies": 12, "people": 300}, None, "twelve studies of 300 people over 12 weeks"),
    ],
)
def test_who_reported_it(changes, of, told):
    assert figures.whom(made("found", **changes), of) == told


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({}, ". It was too small to rule out a difference of 6% in size either way"),
        (
            {"studies": 2, "borrowed": True},
            ". Together they were too small to rule out a difference of 6% in size either way, going by similar studies",
        ),
        (
            {"estimate": RatioInterval(1.02, 0.95, 1.09)},
            ". It was too small to rule out 5% smaller or 9% larger with the first",
        ),
        (
            {"estimate": RatioInterval(1, 0.4, 2.5)},
            ". It was too small to rule out 60% smaller or 2.5 times as much with the first",
        ),
        ({"estimate": None}, ". How large a difference it could have missed is not known"),
    ],
)
def test_what_a_null_leaves_open(changes, told):
    assert figures.missed(made("no difference reported", **changes), GROWTH) == told


def test_small_is_said_only_of_small_studies():
    assert figures.who(made("found", studies=1, people=99)) == "one small study"
    assert figures.who(made("found", studies=1, people=100)) == "one study"
    assert figures.who(made("found", studies=2, people=150)) == "two small studies"


def test_a_null_on_two_parts_is_no_difference_in_their_size():
    told = figures.missed(made("no difference reported", question=within()), PARTS)
    assert told == ". It was too small to rule out a difference of 6% either way"
