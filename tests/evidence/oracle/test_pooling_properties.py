"""What must hold for any studies, and independent ways to the same numbers.

Closed forms are derived beside each test; the restricted likelihood is taken a
second way, as the plain likelihood of k-1 error contrasts (Patterson & Thompson
1971, from memory), with scipy's multivariate normal; statsmodels' combine_effects
is the third.
"""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import linalg, stats
from statsmodels.stats.meta_analysis import combine_effects

from oracle.heterogeneity import METHODS, Method, heterogeneity, tau2, tau2_interval
from oracle.pooling import interval, inverse_variance, leave_one_out, pool

Studies = tuple[np.ndarray, np.ndarray]
#: For tau² at a flat top of the likelihood, whose root loses half the digits.
FLAT = 1e-6

effects = st.integers(-2000, 2000).map(lambda i: i / 1000)
variances = st.integers(1, 2000).map(lambda i: i / 1000)


@st.composite
def studies(draw: st.DrawFn, least: int = 2) -> Studies:
    """Effects and variances of the sizes log ratios have."""
    k = draw(st.integers(least, 10))
    y, v = (draw(st.lists(of, min_size=k, max_size=k)) for of in (effects, variances))
    return np.array(y), np.array(v)


methods = st.sampled_from(METHODS)


def restricted_likelihood(y: np.ndarray, v: np.ndarray, t: float) -> float:
    """Log likelihood of contrasts of y that the mean cannot touch."""
    contrasts = linalg.null_space(np.ones((1, y.size))).T
    return float(
        stats.multivariate_normal.logpdf(
            contrasts @ y, cov=contrasts @ np.diag(v + t) @ contrasts.T
        )
    )


@given(studies())
def test_reml_is_the_greatest_restricted_likelihood(data: Studies) -> None:
    y, v = data
    best = restricted_likelihood(y, v, tau2(y, v).value)
    others = [restricted_likelihood(y, v, t) for t in [0.0, *np.geomspace(1e-6, 100, 60)]]
    assert best >= max(others) - 1e-9


def test_of_two_tops_of_the_likelihood_the_higher_is_taken() -> None:
    """Invented studies, found by a random search: one far and vague, the others close and exact."""
    for y, v in [
        ([0.09, -1.23, 0.0, -0.04], [0.4525, 0.1749, 0.0003, 0.0154]),
        ([0.01, -1.58, 0.01], [0.0173, 0.3961, 0.0008]),
    ]:
        grid = [0.0, *np.geomspace(1e-6, 100, 4000)]
        heights = np.array([restricted_likelihood(np.array(y), np.array(v), t) for t in grid])
        tops = np.flatnonzero(
            (heights >= np.append(heights[1:], -np.inf))
            & (heights >= np.insert(heights[:-1], 0, -np.inf))
        )
        assert len(tops) == 2
        assert tau2(y, v).value == pytest.approx(grid[int(heights.argmax())], rel=0.01)


@given(studies())
def test_an_inner_reml_answer_makes_the_score_zero(data: Studies) -> None:
    """Score in matrix form, (y'PPy - tr P)/2 with P = W - W1(1'W1)^-1 1'W (Viechtbauer 2005, from memory)."""
    y, v = data
    t = tau2(y, v).value
    w = np.diag(1 / (v + t))
    p = w - w @ np.ones((y.size, y.size)) @ w / w.sum()
    score = y @ p @ p @ y - np.trace(p)
    if t > 0:
        assert abs(score) <= 1e-8 * np.trace(p)
    else:
        assert score <= 1e-8 * np.trace(p)


@given(st.lists(effects, min_size=2, max_size=10), variances)
def test_with_equal_variances_tau2_is_what_the_spread_exceeds_them_by(
    y: list[float], variance: float
) -> None:
    """With equal weights every estimating equation solves by hand: sum (y - mean)² over k-1 (ML: over k) less v."""
    v = np.full(len(y), variance)
    unbiased, plain = np.var(y, ddof=1) - variance, np.var(y) - variance
    for method in ("REML", "PM", "DL", "HE"):
        assert tau2(y, v, method).value == pytest.approx(max(0, unbiased), rel=1e-9, abs=1e-12)
    for method in ("ML", "HS"):
        assert tau2(y, v, method).value == pytest.approx(max(0, plain), rel=1e-9, abs=1e-12)


@given(effects, effects, variances, variances)
def test_two_studies_solve_by_hand(y1: float, y2: float, v1: float, v2: float) -> None:
    """Q(t) = (y1 - y2)²/(v1 + v2 + 2t): its expectation 1, and any quantile c, give t = ((y1 - y2)²/c - v1 - v2)/2."""
    y, v = [y1, y2], [v1, v2]

    def where_q_is(c: float) -> float:
        return max(0.0, ((y1 - y2) ** 2 / c - v1 - v2) / 2)

    for method in ("REML", "PM", "DL"):
        assert tau2(y, v, method).value == pytest.approx(where_q_is(1), rel=1e-9, abs=1e-12)
    ends = [where_q_is(stats.chi2.ppf(chance, 1)) for chance in (0.975, 0.025)]
    assert tau2_interval(y, v) == pytest.approx(ends, rel=1e-9, abs=1e-12)


