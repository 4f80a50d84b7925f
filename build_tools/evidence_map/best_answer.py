"""Which exercise to choose for a part, and on what that rests: the strongest kind of evidence that there is, never two kinds mixed.

The first of these that holds answers, and it is always of exercises that train the part:

1. growth: more than with another exercise, the part itself measured;
2. growth: the part itself measured, nothing clear between the two;
3. growth: more, of the whole muscle or of several parts measured together;
4. activation in one session: more than in another exercise;
5. growth of something wider, nothing clear; then activation, nothing clear;
6. long under load, by the model;
7. nothing: the exercises that train it.

An exercise that came out behind another one of the same kind gives way to it. What is compared with an exercise that does not train
the part answers only where nothing else does. Nothing is weighed anew, and no score is made.
"""

from __future__ import annotations

from collections.abc import Callable, Set
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from ..catalog.load import Catalog
from ..evidence.claims.conclusions import Comparison, Conclusions
from ..evidence.terms import LEVELS
from .grid import EvidenceMap
from .marks import Cell, Mark, Reason

#: What the answer rests on.
AnswerKind = Literal["growth", "activation", "length", "none"]


@dataclass(frozen=True)
class BestAnswer:
    """The answer for one part."""

    part: str
    kind: AnswerKind
    more: bool
    """Whether something puts the chosen ahead; else the chosen are those that were measured, or those that train it."""
    chosen: tuple[str, ...]
    """Exercises, the strongest evidence first; where nothing was measured by name."""
    marks: tuple[Mark | None, ...] = ()
    """For each of them the mark of what answers here, which is not always its best one on the map."""
    comparison: Comparison | None = None
    """The comparison that it rests on."""
    beyond: Comparison | None = None
    """A comparison that leans to an exercise ahead of the first chosen one."""
    wider: Comparison | None = None
    """Where the part itself shows nothing clear: growth of something wider that does, or, under activation, that does not."""
    tie: Literal["compared", "untested"] | None = None
    """Where several are ahead of others: whether a study of that kind compared them with one another."""
    untested: int = 0
    """How many other exercises that train it directly no study of that kind measured."""


