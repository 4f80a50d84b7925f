"""The index of each kind of page, and the contents list of the home page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from ...catalog.bibliography.references import READ
from ...catalog.entries import Exercise
from ...english import upper_first
from ..client import scripts
from ..context import Link, PageContext, RenderContext
from ..resource import Resource
from ..sections import labels, source_line
from ..sections.references import cited_on
from ..sections.source_line import SourceLine
from ..templating import render
from . import data_files

#: The value of the field of equipment for an exercise that needs none.
BODY_ALONE = "none"
#: Section -> uri of its index.
URIS = {
    "exercises": "exercises/index.md",
    "muscles": "muscles/index.md",
    "sources": "sources/index.md",
}


class NarrowingField(NamedTuple):
    """One choice by which a list is narrowed (``scripts/narrow.js``)."""

    name: str
    label: str
    options: list[tuple[str, str]]
    """Value and what it is called."""


@dataclass(frozen=True)
class MuscleContents:
    """A muscle and its parts."""

    everyday: str
    link: Link
    summary: str
    parts: list[tuple[Link, str]]
    """Each part by its everyday name, with its anatomical name."""


class ExerciseLine(NamedTuple):
    """An exercise in a list: also called, posture and equipment."""

    link: Link
    also: list[str]
    where: str
    values: dict[str, list[str]]
    """Field -> the values by which the list is narrowed to it."""


@dataclass(frozen=True)
class MuscleExercises:
    """The exercises listed under a muscle."""

    everyday: str
    link: Link
    exercises: list[ExerciseLine]


@dataclass(frozen=True)
class RegionView:
    """A region of the body and what is listed under it."""

    name: str
    anchor: str
    muscles: list[MuscleContents]
    exercises: list[MuscleExercises]


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """The three indexes."""
    for section, text in (("exercises", exercises), ("muscles", muscles), ("sources", sources)):
        yield Resource(URIS[section], text, ["top"])


def contents(shelf: RenderContext, uri: str) -> list[RegionView]:
    """Regions in the order of the vocabulary, their muscles in the order that the body is read, and the exercises under each.

    An exercise stands once: under the muscle that its author credits first. Regions without muscles are left out.
    """
    desk, made = shelf.at(uri), []
    under = _under(shelf)
    for id, region in shelf.vocabulary.regions.items():
        muscles = sorted(
            (key for key, entry in shelf.catalog.muscles.items() if entry.data.region == id),
            key=lambda key: shelf.catalog.muscles[key].data.name,
        )
        if muscles:
            made.append(
                RegionView(
                    region.name,
                    id,
                    [_muscle(desk, key) for key in muscles],
                    [_exercises(desk, key, under[key]) for key in muscles if key in under],
                )
            )
    return made


def exercises(shelf: RenderContext) -> str:
    """The index of exercises, by region and muscle."""
    desk, regions = shelf.at(URIS["exercises"]), contents(shelf, URIS["exercises"])
    lines = [line for region in regions for of in region.exercises for line in of.exercises]
    equipment = {id: term.name for id, term in shelf.vocabulary.equipment.items()}
    offered = {
        "region": ("Region", {region.anchor: region.name for region in regions}),
        "equipment": ("Equipment", {BODY_ALONE: "Body alone", **equipment}),
    }
    return render(
        "exercises.md.jinja",
        regions=regions,
        count=len(lines),
        fields=_fields(offered, [line.values for line in lines]),
        script=desk.href(scripts.uri(scripts.NARROW)),
        meta=_meta("Exercises", "Every exercise of the handbook, by the muscle it is for."),
    )


def muscles(shelf: RenderContext) -> str:
    """The index of muscles, by region."""
    return render(
        "muscles.md.jinja",
        regions=contents(shelf, URIS["muscles"]),
        meta=_meta("Muscles", "Every muscle of the handbook and its parts, in plain words."),
    )


def sources(shelf: RenderContext) -> str:
    """The index of sources: studies by the first letter of their authors, then reviews, then what is cited without numbers."""
    desk = shelf.at(URIS["sources"])
    groups: dict[str, list[SourceLine]] = {}
    for key in cited_on(shelf, list(shelf.catalog.references)):
        line = source_line.view(desk, key)
        groups.setdefault(line.group, []).append(line)
    lines = [line for group in groups.values() for line in group]
    return render(
        "sources.md.jinja",
        letters=sorted((letter, found) for letter, found in groups.items() if len(letter) == 1),
        others=[
            (anchor, groups[anchor])
            for anchor in ("reviews", "without-numbers")
            if anchor in groups
        ],
        count=len(lines),
        fields=_fields(_offered_of_sources(shelf), [line.values for line in lines]),
        script=desk.href(scripts.uri(scripts.NARROW)),
        downloads=data_files.downloads(desk),
        licence=shelf.handbook.licence,
        meta=_meta(
            "Sources",
            "Every source of the handbook: what was measured, and how much of it was read.",
        ),
    )


def _offered_of_sources(shelf: RenderContext) -> dict[str, tuple[str, dict[str, str]]]:
    """Field -> its label, and what its values are called."""
    designs = {id: design.name for id, design in shelf.vocabulary.designs.items()}
    return {
        "muscle": ("Muscle", {id: entry.data.name for id, entry in shelf.catalog.muscles.items()}),
        "outcome": ("Measured", {outcome: upper_first(outcome) for outcome in labels.OUTCOMES}),
        "design": ("Design", {**designs, source_line.WITHOUT_NUMBERS: "Cited without numbers"}),
        "read": ("Read", {source_line.value_of(read): upper_first(read) for read in READ}),
    }


def _fields(
    offered: dict[str, tuple[str, dict[str, str]]], had: list[dict[str, list[str]]]
) -> list[NarrowingField]:
    """What a list can be narrowed by: only values that some entry has."""
    known = {(name, value) for values in had for name, of in values.items() for value in of}
    return [
        NarrowingField(name, label, [(v, text) for v, text in values.items() if (name, v) in known])
        for name, (label, values) in offered.items()
    ]


def by_region(shelf: RenderContext) -> list[tuple[str, list[str]]]:
    """Regions in the order of the vocabulary, each with the ids of its exercises by name. An exercise stands once."""
    muscles, exercises = shelf.catalog.muscles, shelf.catalog.exercises
    listed: dict[str, list[str]] = {region: [] for region in shelf.vocabulary.regions}
    for muscle, ids in _under(shelf).items():
        listed[muscles[muscle].data.region] += ids
    return [
        (region.name, sorted(listed[id], key=lambda key: exercises[key].data.name.casefold()))
        for id, region in shelf.vocabulary.regions.items()
        if listed[id]
    ]


def _under(shelf: RenderContext) -> dict[str, list[str]]:
    """Muscle -> ids of the exercises listed under it."""
    under: dict[str, list[str]] = {}
    for id, entry in shelf.catalog.exercises.items():
        under.setdefault(_first_credited(entry.data), []).append(id)
    return under


def _first_credited(exercise: Exercise) -> str:
    """The muscle of the first direct credit; of the first credit where none is direct."""
    direct = [ref for ref, credit in exercise.set_credit.items() if credit == "direct"]
    return (direct or list(exercise.set_credit))[0].split("/")[0]


def _muscle(desk: PageContext, id: str) -> MuscleContents:
    muscle = desk.shelf.catalog.muscles[id].data
    parts = [desk.part(f"{id}/{part}") for part in muscle.parts]
    return MuscleContents(
        upper_first(muscle.everyday),
        desk.part(id),
        muscle.summary,
        [
            (Link(upper_first(data.everyday), link.href), link.text)
            for link, data in zip(parts, muscle.parts.values(), strict=True)
        ],
    )


def _exercises(desk: PageContext, id: str, ids: list[str]) -> MuscleExercises:
    vocabulary, lines = desk.shelf.vocabulary, []
    for exercise_id in ids:
        data = desk.shelf.catalog.exercises[exercise_id].data
        where = [
            vocabulary.positions[data.movement.position].name,
            *(vocabulary.equipment[e].name.lower() for e in data.equipment),
        ]
        values = {
            "region": [desk.shelf.catalog.muscles[id].data.region],
            "equipment": list(data.equipment) or [BODY_ALONE],
        }
        lines.append(
            ExerciseLine(desk.exercise(exercise_id), data.also_called, ", ".join(where), values)
        )
    return MuscleExercises(
        upper_first(desk.shelf.catalog.muscles[id].data.everyday),
        desk.part(id),
        sorted(lines, key=lambda line: line.link.text.lower()),
    )


def _meta(title: str, description: str) -> dict[str, object]:
    return {"title": title, "description": description, "hide": ["navigation", "toc"]}
