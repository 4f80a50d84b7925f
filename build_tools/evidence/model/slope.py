"""How much more a muscle grows for training it longer, over all exercises and versions whose length is known.

One regression line a muscle: the log ratio of two treatments' growth on the difference of their mean lengths (share of
the muscle's own range), no intercept, a half-normal prior on how far studies scatter around it and a normal prior
on the line itself, from a published review. It is a rule of thumb for a muscle and answers no question on a pair.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from .blocks import Block
from .network import widened
from .nodes import spread_nodes
from .posterior import Mixture, interval
from .rows import decorrelate


@dataclass(frozen=True)
class LengthSlope:
    """Log ratio of growth over a whole range of muscle length, with its 95% interval."""

    mean: float
    low: float
    high: float
    more: float
    """Chance that longer gives more, 0 to 1."""
    studies: tuple[str, ...]
    people: int
    prior: tuple[float, float]
    """Mean and standard deviation before any study of this muscle."""
    differences: tuple[float, float]
    """Smallest and largest difference of lengths that the studies compared."""


def fit_slope(
    samples: Sequence[tuple[Block, int]],
    lengths: Mapping[str, float],
    scale: float,
    prior: tuple[float, float],
    people: Mapping[str, int],
) -> LengthSlope | None:
    """The line through samples; ``None`` when no two treatments of any have lengths that differ.

    Args:
        samples: Block, and over how many numbers of the same people it is spread (parts, sites): its weight is shared.
        lengths: Treatment to mean length, 0 to 1.
        scale: Of the half-normal prior on the spread between studies.
        prior: Mean and standard deviation of the line.
        people: Study to its people.
    """
    blocks = [
        replace(widened(own), v=widened(own).v * shared)
        for block, shared in samples
        if (own := _known(block, lengths)) is not None
    ]
    if not blocks:
        return None
    treatments = sorted({t for block in blocks for t in block.treatments})
    rows = decorrelate(blocks, treatments)
    x = rows.x @ np.array([lengths[t] for t in treatments])
    if not np.abs(x).max() > 1e-9:
        return None
    tau, weight = spread_nodes(
        scale, float(np.sqrt(rows.spread.min())), float(np.ptp(np.append(rows.y, 0.0)))
    )
    w = 1 / (rows.spread + tau[:, None] ** 2)
    mean, sd = prior
    precision = sd**-2 + w @ x**2
    middle = (mean * sd**-2 + w @ (x * rows.y)) / precision
    logs = (
        np.log(w).sum(axis=1)
        - np.log(precision)
        - (w @ rows.y**2 + mean**2 * sd**-2 - precision * middle**2)
    ) / 2
    weight = weight * np.exp(logs - logs.max())
    found = Mixture(weight / weight.sum(), middle, precision**-0.5)
    low, high = interval(found)
    studies = tuple(sorted({block.study for block in blocks}))
    apart = [
        abs(lengths[t] - lengths[block.treatments[0]])
        for block in blocks
        for t in block.treatments[1:]
    ]
    return LengthSlope(
        mean=found.mean,
        low=low,
        high=high,
        more=1 - found.below(0.0),
        studies=studies,
        people=sum(people[study] for study in studies),
        prior=prior,
        differences=(min(apart), max(apart)),
    )


def _known(block: Block, lengths: Mapping[str, float]) -> Block | None:
    """The block over its treatments whose length is known; ``None`` when fewer than two are."""
    kept = [n for n, t in enumerate(block.treatments) if t in lengths]
    if len(kept) < 2:
        return None
    k = len(block.treatments)
    place = np.vstack([np.zeros(k - 1), np.eye(k - 1)])[kept]
    to = place[1:] - place[0]
    return replace(
        block,
        treatments=tuple(block.treatments[n] for n in kept),
        y=to @ block.y,
        v=to @ block.v @ to.T,
    )
