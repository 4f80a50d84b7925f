"""The page of one part of a muscle: which exercise to choose for it, the pairs that this rests on, what is taught, anatomy last."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from markupsafe import Markup

from ....catalog import entries
from ....english import upper_first
from ....evidence.claims.conclusions import PartEvidence
from ....evidence_map.marks import LEGEND
from ...client import scripts
from ...context import Grounds, Link, PageContext, RenderContext
from ...map import mark as marks
from ...map.cell import place
from ...resource import Resource
from ...sections import kinds as kinds_views
from ...sections import labels as words
from ...sections import ranking
from ...sections.by_length import ByLength, by_length
from ...sections.comparison import bare
from ...sections.kinds import KindsView
from ...sections.ranking import FieldView
from ...sections.references import Formatted, cited_on, formatted
from ...sections.taught import taught_of
from ...templating import render
from . import pairs
from .card import ANSWER, CardView, card
from .pairs import PairsView

SECTIONS = (
    "top",
    ANSWER,
    "marks",
    "growth",
    "activation",
    "length",
    "anatomy",
    "exercises",
    "sources",
)


@dataclass(frozen=True)
class MarkGroup:
    """The exercises of one mark."""

    sign: Markup
    says: str
    links: list[Link]
    """By the exercises' names; each to its best statement."""


@dataclass(frozen=True)
class PartPage:
    """Everything the template of a part shows."""

    meta: dict[str, object]
    title: str
    part: entries.Part
    muscle: Link
    teach: str
    """The muscle's lesson."""
    card: CardView
    marks: list[MarkGroup]
    untested: list[Link]
    """Exercises that train it directly and of which nothing is known."""
    growth: PairsView | None
    whole: tuple[Link, int] | None
    """Where growth of the whole muscle is told, and of how many pairs."""
    taught: list[Link]
    """What is commonly taught of it, and nobody tested."""
    activation: PairsView | None
    other: list[FieldView]
    kinds: list[KindsView]
    """Where both activation and growth were measured: whether they agree."""
    by_length: ByLength | None
    crosses: list[str]
    facts: list[tuple[str, Grounds]]
    direct: list[Link]
    indirect: list[Link]
    sources: list[Formatted]
    certainty: str
    """Where certainty is explained."""
    notice: str
    notice_href: str
    script: str
    """Copies statements with their citations."""


def uri(ref: str) -> str:
    """The page of a part (``muscle/part``)."""
    return f"muscles/{ref}.md"


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """A page for each part of each muscle."""
    for id, muscle in shelf.catalog.muscles.items():
        for part in muscle.data.parts:
            ref = f"{id}/{part}"
            yield Resource(
                uri(ref), partial(text, ref=ref), anchors(shelf, ref), f"muscles/{id}.yaml"
            )


def anchors(shelf: RenderContext, ref: str) -> list[str]:
    """The anchors of a part's page."""
    return [*SECTIONS, *pair_anchors(shelf, ref)]


def pair_anchors(shelf: RenderContext, ref: str) -> Iterator[str]:
    """The anchors of all pairs of a part or a muscle."""
    for field in shelf.fields.get(ref, []):
        if field.relative_to is None:
            yield from pairs.anchors(field)


def text(shelf: RenderContext, ref: str) -> str:
    """The page as Markdown."""
    return render("part.md.jinja", page=model(shelf, ref))


