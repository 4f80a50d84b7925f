"""One connected component, weighed once, and what it says on each of its pairs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import exp

from scipy.special import chdtrc

from ..certainty.body import Incoherence
from ..model.blocks import Block
from ..model.finding import ratio_interval
from ..model.network import Network
from ..model.posterior import Array, Mixture, interval, quantile
from ..model.sides import Sides, split
from ..terms import Measured, Path
from .conclusions import NetworkOrder, Ranked


@dataclass(frozen=True)
class Connected:
    """What a component says on one pair, and what the certainty rules ask of it."""

    posterior: Mixture
    tau: Array
    """The spreads between studies over which ``posterior`` is mixed."""
    spread: float
    """The one to expect."""
    path: Path
    studies: tuple[str, ...]
    """The study that speaks for each sample that the answer rests on."""
    people: int
    heterogeneity_p: float | None
    """p of the test whether studies differ more than chance gives; ``None`` where nothing was measured twice."""
    direct_share: float
    incoherence: Incoherence | None

    def mirrored(self) -> Connected:
        """The same from the other side."""
        return replace(
            self,
            posterior=self.posterior.mirrored(),
            incoherence=self.incoherence.mirrored() if self.incoherence else None,
        )


class Component:
    """A connected network with everything derived from it computed once.

    ``people`` maps each block's study to its number of people; ``scale`` is that of the prior.
    """

    def __init__(self, blocks: Sequence[Block], people: Mapping[str, int], scale: float) -> None:
        self.network = Network(blocks, scale)
        self._people = people

    @cached_property
    def _heterogeneity_p(self) -> float | None:
        common = self.network.common
        return float(chdtrc(common.df, common.q)) if common.df else None

    def connected(self, first: str, second: str) -> Connected:
        """What the component says on a pair."""
        net = self.network
        side = split(net.typical, first, second)
        path: Path = (
            "indirect"
            if side is None
            else "direct and indirect"
            if side.separate and side.share < 1 - 1e-9
            else "direct"
        )
        behind = (
            net.typical.comparing[frozenset((first, second))]
            if path == "direct"
            else net.typical.carrying(first, second)
        )
        return Connected(
            posterior=net.posterior(first, second),
            tau=net.tau,
            spread=net.spread,
            path=path,
            studies=tuple(b.study for b in behind),
            people=self._count(behind),
            heterogeneity_p=self._heterogeneity_p,
            # A share this near to all of it is all of it: the rest is rounding.
            direct_share=(1.0 if path == "direct" else min(1.0, side.share)) if side else 0.0,
            incoherence=_incoherence(side),
        )

    def order(self, measured: Measured, dimension: str | None) -> NetworkOrder:
        """The exercises by their ratio to the one with the most samples; what was measured is told with them."""
        net = self.network
        reference = min(
            net.treatments, key=lambda t: (-sum(t in b.treatments for b in net.blocks), t)
        )
        found = []
        for treatment in net.treatments:
            posterior = net.posterior(treatment, reference)
            if treatment == reference:
                found.append((0.0, Ranked(treatment, None)))
            else:
                middle = quantile(posterior, 0.5)
                told = ratio_interval(middle, *interval(posterior))
                found.append((middle, Ranked(treatment, told)))
        # By the ratio as far as it can be told apart, so that noise in a last digit moves nobody.
        order = sorted(found, key=lambda pair: (-round(pair[0], 9), pair[1].exercise))
        return NetworkOrder(
            reference=reference,
            order=tuple(ranked for _, ranked in order),
            samples=len(net.blocks),
            people=self._count(net.blocks),
            measured=measured,
            dimension=dimension,
        )

    def _count(self, blocks: Sequence[Block]) -> int:
        return sum(self._people[block.study] for block in blocks)


def _incoherence(side: Sides | None) -> Incoherence | None:
    """How far direct and indirect evidence differ."""
    if side is None or not side.separate or side.p is None or side.difference is None:
        return None
    return Incoherence(side.p, exp(side.difference.estimate))
