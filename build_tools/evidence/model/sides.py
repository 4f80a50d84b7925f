"""Direct against indirect evidence on each pair that a sample compares itself.

Back-calculation: the network estimate is the precision-weighted mean of both, so the
indirect one follows from the other two. Plain standard errors and the normal
distribution throughout, at the network's tau².
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from .blocks import Block
from .network import Network, PairEffect

#: A share of direct evidence this close to all of it is all of it: the rest is rounding.
ALL = 1 - 1e-9


@dataclass(frozen=True)
class Sides:
    """Treatment ``a`` against ``b``, as log ratios."""

    a: str
    b: str
    samples: int
    """Samples that compare the two."""
    network: PairEffect
    direct: PairEffect
    """Inverse-variance mean of these samples' own contrasts, tau² added."""
    share: float
    """Part of the network estimate's precision that direct evidence has, 0 to 1."""
    indirect: PairEffect | None
    """None where the network adds nothing."""
    separate: bool
    """Whether a path joins the two without these samples. Where none does, ``indirect`` only
    repeats, through multi-arm samples, how their other contrasts fit the network."""

    @property
    def difference(self) -> PairEffect | None:
        """Direct less indirect."""
        if self.indirect is None:
            return None
        return PairEffect(
            self.direct.estimate - self.indirect.estimate,
            float(np.hypot(self.direct.se, self.indirect.se)),
        )

    @property
    def p(self) -> float | None:
        """Two-sided probability of such a difference when both sides estimate the same."""
        difference = self.difference
        return float(2 * ndtr(-abs(difference.estimate) / difference.se)) if difference else None


def split(network: Network) -> list[Sides]:
    """Both sides of every pair that is compared directly, ordered by its sorted ids."""
    found = defaultdict(list)
    for block in network.blocks:
        for a, b, y, v in _pairs(block):
            found[a, b].append((y, v, block))
    by_treatment = defaultdict(list)
    for block in network.blocks:
        for treatment in block.treatments:
            by_treatment[treatment].append(block)
    return [_sides(network, a, b, found[a, b], by_treatment) for a, b in sorted(found)]


def _pairs(block: Block) -> list[tuple[str, str, float, float]]:
    """Every pair of a block, sorted ids, with the contrast of the first against the second and its variance."""
    y = np.concatenate([[0.0], block.y])
    v = np.pad(block.v, (1, 0))
    order = sorted(range(len(y)), key=block.treatments.__getitem__)
    return [
        (
            block.treatments[i],
            block.treatments[j],
            float(y[i] - y[j]),
            float(v[i, i] + v[j, j] - 2 * v[i, j]),
        )
        for at, i in enumerate(order)
        for j in order[at + 1 :]
    ]


def _sides(
    network: Network,
    a: str,
    b: str,
    contrasts: list[tuple[float, float, Block]],
    by_treatment: dict[str, list[Block]],
) -> Sides:
    y, v = np.array([(y, v) for y, v, _ in contrasts]).T
    weight = 1 / (v + network.tau2)
    direct = PairEffect(float(weight @ y / weight.sum()), float(weight.sum() ** -0.5))
    both = network.estimate(a, b)
    share = min(1.0, (both.se / direct.se) ** 2)
    separate = _joined(a, b, by_treatment, {block for *_, block in contrasts})
    return Sides(
        a, b, len(contrasts), both, direct, share, _indirect(both, direct, share), separate
    )


def _indirect(both: PairEffect, direct: PairEffect, share: float) -> PairEffect | None:
    if share > ALL:
        return None
    return PairEffect(
        (both.estimate - share * direct.estimate) / (1 - share), both.se / float(np.sqrt(1 - share))
    )


def _joined(a: str, b: str, by_treatment: dict[str, list[Block]], without: set[Block]) -> bool:
    """Whether blocks other than ``without`` lead from a to b."""
    seen, ahead = {a}, [a]
    while ahead and b not in seen:
        for block in by_treatment[ahead.pop()]:
            if block not in without:
                ahead += [treatment for treatment in block.treatments if treatment not in seen]
                seen.update(block.treatments)
    return b in seen
