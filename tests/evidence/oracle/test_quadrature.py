"""Networks weighed over every spread between studies, against scipy's adaptive quadrature of nothing but normal densities."""

from __future__ import annotations

from math import exp, sqrt

import numpy as np
import pytest
from networks import (
    SMALL,
    least_squares,
    pairs,
    random_network,
)
from scipy import integrate, stats

from build_tools.evidence.model.network import (
    Network,
)


@pytest.mark.parametrize(
    "told", [s for s in SMALL if s["set"] in ("two_growth", "three_activation")]
)
def test_a_pair_against_a_double_integral(told):
    """scipy's dblquad over the effect and the spread between studies, of nothing but normal densities: to 1e-8."""
    y, s, scale = np.array(told["y"]), np.array(told["s"]), told["prior"]["half_normal_scale"]
    found = Network(pairs(y, s), scale).posterior("a", "b")

    def density(mu: float, tau: float) -> float:
        like = float(np.prod(stats.norm.pdf(y, mu, np.sqrt(s**2 + tau**2))))
        return like * float(stats.halfnorm.pdf(tau, scale=scale))

    def mass(low: float, high: float) -> float:
        ends = np.array([0.0, 0.25, 1, 2.5, 9]) * scale
        return sum(
            integrate.dblquad(density, a, b, low, high, epsabs=0, epsrel=1e-10)[0]
            for a, b in zip(ends, ends[1:], strict=False)
        )

    middle, far = told["mu"]["mean"], 40 * told["mu"]["sd"]
    below, above_ = mass(middle - far, middle), mass(middle, middle + far)
    assert found.below(middle) == pytest.approx(below / (below + above_), abs=1e-8)
    edge = told["mu"]["quantiles"]["0.975"]
    upper = mass(edge, edge + far)
    assert 1 - found.below(edge) == pytest.approx(upper / (below + above_), abs=1e-8)


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("scale", [0.03, 0.3])
def test_a_network_against_quadrature_over_whole_matrices(seed, scale):
    """The effects integrated out by dense least squares, the spread between studies by scipy's quad: to 1e-8."""
    blocks = random_network(seed, 4, 7)
    network = Network(blocks, scale)
    treatments = network.treatments
    top = max(least_squares(blocks, tau)[3] for tau in np.linspace(0, 5 * scale, 40))

    def weight(tau: float) -> float:
        return exp(least_squares(blocks, tau)[3] - top) * float(
            stats.halfnorm.pdf(tau, scale=scale)
        )

    def average(of) -> float:
        ends = np.array([0.0, 0.1, 0.5, 1, 2, 4, 9]) * scale
        return sum(
            integrate.quad(lambda tau: weight(tau) * of(tau), a, b, epsabs=0, epsrel=1e-11)[0]
            for a, b in zip(ends, ends[1:], strict=False)
        )

    total = average(lambda tau: 1.0)
    for a, b in ((treatments[1], treatments[0]), (treatments[3], treatments[2])):
        found = network.posterior(a, b)
        turn = np.array([(t == a) - (t == b) for t in treatments[1:]], dtype=float)

        def moments(tau: float, turn=turn) -> tuple[float, float]:
            effect, covariance, *_ = least_squares(blocks, tau)
            return float(turn @ effect), sqrt(float(turn @ covariance @ turn))

        assert found.mean == pytest.approx(
            average(lambda tau: moments(tau)[0]) / total, abs=1e-8 * found.sd
        )
        for x in (found.mean - 2 * found.sd, found.mean + 0.3 * found.sd, 0.0):
            wanted = average(lambda tau, x=x: float(stats.norm.cdf(x, *moments(tau)))) / total
            assert found.below(x) == pytest.approx(wanted, abs=1e-8)
