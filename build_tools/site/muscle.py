"""The page of one muscle group: its parts, what studies report on each, and the exercises that count towards it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..catalog import entries
from ..evidence.reported import Reported
from . import evidence_words as words
from .references import Formatted, cited_on, formatted
from .shelf import MUSCLE_SECTIONS, Desk, Grounds, Link, Shelf, part_anchor
from .templating import render


@dataclass(frozen=True)
class ReportView:
    """One reported contrast of two exercises."""

    first: Link
    second: Link
    direction: str
    """more, less, neither, or empty when no direction is known."""
    figures: str
    notes: list[str]
    source: Link


@dataclass(frozen=True)
class OutcomeView:
    """All reports on one outcome; outcomes are never mixed."""

    outcome: str
    mark: str
    limit: str | None
    folded: bool
    """One step below: everything but growth."""
    reports: list[ReportView]


@dataclass(frozen=True)
class PartView:
    """One part in plain words."""

    anchor: str
    part: entries.Part
    crosses: list[str]
    facts: list[tuple[str, Grounds]]
    outcomes: list[OutcomeView]
    direct: list[Link]
    indirect: list[Link]


@dataclass(frozen=True)
class MusclePage:
    """Everything the template of a muscle shows."""

    meta: dict[str, object]
    muscle: entries.Muscle
    facts: list[tuple[str, Grounds]]
    parts: list[PartView]
    whole: list[OutcomeView]
    direct: list[Link]
    indirect: list[Link]
    sources: list[Formatted]
    notice: str
    notice_href: str


def anchors(shelf: Shelf, id: str) -> list[str]:
    """The anchors of a muscle's page."""
    return [*MUSCLE_SECTIONS, *(part_anchor(part) for part in shelf.catalog.muscles[id].data.parts)]


def text(shelf: Shelf, id: str) -> str:
    """The page as Markdown."""
    return render("muscle.md.jinja", page=model(shelf, id))


def model(shelf: Shelf, id: str) -> MusclePage:
    """What the page shows."""
    muscle, desk = shelf.catalog.muscles[id].data, shelf.at(f"muscles/{id}.md")
    refs = [id, *(f"{id}/{part}" for part in muscle.parts)]
    found = {ref: {o: r for o in words.OUTCOMES if (r := shelf.conclusions.reports.on_part(ref, o))} for ref in refs}
    facts = [f for holder in (muscle, *muscle.parts.values()) for f in holder.facts]
    keys = [c.key for f in facts for c in f.cites] + [r.study for by in found.values() for rs in by.values() for r in rs]
    return MusclePage(
        meta={"title": muscle.name, "description": f"{muscle.name}: the parts in plain words, what studies report on each, "
              "and the exercises that train it.", "section": "muscles", "hide": ["navigation"], "search": {"boost": 1.5}},
        muscle=muscle, facts=[(f.say, desk.grounds(f)) for f in muscle.facts],
        parts=[_part(desk, f"{id}/{part}", data, found[f"{id}/{part}"]) for part, data in muscle.parts.items()],
        whole=[_outcome(desk, o, r) for o, r in found[id].items()],
        direct=credited(desk, id, "direct"), indirect=credited(desk, id, "indirect"),
        sources=[formatted(desk, key) for key in cited_on(shelf, keys)],
        notice=shelf.handbook.notice.short, notice_href=desk.href("cautions.md"))


def credited(desk: Desk, ref: str, credit: str) -> list[Link]:
    """Exercises whose sets count towards a part (or the whole muscle) in this way, by name."""
    return sorted(desk.exercise(id) for id, e in desk.shelf.catalog.exercises.items() if e.data.set_credit.get(ref) == credit)


def _part(desk: Desk, ref: str, part: entries.Part, found: dict[str, list[Reported]]) -> PartView:
    joints = desk.shelf.vocabulary.joints
    return PartView(
        anchor=part_anchor(ref.partition("/")[2]), part=part, crosses=[joints[j].name.lower() for j in part.crosses],
        facts=[(f.say, desk.grounds(f)) for f in part.facts], outcomes=[_outcome(desk, o, r) for o, r in found.items()],
        direct=credited(desk, ref, "direct"), indirect=credited(desk, ref, "indirect"))


def _outcome(desk: Desk, outcome: str, reports: list[Reported]) -> OutcomeView:
    return OutcomeView(words.OUTCOMES[outcome], outcome, words.LIMITS.get(outcome), outcome != "growth",
                       [_report(desk, r) for r in reports])


def _report(desk: Desk, reported: Reported) -> ReportView:
    first, second, direction = reported.first.exercise, reported.second.exercise, reported.direction
    if direction == "less":  # told the other way round, so that the larger side stands first
        figures = _turned(reported)
        first, second, direction = second, first, "more"
    else:
        figures = words.reported_figures(reported)
    study, catalog = reported.study, desk.shelf.catalog
    notes = [f"{catalog.studies[study].data.people.n} people", desk.shelf.vocabulary.measures[reported.measure].name, reported.at]
    if reported.site:
        notes.insert(2, reported.site)
    if reported.relative_to:
        notes.insert(2, f"relative to {desk.part(reported.relative_to).text}")
    if reported.cover == "jointly":
        notes.append("measured together with other parts")
    return ReportView(desk.exercise(first), desk.exercise(second), direction or "", figures, notes, desk.source(study, reported.result))


def _turned(reported: Reported) -> str:
    return words.reported_figures(replace(reported, first=reported.second, second=reported.first, flipped=not reported.flipped))
