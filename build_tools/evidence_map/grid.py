"""The whole map: a strip for each exercise, a block for each muscle, a column for each part."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from ..catalog.load import Catalog
from ..evidence.claims.conclusions import Comparison, Conclusions
from ..evidence.treatments import exercise_of, is_version
from ..movement.course import Courses
from .lengths import working_length
from .marks import Aside, Cell, Fill, Mark, MarkKind, Reason
from .nearest import NearestStatements, distance
from .preferences import Preference, statements

#: Kinds that studies measure and marks tell.
_STUDIED: tuple[Literal["growth", "activation"], ...] = ("growth", "activation")


@dataclass(frozen=True)
class MapRow:
    """One exercise in a muscle's block; a cell for each of the muscle's parts, in their order."""

    exercise: str
    cells: tuple[Cell, ...]

    @property
    def best(self) -> int:
        """The place of its best mark, from 0; after all marks where it has none."""
        return min((cell.reasons[0].rank[0] for cell in self.cells if cell.reasons), default=99)


@dataclass(frozen=True)
class MuscleBlock:
    """The exercises that train a muscle, or that studies measured on it. By the best kind of evidence, then by name; no score."""

    muscle: str
    parts: tuple[str, ...]
    rows: tuple[MapRow, ...]
    """Those with a mark."""
    blank: tuple[MapRow, ...]
    """Those that train it directly and of which nothing is known."""


class EvidenceMap:
    """Exercises by parts."""

    def __init__(self, catalog: Catalog, conclusions: Conclusions, courses: Courses) -> None:
        """The catalog is sound, the conclusions are its own."""
        self._catalog, self._conclusions, self._courses = catalog, conclusions, courses
        self._nearest = NearestStatements(statements(catalog, conclusions))
        self._cells: dict[tuple[str, str], Cell] = {}

    def cell(self, exercise: str, part: str) -> Cell:
        """One exercise and one part (``muscle/part``). Raises KeyError for an unknown one."""
        if (exercise, part) not in self._cells:
            if part not in self._parts:
                raise KeyError(part)
            self._cells[exercise, part] = self._cell(exercise, part)
        return self._cells[exercise, part]

    def strip(self, exercise: str) -> tuple[Cell, ...]:
        """The parts that a set of an exercise counts for, or that studies measured in it, muscle by muscle as the catalog has them."""
        parts = [part for muscle in self._muscles_of(exercise) for part in self._of_muscle(muscle)]
        cells = (self.cell(exercise, part) for part in parts)
        return tuple(cell for cell in cells if cell.counts or cell.reasons)

    def exercises(self, muscle: str) -> tuple[str, ...]:
        """The exercises whose sets count for a muscle or a part of it, or of which anything is told there, by name."""
        return self._touching.get(muscle, ())

    def column(self, part: str) -> list[Cell]:
        """The cells of a part that are not empty for sure, by name of the exercise."""
        return [self.cell(id, part) for id in self.exercises(part.partition("/")[0])]

    def block(self, muscle: str) -> MuscleBlock:
        """One muscle's part of the map. Raises KeyError for an unknown muscle."""
        parts = self._of_muscle(muscle)
        rows = [
            MapRow(id, tuple(self.cell(id, part) for part in parts))
            for id in self.exercises(muscle)
        ]
        marked = [row for row in rows if _is_marked(row)]
        blank = [
            row
            for row in rows
            if not _is_marked(row) and any(cell.counts == "direct" for cell in row.cells)
        ]
        return MuscleBlock(
            muscle, parts, tuple(sorted(marked, key=lambda row: row.best)), tuple(blank)
        )

    @cached_property
    def parts(self) -> tuple[str, ...]:
        """Every part, muscle by muscle as the catalog has them."""
        return tuple(part for muscle in self._catalog.muscles for part in self._of_muscle(muscle))

    @cached_property
    def _parts(self) -> frozenset[str]:
        return frozenset(self.parts)

    def _of_muscle(self, muscle: str) -> tuple[str, ...]:
        return tuple(f"{muscle}/{part}" for part in self._catalog.muscles[muscle].data.parts)

    def _muscles_of(self, exercise: str) -> list[str]:
        """Those that may have a cell of it, as the catalog has them."""
        found = {ref.partition("/")[0] for ref in self._catalog.exercises[exercise].data.set_credit}
        return sorted(found | self._nearest.muscles(exercise), key=self._order.__getitem__)

    @cached_property
    def _order(self) -> dict[str, int]:
        return {muscle: n for n, muscle in enumerate(self._catalog.muscles)}

    @cached_property
    def _touching(self) -> dict[str, tuple[str, ...]]:
        found: dict[str, list[str]] = {}
        for id in sorted(self._catalog.exercises, key=self._name):
            for muscle in self._muscles_of(id):
                found.setdefault(muscle, []).append(id)
        return {muscle: tuple(ids) for muscle, ids in found.items()}

    def _name(self, exercise: str) -> str:
        return self._catalog.exercises[exercise].data.name

    def _cell(self, exercise: str, part: str) -> Cell:
        data = self._catalog.exercises[exercise].data
        muscle = part.partition("/")[0]
        counts = data.set_credit.get(part, data.set_credit.get(muscle))
        length = working_length(self._courses.of(exercise), part) if counts else None
        reasons = list(self._told(exercise, part))
        if length and length.long_under_load:
            reasons.append(Reason(Mark("length"), "", f"exercises/{exercise}/#load-and-length"))
        return Cell(
            exercise,
            part,
            counts,
            tuple(sorted(reasons, key=lambda reason: reason.rank)),
            length.percent if length else None,
            self._aside.get((exercise, part)),
        )

    def _told(self, exercise: str, part: str) -> Iterator[Reason]:
        for kind in _STUDIED:
            for told in self._nearest.of(kind, part):
                if exercise in (told.first, told.second) and told.finding != "not studied":
                    yield _studied(told, kind, exercise, distance(told, part) > 0)
        for told in self._nearest.of("taught", part):
            if told.ahead == exercise:
                yield Reason(Mark("taught"), told.sentence, told.address, told.second)

    @cached_property
    def _aside(self) -> dict[tuple[str, str], Aside]:
        """Exercise and part of which a study compared only versions of the exercise, or parts within it."""
        found: dict[tuple[str, str], Aside] = {}
        for comparison in self._comparisons():
            asked = comparison.question
            if asked.outcome not in _STUDIED or comparison.finding == "not studied":
                continue
            if asked.within:
                sides = [(exercise_of(asked.within), part) for part in (asked.first, asked.second)]
                found.update(dict.fromkeys(sides, "parts"))
            else:
                versions = [side for side in (asked.first, asked.second) if is_version(side)]
                found.update({(exercise_of(side), asked.part): "versions" for side in versions})
        return found

    def _comparisons(self) -> Iterator[Comparison]:
        for of in self._conclusions.claims.values():
            for conclusion in of:
                yield from conclusion.comparisons
        for field in self._conclusions.fields.values():
            yield from field.comparisons


def _studied(told: Preference, kind: MarkKind, exercise: str, wide: bool) -> Reason:
    ahead = told.ahead == exercise
    return Reason(
        Mark(kind, _fill(told.finding, wide) if ahead else "no more"),
        told.sentence,
        told.address,
        told.second if told.first == exercise else told.first,
        told.finding,
        told.certainty,
        told.measured if not wide or told.measured != "part" else "whole",
        told.ahead is not None and not ahead,
        told.studies,
        told.people,
    )


def _fill(finding: str, wide: bool) -> Fill:
    if wide:
        return "wider"
    return "found" if finding == "found" else "hinted"


def _is_marked(row: MapRow) -> bool:
    return any(_shown(cell) for cell in row.cells)


def _shown(cell: Cell) -> bool:
    """Whether a row is worth its place for this cell: a mark where sets count, or anything that a study measured."""
    return bool(cell.reasons) and (cell.counts is not None or cell.tested)
