"""Samples that treatments connect, weighed together for every spread between studies that the prior allows.

Consistency model: one effect per treatment, contrasts are differences of effects, one spread tau for the
network, tau²/2 as the covariance of two contrasts of one sample. Effects have a flat prior, tau a half-normal one
(Roever 2020, doi:10.18637/jss.v093.i06, for two treatments), integrated by quadrature: no estimate of tau is ever
plugged in, so one study is no special case.

A sample's covariance is itself estimated from few people. It is widened by (t / z)², so that the interval of a
single sample, were there no spread between studies, is the t interval that its paper would print.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations
from math import sqrt
from typing import NamedTuple

import numpy as np

from ..effects.spread import critical
from ..errors import EvidenceError
from .blocks import Block, check, components
from .nodes import spread_nodes
from .posterior import Array, Mixture
from .rows import Rows, decorrelate, project

#: A sample carries an estimate from this share of its weight on: what weighs less changes no digit that is told.
_CARRYING = 1e-3
#: Spreads between studies that are less likely than this, against the likeliest, are let go.
_UNLIKELY = 1e-18


class PairEffect(NamedTuple):
    """Log ratio of one treatment against another and its standard error, at one spread between studies."""

    estimate: float
    se: float


@dataclass(frozen=True, eq=False)
class FixedNetwork:
    """A network at one given spread between studies: generalised least squares. T treatments, n independent rows."""

    treatments: tuple[str, ...]
    """Sorted ids; the order of every array."""
    blocks: tuple[Block, ...]
    rows: Rows
    tau: float
    effect: Array
    """(T,) log ratio against the first treatment."""
    covariance: Array
    """(T, T) of ``effect``; zero for the first treatment."""
    solution: Array
    """(T, n): ``effect`` = ``solution`` @ ``rows.y``."""
    q: float
    """Weighted residual sum of squares."""
    df: int
    """n - (T - 1)."""

    def estimate(self, a: str, b: str) -> PairEffect:
        """Treatment ``a`` against ``b``."""
        i, j = place(self.treatments, a), place(self.treatments, b)
        variance = self.covariance[i, i] + self.covariance[j, j] - 2 * self.covariance[i, j]
        return PairEffect(
            float(self.effect[i] - self.effect[j]), float(np.sqrt(max(variance, 0.0)))
        )

    @cached_property
    def comparing(self) -> dict[frozenset[str], list[Block]]:
        """Pair -> the blocks that compare the two themselves."""
        found: dict[frozenset[str], list[Block]] = defaultdict(list)
        for block in self.blocks:
            for pair in combinations(block.treatments, 2):
                found[frozenset(pair)].append(block)
        return dict(found)

    def carrying(self, a: str, b: str) -> list[Block]:
        """The blocks that carry a pair's estimate; a branch that leads nowhere near it has no weight."""
        i, j = place(self.treatments, a), place(self.treatments, b)
        weight = np.bincount(
            self.rows.block, np.abs(self.solution[i] - self.solution[j]), len(self.blocks)
        )
        return [self.blocks[n] for n in np.flatnonzero(weight > _CARRYING * weight.sum())]


def fit_at(
    blocks: Sequence[Block], tau: float, known: tuple[tuple[str, ...], Rows] | None = None
) -> FixedNetwork:
    """Fit one connected network at a spread between studies (log ratio, 0 or more).

    ``known``: the treatments and rows of these very blocks, where somebody has them.

    Raises:
        EvidenceError: when a block is malformed, the blocks are not connected, or ``tau`` is no spread.
    """
    if not 0 <= tau < np.inf:
        raise EvidenceError(
            f"a spread between studies must be a finite number, 0 or more, here {tau:g}"
        )
    if known is None:
        known = (treatments := _connected(blocks)), decorrelate(blocks, treatments)
    treatments, rows = known
    p = project(rows.of(np.arange(len(rows.y)), range(1, len(treatments))), tau**2)
    inverse = np.linalg.inv(p.r)
    solution = np.zeros((len(treatments), len(rows.y)))
    covariance = np.zeros((len(treatments),) * 2)
    solution[1:] = inverse @ p.q.T * np.sqrt(p.weight)
    covariance[1:, 1:] = inverse @ inverse.T
    return FixedNetwork(
        treatments=treatments,
        blocks=tuple(blocks),
        rows=rows,
        tau=tau,
        effect=solution @ rows.y,
        covariance=covariance,
        solution=solution,
        q=p.sum_of_squares,
        df=len(rows.y) - (len(treatments) - 1),
    )


