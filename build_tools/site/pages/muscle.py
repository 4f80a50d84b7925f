"""The page of one muscle group: its parts, what studies report on each, and the exercises that count towards it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from ...catalog import entries
from ...evidence.claims.conclusions import PartEvidence
from ..context import MUSCLE_SECTIONS, Grounds, Link, PageContext, RenderContext, part_anchor
from ..resource import Resource
from ..sections import kinds as kinds_views
from ..sections import labels as words
from ..sections import ranking as standings
from ..sections.by_length import ByLength, by_length
from ..sections.kinds import KindsView
from ..sections.length_rule import LengthRule, length_rule
from ..sections.ranking import FieldView
from ..sections.references import Formatted, cited_on, formatted
from ..sections.taught import taught_of
from ..templating import render


@dataclass(frozen=True)
class PartView:
    """One part in plain words."""

    anchor: str
    part: entries.Part
    crosses: list[str]
    facts: list[tuple[str, Grounds]]
    outcomes: list[FieldView]
    kinds: list[KindsView]
    """Where both activation and growth were measured: whether they agree."""
    taught: list[Link]
    """What is commonly taught of it and nobody tested."""
    by_length: ByLength | None
    direct: list[Link]
    indirect: list[Link]


@dataclass(frozen=True)
class MusclePage:
    """Everything the template of a muscle shows."""

    meta: dict[str, object]
    muscle: entries.Muscle
    facts: list[tuple[str, Grounds]]
    parts: list[PartView]
    whole: list[FieldView]
    kinds: list[KindsView]
    rule: LengthRule | None
    """What length seems to add to its growth."""
    direct: list[Link]
    indirect: list[Link]
    sources: list[Formatted]
    certainty: str
    """Where certainty is explained."""
    notice: str
    notice_href: str


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """A page for each muscle."""
    for id in shelf.catalog.muscles:
        yield Resource(
            f"muscles/{id}.md", partial(text, id=id), anchors(shelf, id), f"muscles/{id}.yaml"
        )


def anchors(shelf: RenderContext, id: str) -> list[str]:
    """The anchors of a muscle's page."""
    return [*MUSCLE_SECTIONS, *(part_anchor(part) for part in shelf.catalog.muscles[id].data.parts)]


def text(shelf: RenderContext, id: str) -> str:
    """The page as Markdown."""
    return render("muscle.md.jinja", page=model(shelf, id))


def model(shelf: RenderContext, id: str) -> MusclePage:
    """What the page shows."""
    muscle, desk = shelf.catalog.muscles[id].data, shelf.at(f"muscles/{id}.md")
    refs = [id, *(f"{id}/{part}" for part in muscle.parts)]
    found = {ref: sorted(shelf.fields.get(ref, []), key=_order) for ref in refs}
    facts = [*muscle.facts, *(f for part in muscle.parts.values() for f in part.facts)]
    keys = [c.key for f in facts for c in f.cites]
    keys += [
        key for fields in found.values() for field in fields for key in standings.sources(field)
    ]
    keys += shelf.conclusions.slopes[id].studies if id in shelf.conclusions.slopes else ()
    return MusclePage(
        meta={
            "title": muscle.name,
            "description": f"{muscle.name}: the parts in plain words, what studies report on each, "
            "and the exercises that train it.",
            "section": "muscles",
            "hide": ["navigation"],
            "search": {"boost": 1.5},
        },
        muscle=muscle,
        facts=[(f.say, desk.grounds(f)) for f in muscle.facts],
        parts=[
            _part(desk, f"{id}/{part}", data, found[f"{id}/{part}"])
            for part, data in muscle.parts.items()
        ],
        whole=[standings.view(desk, field) for field in found[id]],
        kinds=kinds_views.of_part(shelf, id),
        rule=length_rule(desk, id),
        direct=credited(desk, id, "direct"),
        indirect=credited(desk, id, "indirect"),
        sources=[formatted(desk, key) for key in cited_on(shelf, keys)],
        certainty=desk.href("methods.md", "certainty"),
        notice=shelf.handbook.notice.short,
        notice_href=desk.href("cautions.md"),
    )


def credited(desk: PageContext, ref: str, credit: str) -> list[Link]:
    """Exercises whose sets count towards a part (or the whole muscle) in this way, by name."""
    return sorted(
        desk.exercise(id)
        for id, e in desk.shelf.catalog.exercises.items()
        if e.data.set_credit.get(ref) == credit
    )


def _part(desk: PageContext, ref: str, part: entries.Part, fields: list[PartEvidence]) -> PartView:
    joints = desk.shelf.vocabulary.joints
    return PartView(
        anchor=part_anchor(ref.partition("/")[2]),
        part=part,
        crosses=[joints[j].name.lower() for j in part.crosses],
        facts=[(f.say, desk.grounds(f)) for f in part.facts],
        outcomes=[standings.view(desk, f) for f in fields],
        kinds=kinds_views.of_part(desk.shelf, ref),
        taught=taught_of(desk, ref),
        by_length=by_length(desk, ref),
        direct=credited(desk, ref, "direct"),
        indirect=credited(desk, ref, "indirect"),
    )


def _order(field: PartEvidence) -> tuple[int, str]:
    """Growth first, then the other outcomes apart; ratios to another part last within each."""
    return list(words.OUTCOMES).index(field.outcome), field.relative_to or ""
