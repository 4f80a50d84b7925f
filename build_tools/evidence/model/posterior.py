"""Where a log ratio probably lies: mixtures of normals over the spread between studies, or a density on a grid.

Everything the engine says of a pair is read from one of these: the middle, the 95% interval, and the chance of
more than any amount.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

Array = NDArray[np.float64]

#: A quantile is found when Newton's last step is shorter than this share of a standard deviation; what is left is its square.
_NEAR = 1e-7
#: Points of a Gauss-Legendre rule in each panel, here and in ``nodes``: exact for polynomials of degree 23.
ORDER = 12
_POINTS, _WEIGHTS = np.polynomial.legendre.leggauss(ORDER)


class Posterior(Protocol):
    """A distribution of a log ratio."""

    @property
    def mean(self) -> float:
        """Its mean."""

    @property
    def sd(self) -> float:
        """Its standard deviation."""

    def below(self, x: float) -> float:
        """Chance of less than ``x``."""

    def density(self, x: float) -> float:
        """Its density at ``x``."""

    def mirrored(self) -> Posterior:
        """That of the other side."""


def quantile(of: Posterior, p: float) -> float:
    """Where a chance ``p`` (0 to 1) lies below: Newton's method, held between ends that close in."""
    # From where a normal distribution would have it, which is seldom far.
    x = of.mean + float(ndtri(p)) * of.sd
    low, high = -np.inf, np.inf
    for _ in range(200):
        off = of.below(x) - p
        low, high = (x, high) if off < 0 else (low, x)
        slope = of.density(x)
        then = x - off / slope if slope > 0 else np.inf
        # Before the ends are asked: where it stands already, it lies on one of them.
        if abs(then - x) <= _NEAR * of.sd:
            return float(then)
        if not low < then < high:
            ends = (low, high) if np.isfinite(low) and np.isfinite(high) else None
            then = sum(ends) / 2 if ends else x + (-of.sd if off > 0 else of.sd)
        x = then
    return float(x)


def interval(of: Posterior, level: float = 0.95) -> tuple[float, float]:
    """The central interval."""
    tail = (1 - level) / 2
    return quantile(of, tail), quantile(of, 1 - tail)


@dataclass(frozen=True, eq=False)
class Mixture:
    """Normal distributions with weights that sum to 1; three arrays of one length."""

    weights: Array
    means: Array
    sds: Array

    @cached_property
    def mean(self) -> float:
        """Its mean."""
        return float(self.weights @ self.means)

    @cached_property
    def sd(self) -> float:
        """Its standard deviation."""
        return float(np.sqrt(self.weights @ (self.sds**2 + (self.means - self.mean) ** 2)))

    def below(self, x: float) -> float:
        """Chance of less than ``x``."""
        return float(self.weights @ ndtr((x - self.means) / self.sds))

    def density(self, x: float) -> float:
        """Its density at ``x``."""
        z = (x - self.means) / self.sds
        return float(self.weights @ (np.exp(-(z**2) / 2) / self.sds)) / float(np.sqrt(2 * np.pi))

    def mirrored(self) -> Mixture:
        """That of the other side."""
        return Mixture(self.weights, -self.means, self.sds)


@dataclass(frozen=True, eq=False)
class Density:
    """A density known at the Gauss points of panels that cover all of it."""

    edges: Array
    """(k+1,) ends of the panels."""
    values: Array
    """(k, ORDER) density at their points; integrates to 1."""

    @cached_property
    def _halves(self) -> Array:
        return np.diff(self.edges) / 2

    @cached_property
    def _points(self) -> Array:
        return (self.edges[:-1] + self._halves)[:, None] + self._halves[:, None] * _POINTS

    @cached_property
    def _before(self) -> Array:
        """(k+1,) chance below each edge."""
        return np.concatenate([[0.0], np.cumsum(self._halves * (self.values @ _WEIGHTS))])

    def _moment(self, values: Array) -> float:
        return float(self._halves @ ((self.values * values) @ _WEIGHTS))

    @cached_property
    def mean(self) -> float:
        """Its mean."""
        return self._moment(self._points)

    @cached_property
    def sd(self) -> float:
        """Its standard deviation."""
        return float(np.sqrt(self._moment((self._points - self.mean) ** 2)))

    def _place(self, x: float) -> tuple[int, float]:
        """The panel of ``x`` and where in it, from -1 to 1."""
        n = min(max(int(self.edges.searchsorted(x)) - 1, 0), len(self._halves) - 1)
        return n, float((x - self.edges[n]) / self._halves[n] - 1)

    def below(self, x: float) -> float:
        """Chance of less than ``x``."""
        if x <= self.edges[0]:
            return 0.0
        if x >= self.edges[-1]:
            return 1.0
        n, at = self._place(x)
        part = _polynomials(at, ORDER + 1) @ (_INTEGRAL @ self.values[n])
        return float(self._before[n] + self._halves[n] * part)

    def density(self, x: float) -> float:
        """Its density at ``x``."""
        if not self.edges[0] < x < self.edges[-1]:
            return 0.0
        n, at = self._place(x)
        return float(_polynomials(at, ORDER) @ (_LEGENDRE @ self.values[n]))

    def mirrored(self) -> Density:
        """That of the other side."""
        return Density(-self.edges[::-1], self.values[::-1, ::-1])


def _polynomials(x: float, count: int) -> Array:
    """The first Legendre polynomials at ``x``."""
    found = [1.0, x]
    for n in range(1, count - 1):
        found.append(((2 * n + 1) * x * found[n] - n * found[n - 1]) / (n + 1))
    return np.array(found)


#: (ORDER, ORDER) values at a panel's points -> coefficients of the Legendre series through them.
_LEGENDRE = (np.polynomial.legendre.legvander(_POINTS, ORDER - 1) * _WEIGHTS[:, None]).T * (
    np.arange(ORDER)[:, None] + 0.5
)
#: (ORDER + 1, ORDER) the same for their integral from -1.
_INTEGRAL = np.polynomial.legendre.legint(_LEGENDRE, lbnd=-1, axis=0)


def on_panels(edges: Array, log_density: Callable[[Array], Array]) -> Density:
    """A density from its logarithm, up to a constant, at the Gauss points of the panels between ``edges``."""
    halves = np.diff(edges) / 2
    points = (edges[:-1] + halves)[:, None] + halves[:, None] * _POINTS
    logs = log_density(points.ravel()).reshape(points.shape)
    values = np.exp(logs - logs.max())
    return Density(edges, values / float(halves @ (values @ _WEIGHTS)))
