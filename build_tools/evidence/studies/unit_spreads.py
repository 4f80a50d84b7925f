"""Spreads that nobody printed, borrowed from the studies that did.

What is borrowed is the *unit spread*: the standard error of a contrast (log ratio) times the root of the people who
make it, which no longer depends on how many took part. Every study that prints a spread gives one for each measure;
a measure with few of them leans on its outcome, an outcome with few on what is usual.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import combinations
from math import exp, log, sqrt
from statistics import fmean
from typing import TYPE_CHECKING, NamedTuple

from ..model.blocks import Block
from ..model.network import pair_of
from ..model.nodes import BorrowedSpread

if TYPE_CHECKING:
    from .samples import Assembly

#: Unit spread of each outcome before any study is read, as the handbook's first catalog had them; two studies weigh as much.
USUAL = {"growth": 0.06, "activation": 0.45, "strength": 0.12}
_USUAL_WEIGHT = 2
#: So many studies of one measure weigh as much as all others of its outcome.
_MEASURE_WEIGHT = 4
#: How far apart unit spreads lie (standard deviation of their logarithm) before any study is read, and as how many it counts.
_USUAL_FACTOR, _FACTOR_WEIGHT = 0.5, 4


class UnitSpread(NamedTuple):
    """One study's unit spread on one measure."""

    outcome: str
    measure: str
    value: float


class UnitSpreads:
    """What a catalog's printed spreads say of those that are missing."""

    def __init__(self, printed: Iterable[UnitSpread]) -> None:
        self._logs: dict[str, dict[str, list[float]]] = defaultdict(lambda: defaultdict(list))
        self.printed = tuple(printed)
        """What all of it rests on."""
        for spread in self.printed:
            self._logs[spread.outcome][spread.measure].append(log(spread.value))
        # Asked for each contrast, and all spreads are behind each.
        self._known = cache(self._work_out)

    def of(self, outcome: str, measure: str, people: float) -> BorrowedSpread:
        """The standard error of a contrast of ``people`` (see ``contributing``)."""
        unit, spread = self._known(outcome, measure)
        return BorrowedSpread(unit / sqrt(people), spread)

    def behind(self, outcome: str) -> list[UnitSpread]:
        """What an outcome's spreads rest on."""
        return [spread for spread in self.printed if spread.outcome == outcome]

    def _work_out(self, outcome: str, measure: str) -> tuple[float, float]:
        """The unit spread of a measure, and how far it may be off (standard deviation of its logarithm)."""
        by_measure = self._logs[outcome]
        everything = [x for found in by_measure.values() for x in found]
        usual = log(USUAL.get(outcome, USUAL["activation"]))
        all_measures = _leaning(everything, usual, _USUAL_WEIGHT)
        own = by_measure.get(measure, [])
        mine = _leaning(own, all_measures, _MEASURE_WEIGHT)
        off = []
        for found in by_measure.values():
            middle_of_all = _leaning(found, all_measures, _MEASURE_WEIGHT)
            off += [(x - middle_of_all) ** 2 for x in found]
        square = (sum(off) + _FACTOR_WEIGHT * _USUAL_FACTOR**2) / (len(off) + _FACTOR_WEIGHT)
        # What is borrowed is itself known from few studies only.
        return exp(mine), sqrt(square * (1 + 1 / (len(own) + _MEASURE_WEIGHT)))


def printed(assembly: Assembly) -> Iterator[UnitSpread]:
    """Every printed spread, one for each study and measure."""
    by: dict[tuple[str, str, str], list[float]] = defaultdict(list)
    for key, study in sorted(assembly.studies.items()):
        for index, result in assembly.index.results(key):
            if result.relative_to:
                continue
            block = assembly.result_block(key, index).block
            unit = of_block(block, study.same_people) if block else None
            if unit:
                by[key, assembly.outcome(result), result.measure].append(unit)
    for (_, outcome, measure), units in by.items():
        yield UnitSpread(outcome, measure, middle(units))


def _leaning(found: list[float], on: float, weight: float) -> float:
    return (sum(found) + weight * on) / (len(found) + weight)


def contributing(sizes: tuple[float, float], same_people: bool) -> float:
    """People that a contrast counts: those who did both, or the two groups' product over their sum."""
    return min(sizes) if same_people else 1 / (1 / sizes[0] + 1 / sizes[1])


def of_block(block: Block, same_people: bool) -> float | None:
    """The unit spread behind a block, over all its pairs; ``None`` when its people are not known."""
    if block.df is None:
        return None
    groups = len(block.treatments)
    people = block.df + 1 if same_people else (block.df + groups) / groups / 2
    pairs = combinations(block.treatments, 2)
    return middle([pair_of(block, a, b).se * sqrt(people) for a, b in pairs])


def middle(units: Iterable[float]) -> float:
    """The geometric mean of unit spreads."""
    return exp(fmean(log(unit) for unit in units))