class BestAnswers:
    """Answers for the parts of one catalog."""

    def __init__(self, catalog: Catalog, conclusions: Conclusions, map: EvidenceMap) -> None:
        """The map is the catalog's and its conclusions'."""
        self._catalog, self._map = catalog, map
        self._pairs: dict[tuple[str, str, frozenset[str]], Comparison] = {
            (field.part, field.outcome, _pair(comparison)): comparison
            for field in conclusions.fields.values()
            if field.relative_to is None
            for comparison in field.comparisons
        }

    def of(self, part: str) -> BestAnswer:
        """The answer for one part (``muscle/part``). Raises KeyError for an unknown one."""
        cells = [cell for cell in self._map.column(part) if cell.counts]
        training = {cell.exercise for cell in cells}
        by_kind: list[tuple[Literal["growth", "activation"], bool, Callable[[Reason], bool]]] = [
            ("growth", True, lambda r: _leads(r, "growth", wide=False)),
            ("growth", False, lambda r: _level(r, "growth", wide=False)),
            ("growth", True, lambda r: _leads(r, "growth", wide=True)),
            ("activation", True, lambda r: _leads(r, "activation")),
            ("growth", False, lambda r: _level(r, "growth")),
            ("activation", False, lambda r: _level(r, "activation")),
        ]
        for against in (training, self._catalog.exercises.keys()):
            for kind, more, holds in by_kind:
                if found := self._studied(part, cells, kind, more, _against(against, holds)):
                    return found
        long = [c.exercise for c in cells if c.mark and c.mark.kind == "length"]
        direct = [c.exercise for c in cells if c.counts == "direct"]
        chosen = long or direct or [c.exercise for c in cells]
        return BestAnswer(
            part,
            "length" if long else "none",
            bool(long),
            tuple(sorted(chosen, key=self._name)),
            (Mark("length") if long else None,) * len(chosen),
        )

    def _studied(
        self,
        part: str,
        cells: list[Cell],
        kind: Literal["growth", "activation"],
        more: bool,
        holds: Callable[[Reason], bool],
    ) -> BestAnswer | None:
        held = {
            cell.exercise: min((r for r in cell.reasons if holds(r)), key=_strength, default=None)
            for cell in cells
        }
        best = {id: reason for id, reason in held.items() if reason}
        # What helps only along the way answers where nothing else does.
        main = {c.exercise for c in cells if c.counts == "direct"} & best.keys()
        best = {id: reason for id, reason in best.items() if not main or id in main}
        if more:
            best = self._strongest(best)
            best = self._ahead(best, cells, kind)
        if not best:
            return None
        order = sorted(best, key=lambda id: (_strength(best[id]), self._name(id)))
        told = best[order[0]]
        comparison = self._comparison(part, kind, order[0], told)
        if not more and comparison:
            # The two that the numbers are of stand first, as the numbers do.
            asked = [comparison.question.first, comparison.question.second]
            order = [*(id for id in asked if id in best), *(id for id in order if id not in asked)]
        rest = [c for c in cells if c.counts == "direct" and c.exercise not in order]
        own = kind == "growth" and told.measured == "part" and told.finding != "found"
        return BestAnswer(
            part,
            kind,
            more,
            tuple(order),
            tuple(best[id].mark for id in order),
            comparison,
            self._beyond(part, kind, order[0], cells) if more else None,
            self._wider(part, cells, order, own) if own or kind == "activation" else None,
            self._tie(part, kind, order) if more and len(order) > 1 else None,
            sum(not any(r.mark.kind == kind for r in cell.reasons) for cell in rest),
        )

    def _strongest(self, best: dict[str, Reason]) -> dict[str, Reason]:
        """Those with the best mark."""
        top = min((reason.rank[:2] for reason in best.values()), default=None)
        return {id: reason for id, reason in best.items() if reason.rank[:2] == top}

    def _ahead(self, best: dict[str, Reason], cells: list[Cell], kind: str) -> dict[str, Reason]:
        """Without those that came out behind another of them; all, where each came out behind one."""
        behind = {
            cell.exercise
            for cell in cells
            for r in cell.reasons
            if r.mark.kind == kind and r.behind and r.against in best
        }
        return {id: reason for id, reason in best.items() if id not in behind} or best

    def _beyond(self, part: str, kind: str, id: str, cells: list[Cell]) -> Comparison | None:
        """What the first chosen one came out behind, the part itself measured; such an exercise has a weaker mark than its own."""
        found = [
            reason
            for cell in cells
            if cell.exercise == id
            for reason in cell.reasons
            if reason.mark.kind == kind and reason.behind and reason.measured == "part"
        ]
        return self._comparison(part, kind, id, min(found, key=_strength)) if found else None

    def _tie(self, part: str, kind: str, order: list[str]) -> Literal["compared", "untested"]:
        for first, second in combinations(order, 2):
            for of in (part, part.partition("/")[0]):
                found = self._pairs.get((of, kind, frozenset((first, second))))
                if found and found.finding != "not studied":
                    return "compared"
        return "untested"

    def _wider(
        self, part: str, cells: list[Cell], chosen: list[str], more: bool
    ) -> Comparison | None:
        """Growth of something wider than the part: what leads there, or what shows nothing clear."""
        every = [(cell, reason) for cell in self._map.column(part) for reason in cell.reasons]
        counted = {cell.exercise for cell in cells}
        found = [
            (reason, cell.exercise)
            for cell, reason in every
            if reason.mark.kind == "growth"
            and (_leads(reason, "growth", wide=True) and cell.exercise in counted if more else True)
        ]
        if not found:
            return None
        reason, id = min(
            found, key=lambda one: (more and one[1] not in chosen, _strength(one[0]), one[1])
        )
        return self._comparison(part, "growth", id, reason)

    def _comparison(self, part: str, kind: str, id: str, reason: Reason) -> Comparison | None:
        pair = frozenset((id, reason.against or id))
        for of in (part, part.partition("/")[0]):
            if found := self._pairs.get((of, kind, pair)):
                if found.finding == reason.finding:
                    return found
        return None

    def _name(self, id: str) -> str:
        return self._catalog.exercises[id].data.name


def _leads(reason: Reason, kind: str, wide: bool | None = None) -> bool:
    """Whether it puts its exercise ahead of another exercise."""
    if reason.mark.kind != kind or not reason.mark.more:
        return False
    return wide is None or (reason.mark.fill == "wider") == wide


def _level(reason: Reason, kind: str, wide: bool | None = None) -> bool:
    """Whether it was measured against another exercise, and nothing clear was found."""
    if reason.mark.kind != kind or reason.mark.more or reason.behind:
        return False
    return wide is None or (reason.measured != "part") == wide


def _against(others: Set[str], holds: Callable[[Reason], bool]) -> Callable[[Reason], bool]:
    """Only what is compared with one of these exercises."""
    return lambda reason: holds(reason) and reason.against in others


def _strength(reason: Reason) -> tuple[int, ...]:
    """The best mark first, then the surer, then the one of more people."""
    level = LEVELS.index(reason.certainty) if reason.certainty in LEVELS else -1
    return (*reason.rank[:2], -level, -reason.people)


def _pair(comparison: Comparison) -> frozenset[str]:
    return frozenset((comparison.question.first, comparison.question.second))
