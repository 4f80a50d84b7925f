"""A network as independent rows, so that everything after is weighted least squares.

Random effects of one variance tau² on every contrast have covariance tau² P within
a block, P = (I + J)/2: tau² on the diagonal, tau²/2 off it (Higgins & Whitehead
1996, from memory). Solving V u = l P u once per block turns its contrasts into
independent ones of variance l + tau², whatever tau² is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from .blocks import Block


@dataclass(frozen=True, eq=False)
class Rows:
    """n independent rows over T treatments: ``y`` = ``x`` @ effects + error of variance ``spread`` + tau²."""

    y: np.ndarray
    """(n,)"""
    x: np.ndarray
    """(n, T), treatments in the order given; every row sums to zero."""
    spread: np.ndarray
    """(n,) variance of the row at tau² = 0."""
    block: np.ndarray
    """(n,) index of the block that the row comes from."""

    def of(self, where: np.ndarray, treatments: Sequence[int]) -> Rows:
        """The rows at ``where``, over some treatments only."""
        return Rows(
            self.y[where], self.x[where][:, list(treatments)], self.spread[where], self.block[where]
        )


@dataclass(frozen=True, eq=False)
class Projection:
    """Weighted least squares of rows on all their columns at one tau²."""

    weight: np.ndarray
    """(n,) 1 / (spread + tau²)."""
    q: np.ndarray
    """(n, p) orthonormal basis of the weighted columns."""
    r: np.ndarray
    """(p, p) upper triangle, weighted columns = ``q`` @ ``r``."""
    response: np.ndarray
    """(n,) weighted y."""
    residual: np.ndarray
    """(n,) weighted residuals."""

    @property
    def sum_of_squares(self) -> float:
        """Generalised Q: the weighted residual sum of squares."""
        return float(self.residual @ self.residual)


def decorrelate(blocks: Sequence[Block], treatments: Sequence[str]) -> Rows:
    """Independent rows of blocks that ``blocks.check`` let pass."""
    at = {treatment: i for i, treatment in enumerate(treatments)}
    n = sum(len(block.y) for block in blocks)
    rows = Rows(np.empty(n), np.zeros((n, len(at))), np.empty(n), np.empty(n, dtype=int))
    start = 0
    for number, block in enumerate(blocks):
        part = slice(start, start := start + len(block.y))
        whiten = _whitener(len(block.y))
        spread, vectors = np.linalg.eigh(whiten @ block.v @ whiten.T)
        turn = vectors.T @ whiten
        rows.y[part], rows.spread[part], rows.block[part] = turn @ block.y, spread, number
        rows.x[part, [at[t] for t in block.treatments[1:]]] = turn
        rows.x[part, at[block.treatments[0]]] = -turn.sum(axis=1)
    return rows


@lru_cache
def _whitener(m: int) -> np.ndarray:
    """(m, m) matrix B with B P Bᵀ = I."""
    return np.linalg.inv(np.linalg.cholesky((np.eye(m) + 1) / 2))


def project(rows: Rows, tau2: float) -> Projection:
    """Least squares by QR, which keeps its digits when weights differ by many orders of magnitude."""
    weight = 1 / (rows.spread + tau2)
    root = np.sqrt(weight)
    q, r = np.linalg.qr(rows.x * root[:, None])
    response = rows.y * root
    return Projection(weight, q, r, response, response - q @ (q.T @ response))
