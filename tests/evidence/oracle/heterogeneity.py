"""How much the studies' true effects differ: Q, I², and tau² by several estimators.

Everywhere ``y`` are effects of shape (k,) on an additive scale (the log of a
ratio, here) and ``v`` their sampling variances of shape (k,) in the square of
y's unit. tau² has v's unit. Weights are w = 1/(v + tau²).

The definitions are those named in ``tests/reference/statistics.yaml`` (key
``definitions``); the papers named below are cited from memory.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy import special

from build_tools.evidence.errors import EvidenceError

from .root import bracketed_root
from .weighting import Numbers, Scaled, check_tau2, residuals, several, spare_weight, sum_of_squares

Method = Literal["REML", "ML", "PM", "DL", "HE", "HS", "SJ"]

_GRID = 128


@dataclass(frozen=True)
class Tau2:
    """An estimate of the variance of the true effects between studies."""

    value: float
    method: Method
    """The estimator that gave the value: the fallback's name when it was needed."""
    converged: bool
    """False when the estimator asked for found no answer and the fallback answered."""
    note: str = ""


@dataclass(frozen=True)
class Heterogeneity:
    """Cochran's Q and what is read off it."""

    q: float
    df: int
    p: float
    """Chance of a larger Q if all true effects were equal: chi² with k-1 df."""
    i2: float
    """Percent of the variation in y beyond chance: 100 max(0, (Q - df)/Q) (Higgins & Thompson 2002)."""
    i2_tau2: float
    """Percent by the other definition: 100 tau²/(tau² + s²), s² the typical sampling variance.
    The two agree for the DL estimator only."""
    h2: float
    """tau²/s² + 1."""


def _at(s: Scaled, t: np.ndarray | float) -> np.ndarray:
    """Weights (n, k) at each scaled tau² in ``t`` (n,)."""
    return 1 / (s.v + np.atleast_1d(t)[:, None])


def _q(s: Scaled, t: float) -> float:
    """Q at a scaled tau². Falls as tau² rises."""
    return float(sum_of_squares(s.y, _at(s, t))[0])


def _score(s: Scaled, t: np.ndarray | float, restricted: bool) -> np.ndarray:
    """Derivative by tau² of the (restricted) log likelihood at each scaled tau² in ``t`` (n,)."""
    w = _at(s, t)
    expected = spare_weight(w) if restricted else w.sum(axis=-1)
    return 0.5 * (((w * residuals(s.y, w)[1]) ** 2).sum(axis=-1) - expected)


def _log_likelihood(s: Scaled, t: float, restricted: bool) -> float:
    """Up to a constant."""
    w = _at(s, t)
    return float(
        0.5
        * (np.log(w).sum() - sum_of_squares(s.y, w)[0] - (np.log(w.sum()) if restricted else 0.0))
    )


def _most_likely(s: Scaled, restricted: bool) -> float | None:
    """The scaled tau² of greatest (restricted) likelihood: 0, or the best root of the score; ``None`` if a root escapes.

    For tau² above both the largest variance and 8 times the squared range of y the
    score is negative, so every root lies below; a grid finds where the score turns
    from rising to falling likelihood. Two turns within one step of the grid (a
    twentieth of a power of ten for usual variances) would be taken for none.
    """
    upper = max(float(s.v.max()), 8 * float(np.ptp(s.y)) ** 2)
    grid = np.concatenate([[0.0], np.geomspace(float(s.v.min()) / 1000, upper, _GRID)])
    slope = _score(s, grid, restricted)
    peaks = [0.0] if slope[0] <= 0 else []
    for i in np.flatnonzero((slope[:-1] > 0) & (slope[1:] <= 0)):
        peak = bracketed_root(
            lambda t: float(_score(s, t, restricted)[0]), float(grid[i]), float(grid[i + 1])
        )
        if peak is None:
            return None
        peaks.append(peak)
    return max(peaks, key=lambda t: _log_likelihood(s, t, restricted), default=None)


