"""Studies' effects and variances, checked and on a common scale, and weighted sums over them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from build_tools.evidence.errors import EvidenceError

Numbers = np.ndarray | Sequence[float]

#: Largest number, and smallest variance as a share of its square, that squares of weights can hold.
_LARGEST = 1e140
_SMALLEST = 1e-100


@dataclass(frozen=True)
class Scaled:
    """Studies in a unit that brings the largest number near 1, so that no square overflows."""

    y: np.ndarray
    """(k,) effects, moved so that their median is 0."""
    v: np.ndarray
    """(k,) sampling variances."""
    unit: float
    """A power of two, so that going there and back loses no digit."""
    centre: float

    def weights(self, tau2: float) -> np.ndarray:
        """(k,) weights 1/(v + tau²), for a tau² in the studies' own unit."""
        check_tau2(tau2)
        return 1 / (self.v + tau2 / self.unit / self.unit)


def scaled(y: Numbers, v: Numbers) -> Scaled:
    """Check effects ``y`` (k,) and variances ``v`` (k,) and bring them to a common scale.

    Raises ``EvidenceError`` when there is no study, when lengths differ, when a
    number is missing, infinite or a variance not above 0, or when sizes differ so
    much that no arithmetic can hold them.
    """
    y, v = np.asarray(y, dtype=float), np.asarray(v, dtype=float)
    if y.ndim != 1 or y.shape != v.shape:
        raise EvidenceError(
            f"effects and variances must be two lists of one length, not of shapes {y.shape} and {v.shape}"
        )
    if y.size == 0:
        raise EvidenceError("no study to pool")
    for i in np.flatnonzero(~np.isfinite(y))[:1]:
        raise EvidenceError(f"effect {i + 1} of {y.size} is {y[i]}, not a finite number")
    for i in np.flatnonzero(~(np.isfinite(v) & (v > 0)))[:1]:
        raise EvidenceError(
            f"variance {i + 1} of {y.size} is {v[i]}: to be pooled, a study needs a finite variance above 0"
        )
    with np.errstate(over="ignore", invalid="ignore"):  # what overflows is refused below
        centre = float(np.median(y))
        largest = float(max(np.max(np.abs(y - centre)), math.sqrt(v.max())))
    if not 1 / _LARGEST < largest < _LARGEST or float(v.min()) / largest / largest < _SMALLEST:
        sizes = (
            f"variances from {v.min():g} to {v.max():g}, effects from {y.min():g} to {y.max():g}"
        )
        raise EvidenceError(f"{sizes}: too far apart to reckon with")
    unit = math.ldexp(1.0, math.frexp(largest)[1])
    return Scaled((y - centre) / unit, v / unit / unit, unit, centre)


def check_tau2(tau2: float) -> None:
    """Raise ``EvidenceError`` for what cannot be a variance."""
    if not (math.isfinite(tau2) and tau2 >= 0):
        raise EvidenceError(f"tau² is a variance, at least 0, not {tau2}")


def several(y: Numbers, v: Numbers) -> Scaled:
    """``scaled``, for what needs two studies or more."""
    s = scaled(y, v)
    if s.y.size < 2:
        raise EvidenceError("one study says nothing about how studies differ: that needs two")
    return s


def residuals(y: np.ndarray, w: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Weighted means (n,) and residuals (n, k) of y (k,), for n sets of weights (n, k).

    The mean is taken twice, the second time of what the first left over: with one
    dominant weight the first mean alone loses the digits of the smallest residual.
    """
    total = w.sum(axis=-1)
    mean = w @ y / total
    left = y - mean[:, None]
    rest = (w * left).sum(axis=-1) / total
    return mean + rest, left - rest[:, None]


def sum_of_squares(y: np.ndarray, w: np.ndarray) -> np.ndarray:
    """sum w (y - mean)², (n,), for n sets of weights (n, k)."""
    return (w * residuals(y, w)[1] ** 2).sum(axis=-1)


def spare_weight(w: np.ndarray) -> np.ndarray:
    """sum w - sum w²/sum w, (n,), for n sets of weights (n, k), as a sum of positive terms: no digits cancel."""
    before = np.cumsum(w, axis=-1) - w
    return 2 * (w * before).sum(axis=-1) / w.sum(axis=-1)
