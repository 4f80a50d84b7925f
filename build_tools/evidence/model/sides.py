"""Direct against indirect evidence on a pair, at the spread between studies to expect.

Back-calculation: the network's estimate is the precision-weighted mean of both, so the indirect one follows from
the other two. Plain standard errors and the normal distribution throughout.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from .blocks import Block
from .network import FixedNetwork, PairEffect, pair_of

#: A share of direct evidence this close to all of it is all of it: the rest is rounding.
ALL = 1 - 1e-9


@dataclass(frozen=True)
class Sides:
    """The first treatment of a pair against the second, as log ratios."""

    network: PairEffect
    direct: PairEffect
    """Inverse-variance mean of the samples' own contrasts, the spread between studies added."""
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


def split(network: FixedNetwork, a: str, b: str) -> Sides | None:
    """Both sides of a pair; ``None`` when no sample compares the two itself."""
    own = network.comparing.get(frozenset((a, b)), [])
    if not own:
        return None
    pairs = [pair_of(block, a, b) for block in own]
    weight = np.array([1 / (pair.se**2 + network.tau**2) for pair in pairs])
    y = np.array([pair.estimate for pair in pairs])
    direct = PairEffect(float(weight @ y / weight.sum()), float(weight.sum() ** -0.5))
    both = network.estimate(a, b)
    share = min(1.0, (both.se / direct.se) ** 2)
    separate = share <= ALL and _joined(network, a, b, own)
    return Sides(both, direct, share, _indirect(both, direct, share), separate)


def _indirect(both: PairEffect, direct: PairEffect, share: float) -> PairEffect | None:
    if share > ALL:
        return None
    return PairEffect(
        (both.estimate - share * direct.estimate) / (1 - share), both.se / float(np.sqrt(1 - share))
    )


def _joined(network: FixedNetwork, a: str, b: str, without: list[Block]) -> bool:
    """Whether blocks other than ``without`` lead from a to b."""
    by_treatment = defaultdict(list)
    for block in network.blocks:
        if block not in without:
            for treatment in block.treatments:
                by_treatment[treatment].append(block)
    seen, ahead = {a}, [a]
    while ahead and b not in seen:
        for block in by_treatment[ahead.pop()]:
            ahead += [treatment for treatment in block.treatments if treatment not in seen]
            seen.update(block.treatments)
    return b in seen
