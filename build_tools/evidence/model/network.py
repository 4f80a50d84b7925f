"""Network meta-analysis by generalised least squares on contrast blocks.

Consistency model: one effect per treatment, contrasts are differences of effects,
one tau² for the network, and tau²/2 as the covariance of two contrasts of one sample.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Literal, NamedTuple

import numpy as np

from ..errors import EvidenceError
from .blocks import Block, check, components
from .intervals import Interval, critical, inflation, pair_df, pair_variances
from .rows import Rows, decorrelate, project
from .tau2 import moments, restricted

__all__ = ["Block", "Interval", "League", "Network", "PairEffect", "components", "fit"]

Method = Literal["REML", "moments"]
#: How tau² came about: one contrast per parameter leaves nothing to estimate it from.
Tau2From = Literal[
    "REML", "moments", "moments, as REML did not converge", "given", "nothing to estimate it from"
]


class PairEffect(NamedTuple):
    """Log ratio of one treatment against another and its standard error under the model."""

    estimate: float
    se: float


@dataclass(frozen=True, eq=False)
class League:
    """Every pair: the row's treatment against the column's, as (T, T) arrays of log ratios."""

    treatments: tuple[str, ...]
    estimate: np.ndarray
    se: np.ndarray
    """Under the model, before the small-sample rule."""
    lower: np.ndarray
    upper: np.ndarray
    """Interval by the small-sample rule of ``network_intervals``."""


@dataclass(frozen=True, eq=False)
class Network:
    """A fitted connected network of T treatments and n contrast rows."""

    treatments: tuple[str, ...]
    """Sorted ids; the order of every array."""
    reference: str
    blocks: tuple[Block, ...]
    rows: Rows
    tau2: float
    tau2_from: Tau2From
    q: float
    """Generalised Q: weighted residual sum of squares at ``tau2``."""
    df: int
    """n - (T - 1)."""
    effect: np.ndarray
    """(T,) log ratio against the reference."""
    covariance: np.ndarray
    """(T, T) of ``effect``, under the model; zero for the reference."""
    solution: np.ndarray
    """(T, n): ``effect`` = ``solution`` @ ``rows.y``."""

    def estimate(self, a: str, b: str) -> PairEffect:
        """Treatment ``a`` against ``b``."""
        i, j = self._at(a), self._at(b)
        variance = self.covariance[i, i] + self.covariance[j, j] - 2 * self.covariance[i, j]
        return PairEffect(
            float(self.effect[i] - self.effect[j]), float(np.sqrt(max(variance, 0.0)))
        )

    def interval(self, a: str, b: str, level: float = 0.95) -> Interval:
        """Confidence interval of ``a`` against ``b`` by the small-sample rule."""
        return self._interval(a, b, 0.0, level)

    def prediction(self, a: str, b: str, level: float = 0.95) -> Interval | None:
        """Where the true log ratio of a further study would lie; None where tau² could not be estimated."""
        return self._interval(a, b, self.tau2, level) if self.df else None

    def league(self, level: float = 0.95) -> League:
        """All pairs at once."""
        estimate = self.effect[:, None] - self.effect[None, :]
        se = np.sqrt(pair_variances(self.covariance))
        half = critical(self.pair_df, level) * inflation(self.q, self.df) * se
        return League(self.treatments, estimate, se, estimate - half, estimate + half)

    def _interval(self, a: str, b: str, further: float, level: float) -> Interval:
        i, j = self._at(a), self._at(b)
        estimate, se = self.estimate(a, b)
        se, df = se * inflation(self.q, self.df), float(self.pair_df[i, j])
        half = _critical(df, level) * float(np.sqrt(further + se**2))
        return Interval(estimate - half, estimate + half, se, df)

    @cached_property
    def pair_df(self) -> np.ndarray:
        """(T, T) degrees of freedom of every pair's interval, infinite for the normal distribution."""
        return pair_df(self.df, self.blocks, self.rows, self.solution, self.tau2)

    def _at(self, treatment: str) -> int:
        try:
            return self.treatments.index(treatment)
        except ValueError:
            raise EvidenceError(
                f"'{treatment}' is not in this network: {', '.join(self.treatments)}"
            ) from None


def fit(
    blocks: Sequence[Block],
    *,
    tau2: float | None = None,
    method: Method = "REML",
    reference: str | None = None,
) -> Network:
    """Fit one connected network.

    Args:
        blocks: At least one; samples of different people.
        tau2: Between-study variance (log ratio squared) to use as it is; estimated by ``method`` when None.
        method: Restricted maximum likelihood, or the generalised method of moments.
        reference: Treatment that ``effect`` is against; the one in most blocks when None. No pair depends on it.

    Raises:
        EvidenceError: when a block is malformed, the blocks are not connected, or ``tau2`` is not a variance.
    """
    for block in blocks:
        check(block)
    parts = components(blocks)
    if len(parts) != 1:
        raise EvidenceError(
            f"one connected network is needed, here {len(parts)}: "
            + "; ".join(", ".join(p.treatments) for p in parts)
        )
    if tau2 is not None and not 0 <= tau2 < np.inf:
        raise EvidenceError(f"tau² must be a finite number, 0 or more, here {tau2:g}")
    treatments = parts[0].treatments
    if reference is None:
        reference = min(treatments, key=lambda t: (-sum(t in b.treatments for b in blocks), t))
    elif reference not in treatments:
        raise EvidenceError(
            f"the reference '{reference}' is not in this network: {', '.join(treatments)}"
        )
    rows = decorrelate(blocks, treatments)
    basic = [i for i, t in enumerate(treatments) if t != reference]
    own = rows.of(np.arange(len(rows.y)), basic)
    value, origin = _tau2(own, method, tau2)
    p = project(own, value)
    inverse = np.linalg.inv(p.r)
    solution, covariance = (
        np.zeros((len(treatments), len(rows.y))),
        np.zeros((len(treatments),) * 2),
    )
    solution[basic] = inverse @ p.q.T * np.sqrt(p.weight)
    covariance[np.ix_(basic, basic)] = inverse @ inverse.T
    return Network(
        treatments=treatments,
        reference=reference,
        blocks=tuple(blocks),
        rows=rows,
        tau2=value,
        tau2_from=origin,
        q=p.sum_of_squares,
        df=len(rows.y) - len(basic),
        effect=solution @ rows.y,
        covariance=covariance,
        solution=solution,
    )


@lru_cache
def _critical(df: float, level: float) -> float:
    """Every pair of a network asks for the same few."""
    return float(critical(np.asarray(df), level))


def _tau2(rows: Rows, method: Method, given: float | None) -> tuple[float, Tau2From]:
    if given is not None:
        return given, "given"
    if rows.x.shape[0] == rows.x.shape[1]:
        return 0.0, "nothing to estimate it from"
    if method == "moments":
        return moments(rows), "moments"
    value = restricted(rows)
    return (
        (value, "REML")
        if value is not None
        else (moments(rows), "moments, as REML did not converge")
    )
