"""Which statements speak of a part: of each pair of exercises only the nearest measurement, the part itself before anything wider."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from ..evidence.terms import LEVELS, Measured
from .preferences import Kind, Preference

#: What was measured -> how far it lies from a part.
_MEASURED: dict[Measured, int] = {"part": 0, "together": 1, "whole": 2}
_FARTHEST = 5


class NearestStatements:
    """Statements by kind and part."""

    def __init__(self, statements: Iterable[Preference]) -> None:
        self._told: dict[tuple[Kind, str], list[Preference]] = {}
        self._muscles: dict[str, set[str]] = {}
        for statement in statements:
            self._told.setdefault((statement.kind, statement.part), []).append(statement)
            for exercise in (statement.first, statement.second):
                muscle = statement.part.partition("/")[0]
                self._muscles.setdefault(exercise, set()).add(muscle)
        self.of = cache(self._of)

    def muscles(self, exercise: str) -> set[str]:
        """The muscles of which a statement names the exercise."""
        return self._muscles.get(exercise, set())

    def _of(self, kind: Kind, part: str) -> list[Preference]:
        """Statements of a kind on a part or on its muscle; where the part itself was measured, no wider result of the same pair."""
        told = [
            *self._told.get((kind, part), ()),
            *self._told.get((kind, part.partition("/")[0]), ()),
        ]
        nearest: dict[frozenset[str], int] = {}
        for s in told:
            if s.finding != "not studied":
                nearest[_pair(s)] = min(nearest.get(_pair(s), _FARTHEST), distance(s, part))
        return [s for s in told if distance(s, part) <= nearest.get(_pair(s), _FARTHEST)]


def distance(statement: Preference, part: str) -> int:
    """How far what was measured lies from the part: 0 itself, 1 with others, 2 as its whole muscle, from 3 asked of the muscle."""
    return _MEASURED[statement.measured] + 3 * (statement.part != part)


def key(statement: Preference, part: str) -> tuple[int, ...]:
    """The part itself before anything wider, found before hinted, high certainty before low."""
    level = LEVELS.index(statement.certainty) if statement.certainty in LEVELS else -1
    return int(distance(statement, part) > 0), int(statement.finding != "found"), -level


def _pair(statement: Preference) -> frozenset[str]:
    return frozenset((statement.first, statement.second))
