"""Numerical trouble has a defined answer or a clear error."""

import math

import numpy as np
import pytest
from scipy import stats

from build_tools.evidence.errors import EvidenceError
from oracle import heterogeneity as module
from oracle.heterogeneity import METHODS, heterogeneity, tau2, tau2_interval
from oracle.pooling import HKSJ, T_OF_ONE, Z_OF_ONE, interval, inverse_variance, leave_one_out, pool


@pytest.mark.parametrize(
    ("y", "v", "message"),
    [
        ([], [], "no study"),
        ([0.1, 0.2], [0.1], "one length"),
        ([[0.1]], [[0.1]], "two lists"),
        ([0.1, math.nan], [0.1, 0.1], "effect 2 of 2 is nan"),
        ([0.1, math.inf], [0.1, 0.1], "effect 2 of 2 is inf"),
        ([0.1, 0.2], [0.1, 0.0], "variance 2 of 2 is 0.0"),
        ([0.1, 0.2], [-0.1, 0.1], "variance 1 of 2 is -0.1"),
        ([0.1, 0.2], [0.1, math.nan], "variance 2 of 2 is nan"),
        ([0.1, 0.2], [0.1, math.inf], "variance 2 of 2 is inf"),
        ([0.1, 0.2], [1e-120, 1.0], "too far apart"),
        ([1.7e308, -1.7e308], [1.0, 1.0], "too far apart"),
        ([0.0, 0.0], [1e-300, 1e-300], "too far apart"),
    ],
)
def test_what_cannot_be_pooled_is_refused(y: list[float], v: list[float], message: str) -> None:
    for function in (pool, tau2, tau2_interval, inverse_variance, leave_one_out):
        with pytest.raises(EvidenceError, match=message):
            function(y, v)


def test_one_study_is_passed_through_with_its_own_interval() -> None:
    ours = pool([0.3], [0.04], df=7)
    reach = stats.t.ppf(0.975, 7) * 0.2
    assert (ours.interval, ours.df, ours.k) == (T_OF_ONE, 7, 1)
    assert (ours.estimate, ours.se, ours.low, ours.high) == pytest.approx(
        (0.3, 0.2, 0.3 - reach, 0.3 + reach), rel=1e-12
    )
    nothing = (
        ours.tau2,
        ours.tau2_low,
        ours.tau2_high,
        ours.q,
        ours.q_p,
        ours.i2,
        ours.prediction_low,
        ours.prediction_high,
        ours.method,
    )
    assert nothing == (None,) * 9


def test_one_study_without_degrees_of_freedom_uses_the_normal() -> None:
    ours = pool([0.3], [0.04], level=0.9)
    assert (ours.interval, ours.df) == (Z_OF_ONE, None)
    assert ours.high == pytest.approx(0.3 + stats.norm.ppf(0.95) * 0.2, rel=1e-12)


def test_one_study_says_nothing_about_differences() -> None:
    for function in (tau2, tau2_interval, lambda y, v: heterogeneity(y, v, 0.0)):
        with pytest.raises(EvidenceError, match="needs two"):
            function([0.3], [0.04])
    assert leave_one_out([0.3], [0.04]) == []


def test_two_studies_say_how_wide_that_makes_them() -> None:
    ours = pool([0.3, 0.1], [0.04, 0.05], df=30)
    assert (ours.df, ours.interval) == (1, HKSJ)
    assert ours.notes == ("two studies: the interval reaches 12.7 standard errors either way",)
    first, second = leave_one_out([0.3, 0.1], [0.04, 0.05], dfs=[9, 14])
    assert (first.estimate, first.df, second.estimate, second.df) == pytest.approx(
        (0.1, 14, 0.3, 9)
    )


@pytest.mark.parametrize("method", METHODS)
def test_equal_effects_have_no_heterogeneity_and_a_real_interval(method: str) -> None:
    ours = pool([0.1] * 4, [0.01, 0.02, 0.5, 3.0], method=method)
    assert (ours.estimate, ours.tau2, ours.q, ours.i2, ours.tau2_high) == (0.1, 0, 0, 0, 0)
    assert ours.q_p == 1
    assert ours.se == pytest.approx(1 / math.sqrt(100 + 50 + 2 + 1 / 3), rel=1e-12)


@pytest.mark.parametrize("method", METHODS)
def test_huge_heterogeneity_is_the_spread_of_the_effects(method: str) -> None:
    """With variances next to nothing, each effect is its own truth: tau² is their variance (ML, SJ's start and HS: over k)."""
    y, v = np.array([-1e6, 2e5, 3.0, 8e5]), np.full(4, 1e-8)
    assert tau2(y, v, method).value == pytest.approx(
        np.var(y, ddof=0 if method in ("ML", "HS") else 1), rel=1e-9
    )


def test_one_exact_study_among_vague_ones() -> None:
    """Weights 16 orders apart; by hand for two studies, t = ((y1 - y2)² - v1 - v2)/2."""
    ours = tau2([0.0, 2.0], [1e-16, 1.0])
    assert ours.value == pytest.approx(1.5, rel=1e-12)
    assert heterogeneity([0.0, 2.0], [1e-16, 1.0], 0.0).q == pytest.approx(4.0, rel=1e-12)


@pytest.mark.parametrize("power", [-300, -40, 40, 300])
def test_the_unit_may_be_of_any_size(power: int) -> None:
    y, v = np.array([0.3, -0.1, 0.8, 0.2]), np.array([0.04, 0.01, 0.09, 0.02])
    c = 2.0**power
    one, two = pool(y, v), pool(c * y, c * c * v)
    assert (two.estimate, two.low, two.high) == pytest.approx(
        (c * one.estimate, c * one.low, c * one.high), rel=1e-12
    )
    assert (two.tau2, two.i2) == pytest.approx((c * c * one.tau2, one.i2), rel=1e-12)


def test_when_the_likelihood_fails_pm_answers_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    y, v = [0.5, -0.4, 0.2], [0.04, 0.05, 0.03]
    wanted = tau2(y, v, "PM").value
    monkeypatch.setattr(module, "_score", lambda s, t, restricted: np.full(np.size(t), np.nan))
    ours = tau2(y, v)
    assert (ours.value, ours.method, ours.converged) == (wanted, "PM", False)
    assert pool(y, v).notes == ("REML found no maximum; PM instead",)


def test_when_a_root_escapes_pm_answers(monkeypatch: pytest.MonkeyPatch) -> None:
    y, v = [0.5, -0.4, 0.2], [0.04, 0.05, 0.03]
    find = module.bracketed_root
    monkeypatch.setattr(
        module, "bracketed_root", lambda f, low, high: None if low > 0 else find(f, low, high)
    )
    assert tau2(y, v).method == "PM"


def test_impossible_choices_are_refused() -> None:
    y, v = [0.1, 0.2], [0.1, 0.1]
    with pytest.raises(EvidenceError, match="'XX'.*REML, ML, PM"):
        pool(y, v, method="XX")
    with pytest.raises(EvidenceError, match="level"):
        pool(y, v, level=95)
    with pytest.raises(EvidenceError, match="level"):
        tau2_interval(y, v, level=1)
    with pytest.raises(EvidenceError, match="freedom"):
        pool([0.1], [0.1], df=0)
    for wrong in (-0.1, math.nan, math.inf):
        with pytest.raises(EvidenceError, match="at least 0"):
            inverse_variance(y, v, wrong)
        with pytest.raises(EvidenceError, match="at least 0"):
            heterogeneity(y, v, wrong)
    assert interval(0.0, 1.0)[1] == pytest.approx(1.959963984540054, rel=1e-15)
