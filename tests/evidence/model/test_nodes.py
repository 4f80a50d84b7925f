"""Points over spreads against scipy's half-normal and lognormal distributions."""

from __future__ import annotations

from math import exp, inf, log

import numpy as np
import pytest
from scipy import stats

from build_tools.evidence.model.nodes import BorrowedSpread, spread_nodes


@pytest.mark.parametrize("scale", [0.02, 0.2, 3.0])
@pytest.mark.parametrize("least", [1e-4, 0.03, 1.0])
@pytest.mark.parametrize("farthest", [0.0, 2.0])
@pytest.mark.parametrize(("growth", "digits"), [(2, 1e-10), (4, 1e-6)])
def test_the_prior_is_half_normal(scale, least, farthest, growth, digits):
    tau, weight = spread_nodes(scale, least, farthest, growth)
    assert weight.sum() == pytest.approx(1, abs=digits) and (np.diff(tau) > 0).all()
    prior = stats.halfnorm(scale=scale)
    for moment in (1, 2):
        assert weight @ tau**moment == pytest.approx(prior.moment(moment), rel=digits)
    # What happens to a study of that precision: its chance under a normal of variance least² + tau².
    told = stats.norm.pdf(0.4 * least, 0, np.hypot(least, tau))
    wanted = prior.expect(
        lambda t: stats.norm.pdf(0.4 * least, 0, np.hypot(least, t)), lb=0, ub=9 * scale, limit=200
    )
    assert weight @ told == pytest.approx(wanted, rel=max(digits, 1e-7))


def test_what_is_far_apart_is_reached():
    assert spread_nodes(0.02, 0.01, 3.0).tau[-1] > 2 * 3.0 * 0.9


SPREAD = BorrowedSpread(0.1, 0.5)


@pytest.mark.parametrize(("least", "most"), [(0, inf), (0.12, inf), (0, 0.08), (0.05, 0.2)])
def test_points_are_equally_likely_and_within_their_bounds(least, most):
    points = SPREAD.points(least, most)
    told = stats.lognorm(0.5, scale=0.1)
    assert ((points > least) & (points < most) & (points > 0)).all()
    low, high = told.cdf(least), told.cdf(most)
    shares = (told.cdf(points) - low) / (high - low)
    assert shares == pytest.approx((np.arange(len(points)) + 0.5) / len(points), abs=1e-9)


@pytest.mark.parametrize(("least", "most", "point"), [(9e9, inf, 9e9), (0, 1e-12, 1e-12)])
def test_the_nearer_end_stands_where_nothing_is_likely(least, most, point):
    assert SPREAD.points(least, most) == pytest.approx([point])


def test_the_span():
    assert SPREAD.span == pytest.approx(
        tuple(stats.lognorm.interval(0.95, 0.5, scale=0.1)), rel=1e-4
    )
    assert np.log(SPREAD.points()).mean() == pytest.approx(log(0.1)) and exp(
        log(0.1)
    ) == pytest.approx(SPREAD.middle)
