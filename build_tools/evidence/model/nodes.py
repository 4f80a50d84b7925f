"""Points and weights over the spread between studies and over spreads that nobody printed.

The prior on the spread between studies is half-normal (Roever et al. 2021, doi:10.1002/jrsm.1475): it stays honest
with one study, where nothing in the data shows how studies differ.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import exp, log
from typing import NamedTuple

import numpy as np
from scipy.special import ndtr, ndtri

from .posterior import _POINTS, _WEIGHTS, Array

#: A half-normal has one part in 10^16 beyond this many of its scales.
_REACH = 8.5
#: Borrowed spreads are taken at this many points.
_BORROWED_POINTS = 12


class SpreadNodes(NamedTuple):
    """Spreads between studies with the prior's weight of each."""

    tau: Array
    weight: Array


@lru_cache(maxsize=4096)
def spread_nodes(scale: float, least: float, farthest: float, growth: int = 2) -> SpreadNodes:
    """Nodes for a half-normal prior of ``scale``.

    ``least`` is the smallest standard error (what happens below it is smooth), ``farthest`` the
    largest distance between two results, beyond which no spread is believed. All are log ratios.
    Each panel is ``growth`` times as far out as the one before: 2 for ten digits, 4 for six.
    """
    end = max(_REACH * scale, 2 * farthest)
    edges = [0.0, min(scale, max(least, scale * 1e-4)) * growth / 4]
    while edges[-1] < end:
        edges.append(growth * edges[-1])
    starts, halves = np.array(edges[:-1]), np.diff(edges) / 2
    tau = ((starts + halves)[:, None] + halves[:, None] * _POINTS).ravel()
    weight = (halves[:, None] * _WEIGHTS).ravel()
    return SpreadNodes(
        tau, weight * np.exp(-((tau / scale) ** 2) / 2) / (scale * (np.pi / 2) ** 0.5)
    )


@dataclass(frozen=True)
class BorrowedSpread:
    """What a standard error probably is that nobody printed: lognormal, from other studies of the same measure."""

    middle: float
    """Its median, as a log ratio's standard error."""
    factor: float
    """Standard deviation of its logarithm."""

    def points(self, least: float = 0.0, most: float = np.inf) -> Array:
        """Equally likely standard errors between ``least`` and ``most``; the nearer end where none is at all likely there."""
        low = float(ndtr(log(least / self.middle) / self.factor)) if least > 0 else 0.0
        high = float(ndtr(log(most / self.middle) / self.factor)) if most < np.inf else 1.0
        if high - low < 1e-12:
            return np.array([least if low > 0.5 else most])
        shares = low + (high - low) * (np.arange(_BORROWED_POINTS) + 0.5) / _BORROWED_POINTS
        found: Array = self.middle * np.exp(self.factor * ndtri(shares))
        return found

    @property
    def span(self) -> tuple[float, float]:
        """Where 95% of them lie."""
        return self.middle * exp(-1.96 * self.factor), self.middle * exp(1.96 * self.factor)
