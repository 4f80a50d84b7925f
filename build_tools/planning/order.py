"""The order of the exercises of one part, by the kind of evidence that recommends them. No score is made anywhere.

1. The kind counts first: growth, then activation, then length under load, then common teaching, then nothing.
2. Within growth and within activation, what was measured on the part itself stands before what was measured on several parts
   together or on the whole muscle, found before hinted, and high certainty before low. Of a pair only the nearest measurement
   speaks: where the part itself was measured and showed no clear difference, no whole muscle recommends an exercise for it.
3. An exercise that came out behind another one in the same kind, on the part or its muscle, stands below it, whatever rule 2 says.
   Results that run in a circle settle nothing and are left aside.
4. Within length, an exercise stands above another whose part is shorter by the handbook's margin or more.
5. What these rules leave equal is a tie, and is shown as one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from ..evidence_map.nearest import NearestStatements, key
from ..evidence_map.preferences import KINDS, Kind, Preference
from .facts import ExerciseFacts

#: Kinds of which a statement is the reason.
STATED: tuple[Kind, ...] = ("growth", "activation", "taught")
#: Pairs of exercises: the first stands above the second.
Pairs = set[tuple[str, str]]
Key = tuple[int, ...]


@dataclass(frozen=True)
class Tie:
    """Exercises that stand together, by name; more than one is a tie."""

    kind: Kind
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

    def best(self, exercise: str, part: str, kind: Kind) -> Preference | None:
        """The best statement of a kind that puts the exercise ahead on the part; None where none does."""
        found = [s for s in self._of(kind, part) if s.ahead == exercise]
        return min(
            found, key=lambda s: (key(s, part), self._exercises[s.second].name), default=None
        )

    def kind(self, exercise: str, part: str) -> Kind:
        """The first kind that recommends the exercise for the part."""
        for kind in STATED[:2]:
            if self.best(exercise, part, kind):
                return kind
        if self._long(exercise, part):
            return "length"
        return "taught" if self.best(exercise, part, "taught") else "none"

    def of(self, part: str) -> list[Tie]:
        """The places of all exercises that a set of counts directly for the part."""
        kinds = {
            id: self.kind(id, part) for id, facts in self._exercises.items() if part in facts.direct
        }
        return [
            Tie(kind, tuple(sorted(tied, key=lambda id: self._exercises[id].name)))
            for kind in KINDS
            for tied in self._within(
                kind, part, {id for id, found in kinds.items() if found == kind}
            )
        ]

    def _within(self, kind: Kind, part: str, ids: set[str]) -> list[set[str]]:
        if kind == "length":
            return layers(
                ids, lambda id: (), {(a, b) for a in ids for b in ids if self._longer(a, b, part)}
            )
        if kind in STATED[:2]:
            above = {
                (s.first, s.second) for s in self._of(kind, part) if {s.first, s.second} <= ids
            }
            return layers(ids, lambda id: self._reason(id, part, kind), above)
        return [ids] if ids else []

    def _reason(self, exercise: str, part: str, kind: Kind) -> Key:
        found = self.best(exercise, part, kind)
        assert found is not None  # the kind was found by it
        return key(found, part)

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