def _where_q_is(s: Scaled, target: float) -> float:
    """The scaled tau² at which Q equals ``target``; 0 when Q is below it everywhere."""
    if _q(s, 0.0) <= target:
        return 0.0
    # Squares about the weighted mean are the least, so Q(t) is at most the plain sum of squares over t.
    upper = float(((s.y - s.y.mean()) ** 2).sum()) / target * (1 + 1e-9)
    root = bracketed_root(lambda t: _q(s, t) - target, 0.0, upper)
    assert root is not None, "Q falls without a break from above the target to below it"
    return root


def _paule_mandel(s: Scaled) -> float:
    return _where_q_is(s, s.y.size - 1)


def _dersimonian_laird(s: Scaled) -> float:
    return (_q(s, 0.0) - (s.y.size - 1)) / float(spare_weight(_at(s, 0.0))[0])


def _hedges(s: Scaled) -> float:
    return float(s.y.var(ddof=1) - s.v.mean())


def _hunter_schmidt(s: Scaled) -> float:
    return (_q(s, 0.0) - s.y.size) / float((1 / s.v).sum())


def _sidik_jonkman(s: Scaled) -> float:
    start = float(s.y.var())
    return start * _q(s, start) / (s.y.size - 1)


_ESTIMATORS: dict[Method, Callable[[Scaled], float | None]] = {
    "REML": lambda s: _most_likely(s, restricted=True),  # Viechtbauer 2005
    "ML": lambda s: _most_likely(s, restricted=False),
    "PM": _paule_mandel,  # Paule & Mandel 1982; empirical Bayes (EB) is the same root
    "DL": _dersimonian_laird,  # DerSimonian & Laird 1986
    "HE": _hedges,
    "HS": _hunter_schmidt,
    "SJ": _sidik_jonkman,  # Sidik & Jonkman, started at the mean square of y about its mean
}
METHODS: tuple[Method, ...] = tuple(_ESTIMATORS)


def tau2(y: Numbers, v: Numbers, method: Method = "REML") -> Tau2:
    """Variance of the true effects between studies, cut at 0.

    REML and ML are the greatest likelihood, boundary included, found by bracketed
    roots of the score. Should they find none, PM answers, which always has one.
    Raises ``EvidenceError`` for fewer than two studies, an unknown method, and as
    ``weighting.scaled`` does.
    """
    s = several(y, v)
    if method not in _ESTIMATORS:
        raise EvidenceError(
            f"no estimator of tau² is called {method!r}: use one of {', '.join(METHODS)}"
        )
    value = _ESTIMATORS[method](s)
    if value is None:
        return Tau2(
            _paule_mandel(s) * s.unit**2, "PM", False, f"{method} found no maximum; PM instead"
        )
    return Tau2(max(0.0, value) * s.unit**2, method, True)


def tau2_interval(y: Numbers, v: Numbers, level: float = 0.95) -> tuple[float, float]:
    """Q-profile interval of tau² (Viechtbauer 2007): where Q meets the two tails of chi² with k-1 df.

    (0, 0) when Q is below the lower tail already at tau² = 0: the studies agree
    better than chance would have them. Raises as ``tau2`` does, and for a level not
    between 0 and 1.
    """
    s = several(y, v)
    tail = tail_of(level)
    low, high = (
        _where_q_is(s, float(special.chdtri(s.y.size - 1, p))) * s.unit**2 for p in (tail, 1 - tail)
    )
    return low, high


def heterogeneity(y: Numbers, v: Numbers, tau2: float) -> Heterogeneity:
    """Q, its p, I² and, from a given tau², the other I² and H². Raises as ``tau2`` does, and for a tau² below 0."""
    s = several(y, v)
    check_tau2(tau2)
    df, q = s.y.size - 1, _q(s, 0.0)
    typical = df / float(spare_weight(_at(s, 0.0))[0]) * s.unit**2
    return Heterogeneity(
        q=q,
        df=df,
        p=float(special.chdtrc(df, q)),
        i2=100 * (q - df) / q if q > df else 0.0,
        i2_tau2=100 * tau2 / (tau2 + typical),
        h2=tau2 / typical + 1,
    )


def tail_of(level: float) -> float:
    """The chance left beyond each end of a two-sided interval."""
    if not 0 < level < 1:
        raise EvidenceError(f"a level must lie between 0 and 1, not be {level}")
    return (1 - level) / 2
