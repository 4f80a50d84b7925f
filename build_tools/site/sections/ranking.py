"""What is known on one part and one outcome: pairs of exercises, and an order where studies connect enough of them."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ...english import counted, upper_first
from ...evidence.claims.conclusions import Comparison, NetworkOrder, PartEvidence, Ranked
from ...evidence.threshold import leaves_out
from ...evidence.treatments import pair_anchor
from ...evidence.wording.amounts import samples
from ..context import Link, PageContext, RenderContext
from ..plots.interval_plot import Plot, PlotRow, plot, svg
from . import labels as words
from .comparison import PlotView, RowView, bare, credited, row, told

APART = "No study connects these lists, so an exercise in one cannot be compared with an exercise in another."
#: What an order needs; with less, each pair is told by itself. Convention.
EXERCISES, SAMPLES = 3, 2


@dataclass(frozen=True)
class RankingRow:
    """One exercise in an order."""

    link: Link
    shows: str
    """Its ratio and interval against the reference, in words."""
    certainty: str
    unclear: bool
    """Whether no clear difference is known to the next one."""


@dataclass(frozen=True)
class Standing:
    """One component: exercises that studies connect, in order."""

    reference: Link
    places: list[RankingRow]
    figure: PlotView
    rests_on: str
    measured: str
    """What was measured: of growth the dimension, and whether it was the part by itself."""


@dataclass(frozen=True)
class PairView:
    """One pair of exercises, told in a sentence, and whose numbers it rests on."""

    anchor: str | None
    """None for ratios to another part, to which nothing leads."""
    sentence: str
    links: list[Link]
    rows: list[RowView]
    certainty: str


@dataclass(frozen=True)
class PairGroup:
    """Pairs of which the same was found. They stand in no order."""

    heading: str
    tested: bool
    pairs: list[PairView]


@dataclass(frozen=True)
class FieldView:
    """One outcome of one part; outcomes are never mixed."""

    outcome: str
    mark: str
    limit: str | None
    relative_to: str | None
    folded: bool
    """One step below: everything but growth."""
    standings: list[Standing]
    apart: str | None
    groups: list[PairGroup]
    size: str
    """How much is known, for the fold's label."""


def view(desk: PageContext, field: PartEvidence) -> FieldView:
    """The field as seen from one page."""
    orders = standings(desk, field)
    return FieldView(
        outcome=words.OUTCOMES[field.outcome],
        mark=field.outcome,
        limit=words.LIMITS.get(field.outcome),
        relative_to=desk.shelf.names.part(field.relative_to) if field.relative_to else None,
        folded=field.outcome != "growth",
        standings=orders,
        apart=APART if len(orders) > 1 else None,
        groups=[
            PairGroup(heading, finding != "not studied", [_pair(desk, c) for c in found])
            for finding, heading in words.PAIRS.items()
            if (found := [c for c in field.comparisons if c.finding == finding and c.sentence])
        ],
        size=_size(field),
    )


def standings(desk: PageContext, field: PartEvidence) -> list[Standing]:
    """The orders of a field: one for each component that holds enough."""
    return [_standing(desk, field, component, name) for name, component in figures(field)]


def figures(field: PartEvidence) -> list[tuple[str, NetworkOrder]]:
    """The plots of a field: what each one is called, and the component it shows."""
    ratio = f"-to-{field.relative_to.replace('/', '.')}" if field.relative_to else ""
    return [
        (f"{field.outcome}{ratio}-{n + 1}", c)
        for n, c in enumerate(field.components)
        if len(c.order) >= EXERCISES and c.samples >= SAMPLES
    ]


def component_plot(
    shelf: RenderContext, field: PartEvidence, component: NetworkOrder, id: str
) -> Plot:
    """The exercises of a component in their order, against its reference."""
    rows = [
        PlotRow(
            upper_first(bare(shelf.names.exercise(r.exercise))),
            _shows(r),
            "estimate" if r.against_reference else "reference",
            r.against_reference,
        )
        for r in component.order
    ]
    title = (
        f"{upper_first(words.MEASURED[field.outcome])}, {_topic(shelf, field)}: "
        f"against {bare(shelf.names.exercise(component.reference))}"
    )
    return plot(id, title, rows, shelf.margin(field.outcome))


def _topic(shelf: RenderContext, field: PartEvidence) -> str:
    """The part, and what it is measured against: ``long head relative to the short head``."""
    ratio = f" relative to {shelf.names.part(field.relative_to)}" if field.relative_to else ""
    return bare(shelf.names.part(field.part)) + ratio


def sources(field: PartEvidence) -> list[str]:
    """Keys of the studies behind a field."""
    return list(
        dict.fromkeys(row.study for comparison in field.comparisons for row in comparison.rows)
    )


def _standing(
    desk: PageContext, field: PartEvidence, component: NetworkOrder, name: str
) -> Standing:
    pairs = {frozenset((c.question.first, c.question.second)): c for c in field.comparisons}
    after = [*component.order[1:], None]
    drawn = component_plot(desk.shelf, field, component, name)
    to_reference = [
        pairs.get(frozenset((r.exercise, component.reference))) for r in component.order
    ]
    return Standing(
        reference=desk.exercise(component.reference),
        places=[
            _place(
                desk,
                r,
                known,
                pairs.get(frozenset((r.exercise, then.exercise))) if then else None,
            )
            for r, known, then in zip(component.order, to_reference, after, strict=True)
        ],
        figure=PlotView(drawn, Markup(svg(drawn)), name, credited(desk.shelf, sources(field))),
        rests_on=f"{samples(component.samples)}, {component.people} people",
        measured=_measured(component),
    )


def _measured(component: NetworkOrder) -> str:
    """``Measured: thickness, together with other parts.``; nothing where it goes without saying."""
    told = [component.dimension] if component.dimension else []
    if component.measured == "together":
        told.append("together with other parts")
    return f"Measured: {', '.join(told)}." if told else ""


def _place(
    desk: PageContext, ranked: Ranked, to_reference: Comparison | None, to_next: Comparison | None
) -> RankingRow:
    return RankingRow(
        link=desk.exercise(ranked.exercise),
        shows=_shows(ranked),
        certainty=to_reference.certainty.level if to_reference and to_reference.certainty else "",
        unclear=to_next is not None and unclear(to_next),
    )


def _shows(ranked: Ranked) -> str:
    return (
        told(ranked.against_reference)
        if ranked.against_reference
        else "the others are compared with it"
    )


def unclear(comparison: Comparison) -> bool:
    """Whether the interval of a pair holds no difference."""
    return comparison.estimate is not None and not leaves_out(
        comparison.estimate.low, comparison.estimate.high, 1
    )


def _pair(desk: PageContext, comparison: Comparison) -> PairView:
    rated, asked = comparison.certainty, comparison.question
    return PairView(
        None if asked.relative_to else pair_anchor(asked.outcome, asked.first, asked.second),
        comparison.sentence,
        [desk.exercise(asked.first), desk.exercise(asked.second)],
        [row(desk, r) for r in comparison.rows],
        rated.level if rated else "",
    )


def _size(field: PartEvidence) -> str:
    studied = sum(c.finding != "not studied" for c in field.comparisons)
    told = counted(studied, "pair") if studied else "no pair tested"
    return upper_first(told)
