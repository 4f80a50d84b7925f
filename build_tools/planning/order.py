"""The order of the exercises of one part, by the kind of evidence that recommends them. No score is made anywhere.

1. The place counts first (``PLACES``): growth measured on the part itself, more than with another exercise; growth measured on the
   part itself, and nothing clear between the two; growth of several parts together or of the whole muscle; activation likewise,
   the part itself first; length under load; common teaching; nothing. As on the map, growth of whatever width stands before
   activation, which does not show growth, but nothing wider stands before the part's own result of the same kind.
2. Within a place, found stands before hinted, and high certainty before low. Of a pair only the nearest measurement speaks: where
   the part itself was measured and showed no clear difference, no whole muscle recommends an exercise for it.
3. An exercise that came out behind another one of the same place stands below it, whatever rule 2 says. Results that run in a
   circle settle nothing and are left aside. One that came out behind on the part itself is no longer merely measured.
4. Within length, an exercise stands above another whose part is shorter by the handbook's margin or more.
5. What these rules leave equal is a tie, and is shown as one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from typing import Literal

from ..evidence_map.nearest import NearestStatements, distance, key
from ..evidence_map.preferences import Kind, Preference
from .facts import ExerciseFacts

#: For what an exercise stands where it stands. ``measured``: growth of the part itself, and no clear difference.
PlaceKind = Literal[
    "growth",
    "measured",
    "growth-wider",
    "activation",
    "activation-wider",
    "length",
    "taught",
    "none",
]
#: All of them, in the order in which they count.
PLACES: tuple[PlaceKind, ...] = (
    "growth",
    "measured",
    "growth-wider",
    "activation",
    "activation-wider",
    "length",
    "taught",
    "none",
)
#: Places of which a statement is the reason, each with the kind of the statement.
STATED: dict[PlaceKind, Kind] = {
    "growth": "growth",
    "measured": "growth",
    "growth-wider": "growth",
    "activation": "activation",
    "activation-wider": "activation",
    "taught": "taught",
}
#: Pairs of exercises: the first stands above the second.
Pairs = set[tuple[str, str]]
Key = tuple[int, ...]


@dataclass(frozen=True)
class Tie:
    """Exercises that stand together, by name; more than one is a tie."""

    kind: PlaceKind
    exercises: tuple[str, ...]


class Orders:
    """The reasons and the order of every part."""

    def __init__(
        self,
        exercises: Mapping[str, ExerciseFacts],
        statements: Iterable[Preference],
        margin: float,
    ) -> None:
        """``margin`` is the share of the own range (above 0) below which two lengths count as alike."""
        self._exercises, self._margin = exercises, margin
        self._nearest = NearestStatements(statements)
        self._of = cache(self._leading)

    def best(self, exercise: str, part: str, place: PlaceKind) -> Preference | None:
        """The best statement that puts the exercise into a place of the part; None where none does."""
        found = self._speaking(exercise, part, place)
        return min(found, key=lambda s: (key(s, part), self._other(s, exercise)), default=None)

    def kind(self, exercise: str, part: str) -> PlaceKind:
        """The first place that the exercise has for the part."""
        for place in PLACES:
            if (
                self._long(exercise, part)
                if place == "length"
                else self._stands(exercise, part, place)
            ):
                return place
        return "none"

    def of(self, part: str) -> list[Tie]:
        """The places of all exercises that a set of counts directly for the part."""
        kinds = {id: self.kind(id, part) for id in self._direct.get(part, ())}
        return [
            Tie(kind, tuple(sorted(tied, key=lambda id: self._exercises[id].name)))
            for kind in PLACES
            for tied in self._within(
                kind, part, {id for id, found in kinds.items() if found == kind}
            )
        ]

    @cached_property
    def _direct(self) -> dict[str, list[str]]:
        """Part -> the exercises that train it directly."""
        found: dict[str, list[str]] = {}
        for id, facts in self._exercises.items():
            for part in facts.direct:
                found.setdefault(part, []).append(id)
        return found

    def _within(self, kind: PlaceKind, part: str, ids: set[str]) -> list[set[str]]:
        if kind == "length":
            return layers(
                ids, lambda id: (), {(a, b) for a in ids for b in ids if self._longer(a, b, part)}
            )
        if kind in ("taught", "none"):
            return [ids] if ids else []
        above = {
            (s.first, s.second) for s in self._of(STATED[kind], part) if {s.first, s.second} <= ids
        }
        return layers(ids, lambda id: self._reason(id, part, kind), above)

    def _reason(self, exercise: str, part: str, kind: PlaceKind) -> Key:
        found = self.best(exercise, part, kind)
        assert found is not None  # the place was found by it
        return key(found, part)

    def _stands(self, exercise: str, part: str, place: PlaceKind) -> bool:
        if place == "measured" and any(
            s.second == exercise and self._trains(s.first, part)
            for s in self._of("growth", part)
            if distance(s, part) == 0
        ):
            return False
        return bool(self._speaking(exercise, part, place))

    def _speaking(self, exercise: str, part: str, place: PlaceKind) -> list[Preference]:
        """Statements of a place on an exercise."""
        if place == "measured":
            return [
                s
                for s in self._nearest.of("growth", part)
                if not s.ahead
                and s.finding != "not studied"
                and distance(s, part) == 0
                and exercise in (s.first, s.second)
                and self._trains(s.first, part)
                and self._trains(s.second, part)
            ]
        if place not in STATED:
            return []
        found = [s for s in self._of(STATED[place], part) if s.ahead == exercise]
        if place == "taught":
            return found
        return [s for s in found if (distance(s, part) > 0) == place.endswith("-wider")]

    def _other(self, statement: Preference, exercise: str) -> str:
        """The name of the exercise that a statement compares it with."""
        other = statement.second if statement.first == exercise else statement.first
        return self._exercises[other].name

    def _trains(self, exercise: str, part: str) -> bool:
        return part in self._exercises[exercise].direct

    def _leading(self, kind: Kind, part: str) -> list[Preference]:
        """What puts an exercise ahead on the part or on its muscle."""
        return [s for s in self._nearest.of(kind, part) if s.ahead]

    def _long(self, exercise: str, part: str) -> bool:
        found = self._exercises[exercise].lengths.get(part)
        return found is not None and found.long_under_load

    def _longer(self, first: str, second: str, part: str) -> bool:
        lengths = [self._exercises[id].lengths[part].share for id in (first, second)]
        return lengths[0] - lengths[1] >= self._margin


def layers(ids: set[str], key: Callable[[str], Key], above: Pairs) -> list[set[str]]:
    """Places from the first to the last: of those that nothing left stands above, the ones with the lowest key."""
    held = _consistent(above)
    left, found = set(ids), []
    while left:
        free = {id for id in left if not any((other, id) in held for other in left)}
        best = min(map(key, free))
        found.append({id for id in free if key(id) == best})
        left -= found[-1]
    return found


def _consistent(pairs: Pairs) -> Pairs:
    """The pairs without those that lie on a circle."""
    below: dict[str, set[str]] = {}
    for first, second in pairs:
        below.setdefault(first, set()).add(second)
    return {(first, second) for first, second in pairs if first not in _reached(below, second)}


def _reached(below: Mapping[str, set[str]], start: str) -> set[str]:
    """``start`` and everything that stands below it, directly or not."""
    found, todo = {start}, [start]
    while todo:
        new = below.get(todo.pop(), set()) - found
        found |= new
        todo += new
    return found
