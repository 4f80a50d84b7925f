"""One connected component, fitted once, and what it says on each of its pairs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from math import exp

import numpy as np

from ..certainty.rating import Incoherence
from ..effects.spread import critical
from ..model.blocks import Block
from ..model.checks import Decomposition, decompose
from ..model.network import Network, fit
from ..model.sides import Sides, split
from .comparison import Combined, as_estimate
from .conclusions import NetworkOrder, Path, Ranked
from .ranking import rank
from .verdict import RatioInterval

#: Weights below this are rounding.
_WEIGHTLESS = 1e-9


class Fitted:
    """A component's network with everything derived from it computed once.

    ``people`` maps each block's study to its number of people.
    """

    def __init__(self, blocks: Sequence[Block], people: Mapping[str, int]) -> None:
        self.network: Network = fit(blocks)
        self._people = people

    @cached_property
    def _common(self) -> Network:
        return fit(self.network.blocks, tau2=0.0) if self.network.tau2 else self.network

    @cached_property
    def _sides(self) -> dict[frozenset[str], Sides]:
        return {frozenset((side.a, side.b)): side for side in split(self.network)}

    @cached_property
    def _q(self) -> Decomposition:
        return decompose(self.network)

    def combined(self, first: str, second: str) -> Combined:
        """What the network says on a pair."""
        net, side = self.network, self._sides.get(frozenset((first, second)))
        interval, prediction = net.interval(first, second), net.prediction(first, second)
        path: Path = (
            "indirect"
            if side is None
            else "direct and indirect"
            if side.separate and side.share < 1 - 1e-9
            else "direct"
        )
        behind = (
            [b for b in net.blocks if {first, second} <= set(b.treatments)]
            if path == "direct"
            else self._carrying(first, second)
        )
        known = net.df > 0
        return Combined(
            estimate=as_estimate(
                net.estimate(first, second).estimate,
                interval.lower,
                interval.upper,
                all(b.bounded for b in behind),
            ),
            path=path,
            studies=tuple(b.study for b in behind),
            people=self._count(behind),
            common=self._plain(first, second) if known else None,
            prediction=(exp(prediction.lower), exp(prediction.upper)) if prediction else None,
            i2=self._q.total.i2 if known else None,
            tau2=net.tau2 if known else None,
            q_p=self._q.total.p,
            direct_share=min(1.0, side.share) if side else 0.0,
            incoherence=_incoherence(side, first),
        )

    def component(self) -> NetworkOrder:
        """The exercises in order of their P-scores, against the one with the most samples."""
        net, scores = self.network, rank(self.network.league()).scores
        order = tuple(
            Ranked(
                id,
                score,
                None if id == net.reference else self.combined(id, net.reference).estimate,
            )
            for id, score in scores.items()
        )
        between, known = self._q.between, net.df > 0
        return NetworkOrder(
            reference=net.reference,
            order=order,
            samples=len(net.blocks),
            people=self._count(net.blocks),
            tau2=net.tau2 if known else None,
            i2=self._q.total.i2 if known else None,
            q_between_p=between.p,
        )

    def _plain(self, first: str, second: str) -> RatioInterval:
        """The pair under a common-effect model with the normal interval, which leaves the spread between studies out."""
        y, se = self._common.estimate(first, second)
        half = critical(None) * se
        return as_estimate(y, y - half, y + half)

    def _carrying(self, first: str, second: str) -> list[Block]:
        """Blocks with any weight in a pair's estimate; a branch that leads nowhere near it has none."""
        net = self.network
        i, j = net.treatments.index(first), net.treatments.index(second)
        weight = np.bincount(
            net.rows.block, np.abs(net.solution[i] - net.solution[j]), len(net.blocks)
        )
        return [net.blocks[number] for number in np.flatnonzero(weight > _WEIGHTLESS)]

    def _count(self, blocks: Sequence[Block]) -> int:
        return sum(self._people[block.study] for block in blocks)


def _incoherence(side: Sides | None, first: str) -> Incoherence | None:
    """How far direct and indirect evidence differ, turned to the pair as it is asked."""
    if side is None or not side.separate or side.p is None or side.difference is None:
        return None
    return Incoherence(
        side.p, exp(side.difference.estimate if first == side.a else -side.difference.estimate)
    )
