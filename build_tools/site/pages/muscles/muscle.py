"""The page of one muscle: its block of the evidence map, an answer for each part, and what was measured on it as a whole."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from markupsafe import Markup

from ....catalog import entries
from ....english import upper_first
from ...client import scripts
from ...context import MUSCLE_SECTIONS, Grounds, Link, PageContext, RenderContext, part_anchor
from ...map.block import block
from ...resource import Resource
from ...sections import kinds as kinds_views
from ...sections import ranking
from ...sections.comparison import bare
from ...sections.kinds import KindsView
from ...sections.length_rule import LengthRule, length_rule
from ...sections.ranking import FieldView
from ...sections.references import Formatted, cited_on, formatted
from ...templating import render
from . import part as part_pages
from .card import CardView, card
from .pairs import PairsView


@dataclass(frozen=True)
class PartAnswer:
    """One part: its name, its answer, and where more is told."""

    anchor: str
    name: str
    link: Link
    card: CardView
    direct: list[Link]
    indirect: list[Link]


@dataclass(frozen=True)
class MusclePage:
    """Everything the template of a muscle shows."""

    meta: dict[str, object]
    muscle: entries.Muscle
    teach: str
    """Its lesson."""
    block: Markup
    parts: list[PartAnswer]
    growth: PairsView | None
    """What was measured on the whole muscle."""
    activation: PairsView | None
    other: list[FieldView]
    kinds: list[KindsView]
    rule: LengthRule | None
    """What length seems to add to its growth."""
    direct: list[Link]
    indirect: list[Link]
    facts: list[tuple[str, Grounds]]
    sources: list[Formatted]
    notice: str
    notice_href: str
    script: str
    """Copies statements with their citations."""


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """A page for each muscle."""
    for id in shelf.catalog.muscles:
        yield Resource(
            f"muscles/{id}.md", partial(text, id=id), anchors(shelf, id), f"muscles/{id}.yaml"
        )


def anchors(shelf: RenderContext, id: str) -> list[str]:
    """The anchors of a muscle's page."""
    return [
        *MUSCLE_SECTIONS,
        *(part_anchor(part) for part in shelf.catalog.muscles[id].data.parts),
        *part_pages.pair_anchors(shelf, id),
    ]


def text(shelf: RenderContext, id: str) -> str:
    """The page as Markdown."""
    return render("muscle.md.jinja", page=model(shelf, id))


def model(shelf: RenderContext, id: str) -> MusclePage:
    """What the page shows."""
    muscle, desk = shelf.catalog.muscles[id].data, shelf.at(f"muscles/{id}.md")
    fields = sorted(shelf.fields.get(id, []), key=part_pages.by_outcome)
    keys = [c.key for fact in muscle.facts for c in fact.cites]
    keys += [key for field in fields for key in ranking.sources(field)]
    keys += shelf.conclusions.slopes[id].studies if id in shelf.conclusions.slopes else ()
    return MusclePage(
        meta={
            "title": muscle.name,
            "description": f"{muscle.name}: which exercise to choose for each of its parts, on what evidence.",
            "section": "muscles",
            "hide": ["navigation"],
        },
        muscle=muscle,
        teach=desk.href(f"lessons/{id}.md"),
        block=block(desk, id),
        parts=[_part(desk, f"{id}/{part}") for part in muscle.parts],
        growth=part_pages.drawn(desk, fields, "growth"),
        activation=part_pages.drawn(desk, fields, "activation"),
        other=[ranking.view(desk, f) for f in fields if not part_pages.is_drawn(f)],
        kinds=kinds_views.of_part(shelf, id),
        rule=length_rule(desk, id),
        direct=part_pages.credited(desk, id, "direct"),
        indirect=part_pages.credited(desk, id, "indirect"),
        facts=[(f.say, desk.grounds(f)) for f in muscle.facts],
        sources=[formatted(desk, key) for key in cited_on(shelf, keys)],
        notice=shelf.handbook.notice.short,
        notice_href=desk.href("cautions.md"),
        script=desk.href(scripts.uri(scripts.SHARE)),
    )


def _part(desk: PageContext, ref: str) -> PartAnswer:
    name = upper_first(bare(desk.shelf.names.part(ref)))
    return PartAnswer(
        part_anchor(ref.partition("/")[2]),
        name,
        Link(f"All on {desk.shelf.names.part(ref)}", desk.part(ref).href),
        card(desk, ref),
        part_pages.credited(desk, ref, "direct"),
        part_pages.credited(desk, ref, "indirect"),
    )
