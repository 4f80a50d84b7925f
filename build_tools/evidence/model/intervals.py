"""Our convention for intervals in small networks.

With residual degrees of freedom df = rows - (T - 1) >= 1, standard errors are
multiplied by sqrt(max(1, Q/df)), Q at the tau² in use. From df = 3 on, t with df is
used: for two treatments the Hartung–Knapp–Sidik–Jonkman interval with its guard.

Below that, t with df would be so wide (12.7 standard errors at df = 1) that a second,
agreeing study made an answer less certain than the first alone. Each pair then takes
the degrees of freedom of the variances it rests on: a sample's own for one sample,
Satterthwaite's for several. Where a sample's are unknown, the normal distribution is used.

Other software for networks uses the normal distribution throughout, without the factor.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from scipy.special import ndtri, stdtrit

from .blocks import ROUNDING, Block
from .rows import Rows

#: Residual degrees of freedom from which they decide on t. Convention: below, t of 4.3 or 12.7 says nothing.
ENOUGH_DF = 3


class Interval(NamedTuple):
    """An interval on the log ratio scale, and what it was made with."""

    lower: float
    upper: float
    se: float
    """Standard error of the estimate after the small-sample factor."""
    df: float
    """Degrees of freedom of t; infinite for the normal distribution."""


def inflation(q: float, df: int) -> float:
    """Factor on every standard error."""
    return float(np.sqrt(max(1.0, q / df))) if df else 1.0


def critical(df: np.ndarray, level: float) -> np.ndarray:
    """Two-sided critical values of t; of the normal distribution where ``df`` is infinite."""
    tail = (1 + level) / 2
    finite = np.isfinite(df)
    found: np.ndarray = np.where(finite, stdtrit(np.where(finite, df, 1.0), tail), ndtri(tail))
    return found


def pair_variances(covariance: np.ndarray) -> np.ndarray:
    """(T, T) variances of all differences."""
    own = np.diag(covariance)
    variances: np.ndarray = np.maximum(own[:, None] + own[None, :] - 2 * covariance, 0.0)
    return variances


def pair_df(
    df: int, blocks: Sequence[Block], rows: Rows, solution: np.ndarray, tau2: float
) -> np.ndarray:
    """(T, T) degrees of freedom of every pair."""
    shape = (len(solution), len(solution))
    if df >= ENOUGH_DF:
        return np.full(shape, float(df))
    shares = [
        solution[:, rows.block == number] * np.sqrt(rows.spread[rows.block == number] + tau2)
        for number in range(len(blocks))
    ]
    parts = np.array([pair_variances(share @ share.T) for share in shares])
    total = parts.sum(axis=0)
    rests = parts > ROUNDING * total
    unknown = np.array([block.df is None for block in blocks])
    each = np.array([block.df or np.inf for block in blocks])[:, None, None]
    squares = np.where(rests, parts**2 / each, 0.0).sum(axis=0)
    known = (squares > 0) & ~(rests & unknown[:, None, None]).any(axis=0)
    found: np.ndarray = np.divide(total**2, squares, out=np.full(shape, np.inf), where=known)
    return found
