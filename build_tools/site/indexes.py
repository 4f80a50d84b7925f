"""The index of each kind of page, and the contents list of the home page."""

from __future__ import annotations

from dataclasses import dataclass

from .mentions import Mention
from .muscle import credited
from .references import cited_on, formatted
from .shelf import Link, Shelf, part_anchor
from .templating import render, upper_first


@dataclass(frozen=True)
class PartContents:
    """A part and the exercises a set of which counts for it, directly and as half a set."""

    everyday: str
    link: Link
    direct: list[Link]
    indirect: list[Link]


@dataclass(frozen=True)
class MuscleContents:
    """A muscle, its parts, and the exercises for the whole."""

    everyday: str
    link: Link
    summary: str
    direct: list[Link]
    indirect: list[Link]
    parts: list[PartContents]


def contents(shelf: Shelf, uri: str) -> list[MuscleContents]:
    """Muscles by everyday name, with their parts and exercises."""
    desk = shelf.at(uri)
    return [MuscleContents(
        upper_first(entry.data.everyday), desk.part(id), entry.data.summary, credited(desk, id, "direct"), credited(desk, id, "indirect"),
        [PartContents(upper_first(part.everyday), Link(part.name, desk.href(f"muscles/{id}.md", part_anchor(part_id))),
                      credited(desk, f"{id}/{part_id}", "direct"), credited(desk, f"{id}/{part_id}", "indirect"))
         for part_id, part in entry.data.parts.items()])
        for id, entry in sorted(shelf.catalog.muscles.items(), key=lambda item: item[1].data.name)]


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
