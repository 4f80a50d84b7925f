"""Mixtures and densities against scipy's distributions."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from build_tools.evidence.model.posterior import Mixture, interval, on_panels, quantile

WEIGHTS, MEANS, SDS = (
    np.array([0.2, 0.5, 0.3]),
    np.array([-0.1, 0.2, 0.6]),
    np.array([0.05, 0.2, 0.4]),
)
MIXTURE = Mixture(WEIGHTS, MEANS, SDS)


def log_density(x):
    return np.log(stats.norm.pdf(x[:, None], MEANS, SDS) @ WEIGHTS) + 7.0


#: The same as a density on panels; the constant must fall out.
DENSITY = on_panels(np.linspace(-4, 5, 101), log_density)
both = pytest.mark.parametrize("found", [MIXTURE, DENSITY], ids=["mixture", "density"])


@both
def test_moments_by_hand(found):
    mean = float(WEIGHTS @ MEANS)
    assert found.mean == pytest.approx(mean, abs=1e-9)
    assert found.sd**2 == pytest.approx(float(WEIGHTS @ (SDS**2 + MEANS**2)) - mean**2, abs=1e-9)


@both
@pytest.mark.parametrize("x", [-0.3, -0.1, 0.0, 0.31, 1.7])
def test_chances_and_density(found, x):
    assert found.below(x) == pytest.approx(float(WEIGHTS @ stats.norm.cdf(x, MEANS, SDS)), abs=1e-9)
    assert found.density(x) == pytest.approx(
        float(WEIGHTS @ stats.norm.pdf(x, MEANS, SDS)), abs=1e-7
    )


@both
@pytest.mark.parametrize("p", [1e-6, 0.025, 0.5, 0.9, 0.975])
def test_a_quantile_is_where_that_chance_lies_below(found, p):
    assert found.below(quantile(found, p)) == pytest.approx(p, abs=1e-12)


@both
def test_an_interval_is_central(found):
    low, high = interval(found)
    assert (found.below(low), found.below(high)) == pytest.approx((0.025, 0.975), abs=1e-12)
    assert interval(found, 0.5)[0] == pytest.approx(quantile(found, 0.25))


@both
def test_the_other_side(found):
    other = found.mirrored()
    assert (other.mean, other.sd) == pytest.approx((-found.mean, found.sd))
    for x in (-0.4, 0.0, 0.3):
        assert other.below(x) == pytest.approx(1 - found.below(-x), abs=1e-12)
        assert other.density(x) == pytest.approx(found.density(-x), abs=1e-12)


def test_a_density_ends_at_its_edges():
    assert (DENSITY.below(-9), DENSITY.below(9), DENSITY.density(9)) == (0, 1, 0)


@pytest.mark.parametrize("sd", [1e-12, 1e-3, 1e3])
def test_one_normal_of_any_size(sd):
    found = Mixture(np.ones(1), np.array([5 * sd]), np.array([sd]))
    assert interval(found) == pytest.approx(tuple(stats.norm.interval(0.95, 5 * sd, sd)), rel=1e-12)
