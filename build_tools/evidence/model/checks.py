"""Does the evidence of a network agree with itself? Heterogeneity within and between designs.

A design is the set of treatments that one sample compares. Names and decomposition
as in Krahn, Binder & König (2013) and Higgins et al. (2012), from memory; values as in
``tests/reference/statistics.yaml``.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np
from scipy.special import chdtrc

from .network import Network
from .rows import Rows, project

#: Below this share of its own information, what a design says is tied to nothing else in the network.
LOOSE = 1e-10

Design = tuple[str, ...]


@dataclass(frozen=True)
class Heterogeneity:
    """Q of Cochran's kind with its degrees of freedom."""

    q: float
    df: int

    @property
    def p(self) -> float | None:
        """Probability of a Q as large when all studies estimate the same; None without degrees of freedom."""
        return float(chdtrc(self.df, self.q)) if self.df else None

    @property
    def i2(self) -> float:
        """Higgins' I² in percent: 100 max(0, (Q - df)/Q)."""
        return 100 * max(0.0, (self.q - self.df) / self.q) if self.q > 0 else 0.0

    def __sub__(self, other: Heterogeneity) -> Heterogeneity:
        """Rounding never takes a difference of nested models below zero."""
        df = self.df - other.df
        return Heterogeneity(max(0.0, self.q - other.q) if df else 0.0, df)


@dataclass(frozen=True)
class Decomposition:
    """Q of the common-effect model (tau² = 0), taken apart; designs are sorted tuples of ids."""

    total: Heterogeneity
    within: Heterogeneity
    """Studies of one design that differ among themselves."""
    between: Heterogeneity
    """Designs that differ: inconsistency."""
    within_design: Mapping[Design, Heterogeneity]
    after_detaching: Mapping[Design, Heterogeneity]
    """``between`` once a design speaks for itself alone; only designs that stand in a loop."""


def decompose(network: Network) -> Decomposition:
    """Q total, within and between designs, by design, and after detaching each design in turn."""
    designs = _designs(network)
    complete = project(_without_first(network.rows), 0.0)
    total = Heterogeneity(complete.sum_of_squares, network.df)
    within_design = {design: _q(rows, 0.0) for design, (_, rows) in designs.items()}
    within = _sum(within_design.values())
    after = {}
    for design, (where, _) in designs.items():
        rest = total - _resting_on(complete.q, complete.residual, where)
        if rest.df < total.df - within_design[design].df:
            after[design] = rest - (within - within_design[design])
    return Decomposition(total, within, total - within, within_design, after)


def _designs(network: Network) -> dict[Design, tuple[np.ndarray, Rows]]:
    """By design: where its rows are, and these rows over its own treatments less the first."""
    blocks = defaultdict(list)
    for number, block in enumerate(network.blocks):
        blocks[tuple(sorted(block.treatments))].append(number)
    designs = {}
    for design, numbers in sorted(blocks.items()):
        where = np.flatnonzero(np.isin(network.rows.block, numbers))
        designs[design] = (
            where,
            network.rows.of(where, [network.treatments.index(t) for t in design[1:]]),
        )
    return designs


def _without_first(rows: Rows) -> Rows:
    return rows.of(np.arange(len(rows.y)), range(1, rows.x.shape[1]))


def _q(rows: Rows, tau2: float) -> Heterogeneity:
    return Heterogeneity(project(rows, tau2).sum_of_squares, rows.x.shape[0] - rows.x.shape[1])


def _sum(parts: Collection[Heterogeneity]) -> Heterogeneity:
    return Heterogeneity(sum(p.q for p in parts), sum(p.df for p in parts))


def _resting_on(q: np.ndarray, residual: np.ndarray, where: np.ndarray) -> Heterogeneity:
    """How much of Q, and how many degrees of freedom, go with some rows.

    Leaving rows out of a least-squares fit takes e (I - H)⁻¹ e from Q, H the rows' part
    of the hat matrix and e their residuals. Where I - H is singular the network falls
    apart without them; in those directions e is zero and the pseudoinverse is right.
    """
    values, vectors = np.linalg.eigh(np.eye(len(where)) - q[where] @ q[where].T)
    tied = values > LOOSE
    along = vectors[:, tied].T @ residual[where]
    return Heterogeneity(float((along**2 / values[tied]).sum()), int(tied.sum()))
