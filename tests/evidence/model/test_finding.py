"""What a distribution amounts to: rules of our own, an exhaustive table, then what must hold for any numbers."""

from __future__ import annotations

from math import exp, log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from build_tools.evidence.model.finding import LEANING, Weighed, classify, ratio_interval
from build_tools.evidence.model.posterior import Mixture

MARGIN = 1.1
TURNED = {"more": "less", "less": "more", None: None}


def normal(mean: float, sd: float) -> Mixture:
    return Mixture(np.ones(1), np.array([mean]), np.array([sd]))


def of_interval(low: float, high: float) -> Weighed:
    """A normal answer with that 95% interval, as ratios."""
    middle, half = (log(low) + log(high)) / 2, (log(high) - log(low)) / 2
    return Weighed(normal(middle, half / stats.norm.ppf(0.975)), MARGIN)


@pytest.mark.parametrize(
    ("low", "high", "found"),
    [
        (1.20, 1.41, ("found", "more")),
        (0.71, 0.83, ("found", "less")),
        # found before alike: that it is too small to matter is told beside it
        (1.01, 1.07, ("found", "more")),
        (0.95, 1.05, ("alike", None)),
        (0.99, 1.08, ("alike", None)),
        (0.96, 1.50, ("hinted", "more")),
        (0.67, 1.04, ("hinted", "less")),
        (0.60, 2.40, ("unclear", None)),
        # leans to less than what matters
        (0.97, 1.20, ("unclear", None)),
        (0.50, 2.00, ("unclear", None)),
    ],
)
def test_findings(low, high, found):
    assert of_interval(low, high).classified == found


@pytest.mark.parametrize(
    ("chances", "found"),
    [
        ((0.0, 0.02, 0.4), ("found", "more")),
        ((0.6, 0.98, 1.0), ("found", "less")),
        ((0.025, 0.5, 0.975), ("alike", None)),
        ((0.0, 0.15, 0.4), ("hinted", "more")),
        ((0.6, 0.85, 1.0), ("hinted", "less")),
        ((0.0, 0.16, 0.4), ("unclear", None)),
        ((0.0, 0.10, 0.5), ("unclear", None)),
        # on the bound of 95%: no difference is not left out
        ((0.0, 0.025, 0.4), ("hinted", "more")),
    ],
)
@pytest.mark.parametrize("noise", [-9e-10, 0.0, 9e-10])
def test_noise_within_a_billionth_decides_nothing(chances, found, noise):
    assert classify(*(x + noise for x in chances)) == found


numbers = st.tuples(st.floats(-1, 1), st.floats(1e-3, 1))


@given(numbers, st.floats(1.01, 1.5))
def test_an_answer_follows_its_distribution_and_mirrors(told, margin):
    """Chances and ends by scipy's normal distribution."""
    mean, sd = told
    found, back = Weighed(normal(mean, sd), margin), Weighed(normal(-mean, sd), margin)
    mirrored = found.mirrored()
    assert back.classified == mirrored.classified == (found.finding, TURNED[found.side])
    assert found.more == pytest.approx(stats.norm.sf(0, mean, sd), abs=1e-12)
    assert mirrored.more == pytest.approx(1 - found.more, abs=1e-12)
    one_side, other = stats.norm.sf(log(margin), mean, sd), stats.norm.cdf(-log(margin), mean, sd)
    assert found.matters == pytest.approx(max(one_side, other), abs=1e-12)
    assert mirrored.matters == pytest.approx(found.matters, abs=1e-12)
    ends = np.exp([mean, *stats.norm.interval(0.95, mean, sd)])
    e, m = found.estimate, mirrored.estimate
    assert (e.ratio, e.low, e.high) == pytest.approx(tuple(ends), rel=1e-9)
    assert (1 / m.ratio, 1 / m.high, 1 / m.low) == pytest.approx(tuple(ends), rel=1e-9)


@given(numbers, st.floats(0.1, 1))
def test_a_narrower_answer_about_the_same_middle_never_loses_what_was_found(told, shrink):
    found, narrow = (Weighed(normal(told[0], told[1] * by), MARGIN) for by in (1, shrink))
    if found.finding in ("found", "alike"):
        assert narrow.finding in ("found", "alike")
    if found.side:
        assert narrow.side == found.side or narrow.finding == "alike"


@given(numbers)
def test_the_finding_is_that_of_the_interval_in_words(told):
    """Found: the interval leaves out no difference; alike: it lies within the margin; hinted: the middle lies beyond it."""
    found = Weighed(normal(*told), MARGIN)
    low, middle, high = (
        log(x) for x in (found.estimate.low, found.estimate.ratio, found.estimate.high)
    )
    thresholds = (
        low,
        high,
        middle - log(MARGIN),
        middle + log(MARGIN),
        low + log(MARGIN),
        high - log(MARGIN),
    )
    if (
        min(abs(x) for x in thresholds) < 1e-6
        or abs(max(found.more, 1 - found.more) - LEANING) < 1e-6
    ):
        return
    if low > 0 or high < 0:
        assert found.finding == "found"
    elif -log(MARGIN) < low and high < log(MARGIN):
        assert found.finding == "alike"
    elif abs(middle) > log(MARGIN) and max(found.more, 1 - found.more) > LEANING:
        assert found.finding == "hinted"
    else:
        assert found.finding == "unclear"


def test_an_estimate_holds_its_interval_whatever_rounding_does():
    for y in (0.1, -0.3, 1e-17, 5.0):
        same = ratio_interval(y, y, y)
        assert same.low == same.ratio == same.high
    e = ratio_interval(0.2, 0.2 + 1e-18, 0.2)
    assert e.low <= e.ratio <= e.high and e.ratio == exp(0.2)
