"""The index of each kind of page, and the contents list of the home page."""

from __future__ import annotations

from dataclasses import dataclass

from .mentions import Mention
from .muscle import credited
from .references import cited_on, formatted
from .shelf import Link, Shelf
from .templating import render, upper_first


@dataclass(frozen=True)
class Row:
    """Parts that the same exercises count for, and those exercises."""

    parts: list[Link]
    exercises: list[Link]


@dataclass(frozen=True)
class MuscleContents:
    """A muscle, the exercises for all of it, and its parts."""

    everyday: str
    link: Link
    summary: str
    whole: list[Link]
    rows: list[Row]
    parts: list[tuple[str, Link]]
    """Everyday name, and the part by its anatomical name."""


def contents(shelf: Shelf, uri: str) -> list[MuscleContents]:
    """Muscles by name, with their parts and the exercises a set of which counts for each."""
    desk, made = shelf.at(uri), []
    for id, entry in sorted(shelf.catalog.muscles.items(), key=lambda item: item[1].data.name):
        by_exercises: dict[tuple[Link, ...], list[Link]] = {}
        parts = []
        for part_id, part in entry.data.parts.items():
            link = desk.part(f"{id}/{part_id}")
            parts.append((upper_first(part.everyday), link))
            direct = tuple(credited(desk, f"{id}/{part_id}", "direct"))
            by_exercises.setdefault(direct, []).append(Link(upper_first(part.everyday), link.href))
        made.append(MuscleContents(upper_first(entry.data.everyday), desk.part(id), entry.data.summary, credited(desk, id, "direct"),
                                   [Row(links, list(direct)) for direct, links in by_exercises.items() if direct], parts))
    return made


def exercises(shelf: Shelf) -> str:
    """The index of exercises, by name."""
    desk, vocabulary = shelf.at("exercises/index.md"), shelf.vocabulary
    rows = []
    for id, entry in sorted(shelf.catalog.exercises.items(), key=lambda item: item[1].data.name.lower()):
        data = entry.data
        where = [vocabulary.positions[data.movement.position].name, *(vocabulary.equipment[e].name.lower() for e in data.equipment)]
        rows.append((desk.exercise(id), data.also_called, ", ".join(where),
                     desk.parts(p for p, credit in data.set_credit.items() if credit == "direct")))
    return render("exercises.md.jinja", rows=rows, meta=_meta("Exercises", "Every exercise of the handbook, by name."))


def muscles(shelf: Shelf) -> str:
    """The index of muscles."""
    return render("muscles.md.jinja", muscles=contents(shelf, "muscles/index.md"),
                  meta=_meta("Muscles", "Every muscle of the handbook and its parts, in plain words."))


def sources(shelf: Shelf, mentions: dict[str, list[Mention]]) -> str:
    """The index of sources, by author and year."""
    desk, references = shelf.at("sources/index.md"), shelf.catalog.references
    rows = [(formatted(desk, key), len(mentions.get(key, [])), key in shelf.catalog.studies)
            for key in cited_on(shelf, list(references))]
    return render("sources.md.jinja", rows=rows, meta=_meta("Sources", "Every source of the handbook and how much of it was read."))


def _meta(title: str, description: str) -> dict[str, object]:
    return {"title": title, "description": description, "hide": ["navigation", "toc"]}
