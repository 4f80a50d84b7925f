"""Accessories for lagging parts: all that fit, in the order of ``order.py``, and one or two of them proposed.

What fits: it trains the part directly, it is no main lift, it is not in the week yet, everything it needs is at hand, and none
of its cautions speaks of a concern to avoid. Two are proposed at most, so that a coach can tell what helped:

1. The first is the first place of the first part. Of a tie: what trains most of the chosen parts directly, then what costs least in
   other parts, then the first by name.
2. The second is chosen likewise for the next chosen part that the first does not train directly. Where there is none, it is the
   next for the first part that differs from the first: in the length of the part, in the joint, or in the kind of load; of a
   tie, what differs in the earlier of these.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from .facts import ExerciseFacts
from .order import Place
from .preferences import Kind

Ways = Literal["length", "joint", "load"]
#: In the order in which a difference counts.
WAYS: tuple[Ways, ...] = ("length", "joint", "load")
MOST = 2


@dataclass(frozen=True)
class Wish:
    """What a coach asks for."""

    parts: tuple[str, ...]
    """Lagging parts, the most important first."""
    equipment: frozenset[str]
    """At hand."""
    concerns: frozenset[str] = frozenset()
    """To avoid."""
    week: frozenset[str] = frozenset()
    """Exercises that the week holds already."""
    sets: int = 3
    """Weekly sets that a proposal would get."""


@dataclass(frozen=True)
class Difference:
    """Another exercise of the week for the same part, and what sets the proposal apart from it; nothing known where empty."""

    other: str
    ways: tuple[Ways, ...]


@dataclass(frozen=True)
class Proposal:
    """One accessory."""

    exercise: str
    part: str
    """The lagging part that it is proposed for."""
    kind: Kind
    tied: bool
    """Whether others that fit stand in the same place."""
    costs: dict[str, float]
    """Part that was not asked for -> weekly sets that it gets besides."""
    differences: tuple[Difference, ...]


@dataclass(frozen=True)
class Shortlist:
    """The answer to a wish."""

    options: dict[str, tuple[Place, ...]]
    """Chosen part -> everything that fits, in order."""
    proposals: tuple[Proposal, ...]


def fits(wish: Wish, facts: ExerciseFacts) -> bool:
    """Whether an exercise is an accessory that the coach could add."""
    return (not facts.main and facts.id not in wish.week and facts.equipment <= wish.equipment
            and not facts.concerns & wish.concerns)


class Shortlists:
    """Answers wishes from the facts and the orders of all parts."""

    def __init__(self, exercises: Mapping[str, ExerciseFacts], orders: Mapping[str, Sequence[Place]]) -> None:
        self._exercises, self._orders = exercises, orders

    def of(self, wish: Wish) -> Shortlist:
        """Raises KeyError for a part that no exercise trains directly or an unknown exercise of the week."""
        options = {part: tuple(self._fitting(wish, part)) for part in wish.parts}
        proposals: list[Proposal] = []
        for part in wish.parts:
            trained = {p for proposal in proposals for p in self._exercises[proposal.exercise].direct}
            if len(proposals) < MOST and part not in trained and options[part]:
                proposals.append(self._proposal(wish, part, options[part][0], self._preferred(wish, options[part][0].exercises)))
        if len(proposals) == 1:
            proposals += self._second(wish, proposals[0], options[proposals[0].part])
        return Shortlist(options, tuple(proposals))

    def _fitting(self, wish: Wish, part: str) -> Iterable[Place]:
        for place in self._orders[part]:
            fitting = tuple(id for id in place.exercises if fits(wish, self._exercises[id]))
            if fitting:
                yield Place(place.kind, fitting)

    def _second(self, wish: Wish, first: Proposal, options: Sequence[Place]) -> list[Proposal]:
        for place in options:
            found = {id: ways for id in place.exercises
                     if id != first.exercise and (ways := self.ways(id, first.exercise, first.part))}
            if found:
                earliest = min(WAYS.index(ways[0]) for ways in found.values())
                ids = [id for id, ways in found.items() if WAYS.index(ways[0]) == earliest]
                return [self._proposal(wish, first.part, place, self._preferred(wish, ids))]
        return []

    def _preferred(self, wish: Wish, ids: Iterable[str]) -> str:
        """Of a tie: most of the chosen parts, then the lowest costs, then by name."""
        def key(id: str) -> tuple[int, float, str]:
            facts = self._exercises[id]
            return -len(facts.direct & set(wish.parts)), sum(self._costs(wish, id).values()), facts.name
        return min(ids, key=key)

    def _proposal(self, wish: Wish, part: str, place: Place, id: str) -> Proposal:
        same = [other for other in wish.week if part in self._exercises[other].direct]
        differences = tuple(Difference(other, self.ways(id, other, part)) for other in sorted(same, key=lambda o: self._exercises[o].name))
        return Proposal(id, part, place.kind, len(place.exercises) > 1, self._costs(wish, id), differences)

    def _costs(self, wish: Wish, id: str) -> dict[str, float]:
        return {part: wish.sets * credit for part, credit in self._exercises[id].credits.items() if part not in wish.parts}

    def ways(self, first: str, second: str, part: str) -> tuple[Ways, ...]:
        """How two exercises for a part differ, as far as both are known: long, middle or short, the joint, the kind of load."""
        a, b = self._exercises[first], self._exercises[second]
        words = [facts.lengths[part].word for facts in (a, b) if part in facts.lengths]
        joints = [facts.joints[part] for facts in (a, b) if part in facts.joints]
        differ = {"length": len(set(words)) == 2, "joint": len(set(joints)) == 2, "load": a.load != b.load}
        return tuple(way for way in WAYS if differ[way])
