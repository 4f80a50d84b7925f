"""What a plan needs to know of each exercise, read off the catalog and its movement."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ..catalog.care import named
from ..catalog.entries import Exercise, Programme
from ..catalog.load import Catalog
from ..evidence_map.lengths import WorkingLength, working_length
from ..movement.course import Course, Courses


@dataclass(frozen=True)
class ExerciseFacts:
    """One exercise as a plan sees it."""

    id: str
    name: str
    also: tuple[str, ...]
    address: str
    """Its page, from the top of the site."""
    equipment: frozenset[str]
    """Everything it needs; empty for the body alone."""
    position: str
    sides: Literal["both", "one"]
    swaps: tuple[str, ...]
    """What does the same job: those that it names, in its order, then those that name it."""
    main: bool
    """A main compound lift that accessories are built around."""
    load: str
    joints: dict[str, str]
    """Part -> the joint about which the load asks most of it; only where a load is known."""
    credits: dict[str, float]
    """Part -> what one set counts for it (0-1)."""
    direct: frozenset[str]
    """Parts that a set counts for directly."""
    concerns: frozenset[str]
    """What its cautions speak of."""
    lengths: dict[str, WorkingLength]
    """Only of parts that the model knows."""
    fraction: float | None
    """Share of body mass that it moves (0-1)."""


def facts(catalog: Catalog, courses: Courses) -> dict[str, ExerciseFacts]:
    """Every exercise of a sound catalog with a programme, by id."""
    naming: dict[str, list[str]] = {}
    for id, entry in sorted(catalog.exercises.items()):
        for other in entry.data.swaps:
            naming.setdefault(other, []).append(id)
    return {
        id: _facts(catalog, id, entry.data, courses.of(id), naming.get(id, []))
        for id, entry in sorted(catalog.exercises.items())
    }


def parts(catalog: Catalog, ref: str) -> tuple[str, ...]:
    """A part itself, or all parts of a whole muscle."""
    muscle = catalog.muscles.get(ref)
    return tuple(f"{ref}/{part}" for part in muscle.data.parts) if muscle else (ref,)


def _facts(
    catalog: Catalog, id: str, exercise: Exercise, course: Course, naming: list[str]
) -> ExerciseFacts:
    assert catalog.programme  # the planning pages stand only in a catalog that has one
    words = credits(catalog, exercise)
    fraction = exercise.body_weight_fraction
    return ExerciseFacts(
        id,
        exercise.name,
        tuple(exercise.also_called),
        f"exercises/{id}/",
        frozenset(exercise.equipment) - {"none"},
        exercise.movement.position,
        exercise.sides,
        tuple(dict.fromkeys([*exercise.swaps, *naming])),
        exercise.main_lift,
        exercise.movement.load.kind,
        {part: curve.joint for part, curve in sorted(course.loads.items())},
        {part: _value(catalog.programme.data, word) for part, word in sorted(words.items())},
        frozenset(part for part, word in words.items() if word == "direct"),
        named(exercise),
        {part: found for part in sorted(words) if (found := working_length(course, part))},
        fraction.value if fraction else None,
    )


def credits(catalog: Catalog, exercise: Exercise) -> dict[str, str]:
    """Part -> direct or indirect; what is said of a part goes before what is said of its whole muscle."""
    whole_first = sorted(exercise.set_credit.items(), key=lambda item: "/" in item[0])
    return {part: word for ref, word in whole_first for part in parts(catalog, ref)}


def _value(programme: Programme, word: str) -> float:
    return programme.credits.direct.value if word == "direct" else programme.credits.indirect.value