class Network:
    """A connected network weighed over all spreads between studies.

    Args:
        blocks: At least one; samples of different people.
        scale: Of the half-normal prior on the spread between studies (log ratio).

    Raises:
        EvidenceError: when a block is malformed or the blocks are not connected.
    """

    def __init__(self, blocks: Sequence[Block], scale: float) -> None:
        self.treatments = _connected(blocks)
        self.blocks = tuple(blocks)
        self.scale = scale
        self._widened = tuple(widened(block) for block in blocks)
        self._rows = rows = decorrelate(self._widened, self.treatments)
        x, y = rows.x[:, 1:], rows.y
        self.tau, prior = spread_nodes(
            scale, float(np.sqrt(rows.spread.min())), float(np.ptp(np.append(y, 0.0)))
        )
        root = 1 / np.sqrt(rows.spread + self.tau[:, None] ** 2)
        # (G, n, p): by QR, which keeps its digits when weights differ by many orders of magnitude.
        q, r = np.linalg.qr(x * root[:, :, None])
        response = y * root
        on_basis = np.einsum("gnp,gn->gp", q, response)
        inverse = np.linalg.inv(r)
        rest = np.maximum(0.0, (response**2).sum(axis=1) - (on_basis**2).sum(axis=1))
        logs = (
            np.log(root).sum(axis=1)
            - np.log(np.abs(np.diagonal(r, axis1=1, axis2=2))).sum(axis=1)
            - rest / 2
        )
        weight = prior * np.exp(logs - logs.max())
        # Spreads that the data rule out are let go, so that what follows is quick.
        kept = weight > _UNLIKELY * weight.max()
        self.tau = self.tau[kept]
        self.weight: Array = weight[kept] / weight[kept].sum()
        """(G,) of each node of ``tau``, after the data."""
        n = len(self.treatments)
        self._effect = np.zeros((len(self.tau), n))
        self._effect[:, 1:] = np.einsum("gpq,gq->gp", inverse, on_basis)[kept]
        self._inverse = np.zeros((len(self.tau), n, n - 1))
        self._inverse[:, 1:] = inverse[kept]

    def posterior(self, a: str, b: str) -> Mixture:
        """The log ratio of ``a`` to ``b``: the average over studies like these."""
        i, j = place(self.treatments, a), place(self.treatments, b)
        turned = self._inverse[:, i] - self._inverse[:, j]
        return Mixture(
            self.weight,
            self._effect[:, i] - self._effect[:, j],
            np.sqrt((turned**2).sum(axis=1)),
        )

    @cached_property
    def spread(self) -> float:
        """The spread between studies to expect: root of its mean square."""
        return float(np.sqrt(self.weight @ self.tau**2))

    @cached_property
    def typical(self) -> FixedNetwork:
        """At that spread, for whatever asks which samples weigh how much."""
        return fit_at(self._widened, self.spread, (self.treatments, self._rows))

    @cached_property
    def common(self) -> FixedNetwork:
        """Without any spread between studies, for whether they differ more than chance gives."""
        return fit_at(self._widened, 0.0, (self.treatments, self._rows))


def single(y: float, se: float, df: float | None, scale: float) -> tuple[Mixture, Array]:
    """One contrast alone, over the prior's spreads between studies, and these."""
    wide = se * widening(df)
    tau, weight = spread_nodes(scale, wide, 0.0)
    return Mixture(weight / weight.sum(), np.full(len(tau), y), np.sqrt(wide**2 + tau**2)), tau


def widening(df: float | None) -> float:
    """By how much a standard error estimated with ``df`` is widened: t over z."""
    return critical(df) / critical(None)


def widened(block: Block) -> Block:
    """A block whose normal interval is its t interval."""
    by = widening(block.df)
    return block if by == 1 else Block(block.study, block.treatments, block.y, block.v * by**2)


def place(treatments: tuple[str, ...], treatment: str) -> int:
    """Where a treatment stands. Raises ``EvidenceError`` for one that does not."""
    try:
        return treatments.index(treatment)
    except ValueError:
        raise EvidenceError(
            f"'{treatment}' is not in this network: {', '.join(treatments)}"
        ) from None


def pair_of(block: Block, a: str, b: str) -> PairEffect:
    """What one block says of two of its treatments."""
    weights = np.array([(t == a) - (t == b) for t in block.treatments[1:]], dtype=float)
    return PairEffect(float(weights @ block.y), sqrt(float(weights @ block.v @ weights)))


def _connected(blocks: Sequence[Block]) -> tuple[str, ...]:
    for block in blocks:
        check(block)
    parts = components(blocks)
    if len(parts) != 1:
        raise EvidenceError(
            f"one connected network is needed, here {len(parts)}: "
            + "; ".join(", ".join(p.treatments) for p in parts)
        )
    return parts[0].treatments