def model(shelf: RenderContext, ref: str) -> PartPage:
    """What the page shows."""
    desk, part = shelf.at(uri(ref)), shelf.catalog.part(ref)
    assert isinstance(part, entries.Part)
    muscle = ref.partition("/")[0]
    fields = sorted(shelf.fields.get(ref, []), key=by_outcome)
    title = upper_first(bare(shelf.names.part(ref)))
    keys = [c.key for fact in part.facts for c in fact.cites]
    keys += [key for field in fields for key in ranking.sources(field)]
    return PartPage(
        meta={
            "title": title,
            "description": f"{title}: which exercise to choose for it, on what evidence, and what nobody tested.",
            "section": "muscles",
            "hide": ["navigation"],
        },
        title=title,
        part=part,
        muscle=desk.part(muscle),
        teach=desk.href(f"lessons/{muscle}.md"),
        card=card(desk, ref),
        marks=_marks(desk, ref),
        untested=[
            desk.exercise(row.exercise)
            for row in (
                *shelf.evidence_map.block(muscle).rows,
                *shelf.evidence_map.block(muscle).blank,
            )
            for cell in row.cells
            if cell.part == ref and cell.counts == "direct" and not cell.mark
        ],
        growth=drawn(desk, fields, "growth"),
        whole=_whole(desk, muscle),
        taught=taught_of(desk, ref),
        activation=drawn(desk, fields, "activation"),
        other=[ranking.view(desk, field) for field in fields if not is_drawn(field)],
        kinds=kinds_views.of_part(shelf, ref),
        by_length=by_length(desk, ref),
        crosses=joints(shelf, part),
        facts=[(f.say, desk.grounds(f)) for f in part.facts],
        direct=credited(desk, ref, "direct"),
        indirect=credited(desk, ref, "indirect"),
        sources=[formatted(desk, key) for key in cited_on(shelf, keys)],
        certainty=desk.href("methods.md", "certainty"),
        notice=shelf.handbook.notice.short,
        notice_href=desk.href("cautions.md"),
        script=desk.href(scripts.uri(scripts.SHARE)),
    )


def drawn(desk: PageContext, fields: list[PartEvidence], outcome: str) -> PairsView | None:
    """The pairs of one outcome; ``None`` where there are none."""
    found = [field for field in fields if field.outcome == outcome and is_drawn(field)]
    return pairs.view(desk, found[0]) if found else None


def is_drawn(field: PartEvidence) -> bool:
    """Whether its pairs are drawn as bars; ratios to another part and other outcomes are only told."""
    return field.relative_to is None and field.outcome in pairs.DRAWN


def by_outcome(field: PartEvidence) -> tuple[int, str]:
    """Growth first, then the other outcomes apart; ratios to another part last within each."""
    return list(words.OUTCOMES).index(field.outcome), field.relative_to or ""


def credited(desk: PageContext, ref: str, credit: str) -> list[Link]:
    """Exercises whose sets count towards a part (or the whole muscle) in this way, by name."""
    return sorted(
        desk.exercise(id)
        for id in desk.shelf.evidence_map.exercises(ref.partition("/")[0])
        if desk.shelf.catalog.exercises[id].data.set_credit.get(ref) == credit
    )


def joints(shelf: RenderContext, part: entries.Part) -> list[str]:
    """The joints that a part crosses, each once: ways in which one joint turns are no joints of their own."""
    known, found = shelf.vocabulary.joints, []
    for id in part.crosses:
        joint = id.partition("-")[0]
        name = known[joint if joint in known else id].name
        found.append(name.partition(" (")[0].removesuffix(" rotation").lower())
    return list(dict.fromkeys(found))


def _marks(desk: PageContext, ref: str) -> list[MarkGroup]:
    """The exercises that train it by their marks, in the order of the legend."""
    cells = desk.shelf.evidence_map.column(ref)
    shown = [cell for cell in cells if cell.mark and cell.counts]
    return [
        MarkGroup(
            marks.drawing(mark),
            upper_first(marks.words(mark)),
            [
                Link(desk.exercise(cell.exercise).text, place(desk, cell.reasons[0].address))
                for cell in found
            ],
        )
        for mark in LEGEND
        if (found := [cell for cell in shown if cell.mark == mark])
    ]


def _whole(desk: PageContext, muscle: str) -> tuple[Link, int] | None:
    """Growth measured on the whole muscle says less of a part, and is told on the muscle's page."""
    counts = [
        sum(c.finding != "not studied" for c in field.comparisons)
        for field in desk.shelf.fields.get(muscle, [])
        if field.outcome == "growth" and field.relative_to is None
    ]
    name = bare(desk.shelf.names.part(muscle))
    link = Link(f"the whole {name}", desk.href(f"muscles/{muscle}.md", "muscle-as-a-whole"))
    return (link, sum(counts)) if any(counts) else None
