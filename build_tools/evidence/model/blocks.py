"""What one sample of people says in a network, and which samples hang together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..errors import EvidenceError

#: How far rounding may take a covariance from symmetry, and a variance from what it was, relative to the largest.
ROUNDING = 1e-12


@dataclass(frozen=True, eq=False)
class Block:
    """What one sample of people says about two or more treatments, on the log ratio scale."""

    study: str
    """Reference key (the first, when several publications share the sample)."""
    treatments: tuple[str, ...]
    """k distinct ids; the first is the block's baseline."""
    y: np.ndarray
    """(k-1,) log ratio of ``treatments[1:]`` against ``treatments[0]``."""
    v: np.ndarray
    """(k-1, k-1) covariance of ``y``."""
    df: float | None = None
    """Degrees of freedom that ``v`` was estimated with: people - 1 within people, people - 2 between two groups."""

    def renamed(self, treatments: tuple[str, ...]) -> Block:
        """The same under other names, for effects that differ from part to part."""
        return replace(self, treatments=treatments)


@dataclass(frozen=True, eq=False)
class ConnectedBlocks:
    """Blocks that the treatments they share connect; nothing can be said between two components."""

    treatments: tuple[str, ...]
    blocks: tuple[Block, ...]


def check(block: Block) -> None:
    """Refuse what cannot be a block.

    Raises:
        EvidenceError: naming the study and what is wrong.
    """
    k = len(block.treatments)
    if k < 2:
        raise EvidenceError(f"{block.study}: a comparison needs two treatments, here {k}")
    if len(set(block.treatments)) < k:
        raise EvidenceError(
            f"{block.study}: a treatment stands twice in one block: {', '.join(block.treatments)}"
        )
    if block.y.shape != (k - 1,) or block.v.shape != (k - 1, k - 1):
        raise EvidenceError(
            f"{block.study}: {k} treatments need {k - 1} contrasts and their covariance, "
            f"here shapes {block.y.shape} and {block.v.shape}"
        )
    if not (np.isfinite(block.y).all() and np.isfinite(block.v).all()):
        raise EvidenceError(f"{block.study}: a contrast or a variance is not a finite number")
    if block.df is not None and not block.df > 0:
        raise EvidenceError(
            f"{block.study}: degrees of freedom must be positive, here {block.df:g}"
        )
    if np.abs(block.v - block.v.T).max() > 1e4 * ROUNDING * np.abs(block.v).max():
        raise EvidenceError(f"{block.study}: the covariance of the contrasts is not symmetric")
    least = np.linalg.eigvalsh(block.v).min() if k > 2 else block.v[0, 0]
    tolerance = ROUNDING * np.abs(block.v).max()
    if least < -tolerance:
        raise EvidenceError(
            f"{block.study}: the covariance of the contrasts gives one of them a negative variance"
        )
    if least <= tolerance:
        raise EvidenceError(
            f"{block.study}: a contrast has no variance, which would outweigh every other study"
        )


def components(blocks: Sequence[Block]) -> list[ConnectedBlocks]:
    """The connected components, ordered by the first of their sorted treatments; blocks keep their order."""
    root: dict[str, str] = {}

    def find(treatment: str) -> str:
        while root.setdefault(treatment, treatment) != treatment:
            treatment = root[treatment]
        return treatment

    for block in blocks:
        for treatment in block.treatments[1:]:
            # The smaller id is the root, so that a component is named by its first treatment.
            low, high = sorted((find(block.treatments[0]), find(treatment)))
            root[high] = low
    return [
        ConnectedBlocks(
            tuple(t for t in sorted(root) if find(t) == first),
            tuple(b for b in blocks if find(b.treatments[0]) == first),
        )
        for first in sorted(t for t in root if find(t) == t)
    ]
