"""Log ratios of means, the scale on which the handbook pools.

Each arm gives a log mean with c = sd^2 / (n m^2), the first-order (delta
method) variance of ln(mean) (Hedges, Gurevitch and Curtis 1999, Ecology
80:1150-1156; Lajeunesse 2011, doi:10.1890/11-0423.1 for correlated arms).

**Small samples.** The log of a sample mean lies c/2 too low on average, so c/2
is added per arm (Lajeunesse 2015, doi:10.1890/14-2402.1). The variance stays
first order: a second-order term is published (+c^2/2 per arm), but simulation
with normal means finds five times that (+5c^2/2), while either is below 3% of
the variance as long as c < 0.01. A term known to be wrong in size is left out.

Arms are kept apart as long as possible, as a vector y with covariance S, so
that shared arms, same people and several sites stay correlated: everything
later is a linear map of y, and the same map of S.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from ..errors import EvidenceError
from . import inputs
from .estimate import Effect
from .spread import critical

Array = NDArray[np.float64]


class LogMean(NamedTuple):
    """Log of one arm's mean, or of its growth factor."""

    log: float
    """As it stands in the paper, uncorrected."""
    c: float
    """Variance of ``log``, first order."""
    correction: float
    """What the small sample takes from ``log`` on average."""

    @property
    def y(self) -> float:
        """The corrected estimate."""
        return self.log + self.correction


def log_mean(mean: float, sd: float, n: float) -> LogMean:
    """Log of the mean of n people."""
    c = (inputs.sd(sd) / inputs.mean(mean)) ** 2 / inputs.people(n)
    return LogMean(math.log(mean), c, c / 2)


def log_growth_from_percent(change: float, sd: float, n: float) -> LogMean:
    """Log growth factor from a mean change in per cent and its SD in percentage points.

    The mean of people's own percentages stands for the percentage of the
    means; they differ by little where baselines and changes hardly correlate.
    """
    return log_mean(growth_factor(change), sd / 100, n)


def growth_factor(change: float) -> float:
    """After over before, from a change in per cent of before."""
    if not change > -100:
        raise EvidenceError(f"a change of {change:g}% leaves nothing: no ratio can be taken")
    return 1 + change / 100


def log_growth_from_pre_post(
    pre: float, sd_pre: float, post: float, sd_post: float, n: float, correlation: float
) -> LogMean:
    """ln(post / pre) of the means of n people whose two values correlate by ``correlation``."""
    before, after = log_mean(pre, sd_pre, n), log_mean(post, sd_post, n)
    v = log_ratio(after, before, correlation).v
    return LogMean(after.log - before.log, v, after.correction - before.correction)


def log_ratio(a: LogMean, b: LogMean, correlation: float = 0.0) -> Effect:
    """Corrected log ratio of arm ``a`` to arm ``b``; ``correlation`` between them is 0 unless the same people did both."""
    v = a.c + b.c - 2 * inputs.correlation(correlation) * math.sqrt(a.c * b.c)
    if not v > 1e-12 * (a.c + b.c):
        raise EvidenceError(
            f"with a correlation of {correlation:g} the ratio would have no spread, which cannot be weighed"
        )
    return Effect(a.y - b.y, v)


def log_ratio_from_difference(mean_a: float, mean_b: float, se: float) -> Effect:
    """ln(mean_a / mean_b) when only the standard error of mean_a - mean_b is known (paired or not).

    The standard error is divided by the logarithmic mean of the two means, so
    estimate over standard error is the t of the difference, and two equal
    means have an answer too. For growth, give growth factors and their ``se``.
    There is no small-sample correction: it needs each arm's spread.
    """
    y = math.log(inputs.mean(mean_a) / inputs.mean(mean_b))
    # Where the two are all but equal, their mean is the limit and loses no digits.
    between = (mean_a - mean_b) / y if abs(y) > 1e-6 else (mean_a + mean_b) / 2
    return Effect(y, (inputs.sd(se) / between) ** 2)


def log_ratio_from_ci(
    ratio: float, lower: float, upper: float, df: float | None = None, level: float = 0.95
) -> Effect:
    """Log of a reported ratio with its interval; normal quantile unless ``df`` is given.

    Half the interval's width on the log scale is the standard error, wherever
    the ratio stands within it.
    """
    inputs.mean(lower)
    if not lower <= ratio <= upper:
        raise EvidenceError(
            f"a ratio of {ratio:g} does not lie in its own interval, {lower:g} to {upper:g}"
        )
    return Effect(
        math.log(ratio),
        (inputs.interval(math.log(lower), math.log(upper)) / (2 * critical(df, level))) ** 2,
    )


def exchangeable(k: int, r: float) -> Array:
    """(k, k) correlations, ``r`` between any two.

    ``numpy.kron(exchangeable(arms, r), exchangeable(sites, s))`` is that of
    every site in every arm, site running fastest.
    """
    if inputs.correlation(r) * (k - 1) < -1:
        raise EvidenceError(f"{k} measurements cannot all correlate by {r:g} with each other")
    return np.full((k, k), r) + (1 - r) * np.eye(k)


def covariance(c: ArrayLike, correlation: float | ArrayLike, same_people: bool) -> Array:
    """(k, k) covariance S of log means with variances ``c``: r sqrt(c_i c_j) when the same people did every arm.

    ``correlation`` is one number for all pairs or a (k, k) matrix; between
    groups of different people it does not count.
    """
    variances = np.asarray(c, dtype=float)
    if not same_people:
        return np.diag(variances)
    r = (
        exchangeable(len(variances), correlation)
        if isinstance(correlation, (int, float))
        else np.asarray(correlation, dtype=float)
    )
    if (
        r.shape != (len(variances),) * 2
        or not np.array_equal(r, r.T)
        or not np.allclose(np.diag(r), 1)
    ):
        raise EvidenceError(
            f"correlations of {len(variances)} arms form a symmetric table of that size with 1 on its diagonal"
        )
    if np.linalg.eigvalsh(r)[0] < -1e-9:
        raise EvidenceError(
            "these correlations contradict each other: no people could show them all"
        )
    s = np.sqrt(variances)
    products: np.ndarray = r * np.outer(s, s)  # named, as NumPy's types differ between versions
    return products


def linear(y: ArrayLike, s: ArrayLike, weights: ArrayLike) -> tuple[Array, Array]:
    """(W y, W S W') of a (rows, k) map of k correlated estimates."""
    w, values, cov = (np.asarray(x, dtype=float) for x in (weights, y, s))
    v = w @ cov @ w.T
    return w @ values, (v + v.T) / 2


def averaging(groups: Sequence[Sequence[int]], k: int) -> Array:
    """(groups, k) map that puts the plain average of each group's members in their place.

    For several sites along one muscle in the same people, several muscles of a
    group, or several arms that did the same exercise.
    """
    w = np.zeros((len(groups), k))
    for row, members in enumerate(groups):
        if not members:
            raise EvidenceError("a group without members has no average")
        w[row, list(members)] = 1 / len(members)
    return w


def contrasts(y: ArrayLike, s: ArrayLike, baseline: int = 0) -> tuple[Array, Array]:
    """(k-1,) contrasts of the other arms, in order, against ``baseline``, and their (k-1, k-1) covariance V = K S K'."""
    k = len(np.asarray(y))
    if k < 2:
        raise EvidenceError("one arm has nothing to be compared with")
    others = np.delete(np.eye(k), baseline, axis=0)
    return linear(y, s, others - np.eye(k)[baseline])
