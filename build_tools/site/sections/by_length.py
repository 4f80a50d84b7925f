"""The exercises of a part, arranged by how long the part is where the load is highest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ...movement.course import Course
from ...movement.curve_words import OUTER
from ...movement.length.length import Missing, percent
from ..context import Link, PageContext

#: From which per cent of its own range (in steps of 10) a part counts as long, and up to which as short: the outer thirds.
LONG, SHORT = OUTER, 100 - OUTER
_GROUPS = (
    ("Long", f"{LONG}% of its own range or more"),
    ("Middle", f"{SHORT + 10} to {LONG - 10}%"),
    ("Short", f"{SHORT}% or less"),
)


@dataclass(frozen=True)
class Placed:
    """One exercise on a step."""

    link: Link
    note: str
    """What its place rests on where it is not the load, and the credit where it is not whole."""


@dataclass(frozen=True)
class LengthStep:
    """Exercises at one tenth of the range, by name: neighbours on a step stand in no order."""

    share: str
    exercises: list[Placed]


@dataclass(frozen=True)
class LengthGroup:
    """Long, middle or short."""

    name: str
    meaning: str
    steps: list[LengthStep]


@dataclass(frozen=True)
class ByLength:
    """What the section of a part shows."""

    groups: list[LengthGroup]
    without: list[tuple[str, list[Link]]]
    """Exercises without a value, by reason."""
    methods: str


def by_length(desk: PageContext, ref: str) -> ByLength | None:
    """The exercises that a set of counts for the part, wholly or half; None where there are none."""
    steps: dict[int, list[Placed]] = {}
    without: dict[str, list[Link]] = {}
    for id in desk.shelf.evidence_map.exercises(ref.partition("/")[0]):
        course = desk.shelf.courses.of(id)
        if ref not in course.lengths:
            continue
        credit = desk.shelf.catalog.exercises[id].data.set_credit
        found, share = course.lengths[ref], course.length_when_hard(ref)
        if isinstance(found, Missing) or share is None:
            without.setdefault(found.why if isinstance(found, Missing) else "", []).append(
                desk.exercise(id)
            )
        else:
            steps.setdefault(percent(share), []).append(
                Placed(desk.exercise(id), _note(course, ref, credit))
            )
    if not steps and not without:
        return None
    groups = [
        LengthGroup(
            name,
            meaning,
            [
                LengthStep(f"{at}%", sorted(steps[at], key=lambda p: p.link))
                for at in sorted(steps, reverse=True)
                if _group(at) == name
            ],
        )
        for name, meaning in _GROUPS
    ]
    return ByLength(
        groups,
        [(why, sorted(links)) for why, links in sorted(without.items())],
        desk.href("methods.md", "posture"),
    )


def _group(share: int) -> str:
    return "Long" if share >= LONG else "Short" if share <= SHORT else "Middle"


def _note(course: Course, ref: str, credit: Mapping[str, str]) -> str:
    whole = credit.get(ref) or credit.get(ref.partition("/")[0])
    return ", ".join(
        [
            *(["half a set"] if whole == "indirect" else []),
            *([] if ref in course.loads else ["mean"]),
        ]
    )