@given(studies())
def test_statsmodels_agrees(data: Studies) -> None:
    """Where definitions agree: common effect, Q, PM (its iteration tightened), DL (not cut at 0 there), HKSJ without our guard.

    statsmodels 0.15.0 answers PM with 0 when its last step lands a rounding error beyond the root; those draws are left out.
    """
    y, v = data
    for method, name, more in (("DL", "dl", {}), ("PM", "pm", {"atol": 1e-10, "maxiter": 500})):
        with np.errstate(all="ignore"):  # what its negative tau² leads to is not compared
            theirs = combine_effects(y, v, method_re=name, use_t=True, **more)
        assume(method == "DL" or theirs.tau2 > 0 or theirs.q <= theirs.df)
        ours = tau2(y, v, method).value
        assert ours == pytest.approx(max(0.0, theirs.tau2), rel=1e-8, abs=1e-10)
        if theirs.tau2 < 0:
            continue
        mean = inverse_variance(y, v, ours)
        assert mean.estimate == pytest.approx(theirs.mean_effect_re, rel=1e-8, abs=1e-10)
        hksj = interval(mean.estimate, mean.se * math.sqrt(mean.q), y.size - 1)
        assert hksj == pytest.approx(theirs.conf_int()[3], rel=1e-7, abs=1e-8)
    assert heterogeneity(y, v, 0.0).q == pytest.approx(theirs.q, rel=1e-9, abs=1e-12)
    assert inverse_variance(y, v).estimate == pytest.approx(
        theirs.mean_effect_fe, rel=1e-9, abs=1e-12
    )


@given(studies(), methods, st.randoms(use_true_random=False))
def test_the_order_of_studies_does_not_matter(
    data: Studies, method: Method, random: object
) -> None:
    y, v = data
    order = list(range(y.size))
    random.shuffle(order)  # type: ignore[attr-defined]
    one, two = pool(y, v, method=method), pool(y[order], v[order], method=method)
    assert (one.estimate, one.tau2, one.q) == pytest.approx(
        (two.estimate, two.tau2, two.q), rel=FLAT, abs=FLAT
    )
    assert (one.low, one.high) == pytest.approx((two.low, two.high), rel=FLAT, abs=FLAT)


@given(studies(), methods, st.floats(-50, 50))
def test_moving_all_effects_moves_the_answer(data: Studies, method: Method, by: float) -> None:
    y, v = data
    one, two = pool(y, v, method=method), pool(y + by, v, method=method)
    moved = (one.estimate + by, one.low + by, one.high + by, one.prediction_low + by, one.tau2)
    assert (two.estimate, two.low, two.high, two.prediction_low, two.tau2) == pytest.approx(
        moved, rel=FLAT, abs=FLAT
    )


@given(studies(), methods, st.floats(0.001, 1000), st.sampled_from([1, -1]))
def test_a_change_of_unit_changes_only_the_unit(
    data: Studies, method: Method, c: float, sign: int
) -> None:
    y, v = data
    one, two = pool(y, v, method=method), pool(sign * c * y, c * c * v, method=method)
    ends = sorted((sign * one.low, sign * one.high))
    assert (two.estimate / c, two.low / c, two.high / c) == pytest.approx(
        (sign * one.estimate, *ends), rel=FLAT, abs=FLAT
    )
    assert (two.tau2 / c**2, two.q, two.i2) == pytest.approx(
        (one.tau2, one.q, one.i2), rel=FLAT, abs=FLAT
    )


@given(studies(), effects)
def test_a_study_that_knows_nothing_moves_neither_mean_nor_reml(
    data: Studies, y_new: float
) -> None:
    """By moments (PM, DL) it would: Q keeps its value while its expectation k-1 grows by one."""
    y, v = data
    one, two = pool(y, v), pool(np.append(y, y_new), np.append(v, 1e12))
    assert (two.tau2, two.estimate) == pytest.approx((one.tau2, one.estimate), rel=1e-4, abs=1e-5)
    if tau2(y, v, "DL").value > 0:
        assert tau2(np.append(y, y_new), np.append(v, 1e12), "DL").value < tau2(y, v, "DL").value


@given(studies())
def test_counting_every_study_twice_doubles_q_and_feigns_precision(data: Studies) -> None:
    y, v = data
    one, two = inverse_variance(y, v), inverse_variance(np.tile(y, 2), np.tile(v, 2))
    assert (two.estimate, two.se * math.sqrt(2)) == pytest.approx(
        (one.estimate, one.se), rel=1e-9, abs=1e-12
    )
    twice = heterogeneity(np.tile(y, 2), np.tile(v, 2), 0.0).q
    assert twice == pytest.approx(2 * heterogeneity(y, v, 0.0).q, rel=1e-9, abs=1e-12)


@given(studies(), methods)
def test_intervals_nest(data: Studies, method: Method) -> None:
    """tau² >= 0; estimate within interval within prediction; with the guard never narrower than common effect and normal.

    The last because q >= 1, because tau² only adds to a variance, and because t exceeds z.
    """
    y, v = data
    ours = pool(y, v, method=method)
    assert ours.tau2 >= 0
    assert 0 <= ours.tau2_low <= ours.tau2_high
    assert ours.prediction_low <= ours.low < ours.estimate < ours.high <= ours.prediction_high
    common = inverse_variance(y, v)
    low, high = interval(common.estimate, common.se)
    assert ours.high - ours.low >= (high - low) * (1 - 1e-12)


@given(studies())
def test_pm_lies_in_the_q_profile_interval(data: Studies) -> None:
    """PM puts Q at k-1, which lies between the two quantiles for every k."""
    low, high = tau2_interval(*data)
    assert low <= tau2(*data, "PM").value <= high


@given(studies(least=3))
def test_leaving_one_out_is_pooling_the_others(data: Studies) -> None:
    y, v = data
    without = leave_one_out(y, v)
    assert [one.k for one in without] == [y.size - 1] * y.size
    assert without[1] == pool(np.delete(y, 1), np.delete(v, 1))


@given(studies())
def test_the_two_definitions_of_i2_agree_for_dl(data: Studies) -> None:
    y, v = data
    t = tau2(y, v, "DL").value
    assume(t > 0)
    ours = heterogeneity(y, v, t)
    assert ours.i2 == pytest.approx(ours.i2_tau2, rel=1e-9)
