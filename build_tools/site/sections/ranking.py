"""What is known on one part and one outcome: exercises in order where studies connect them, directions where not."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ...english import counted, upper_first
from ...evidence.claims.conclusions import Comparison, NetworkOrder, PartEvidence, Ranked
from ...evidence.threshold import leaves_out
from ...evidence.wording.amounts import samples
from ..context import Link, PageContext, RenderContext
from ..plots.interval_plot import Plot, PlotRow, plot, svg
from . import labels as words
from .comparison import PlotView, RowView, bare, row, told

APART = "No study connects these lists, so an exercise in one cannot be compared with an exercise in another."


@dataclass(frozen=True)
class RankingRow:
    """One exercise in an order."""

    link: Link
    shows: str
    """Its ratio and interval against the reference, in words."""
    certainty: str
    unclear: bool
    """Whether no clear difference is known to the next one."""
    p_score: str


@dataclass(frozen=True)
class Standing:
    """One component: exercises that studies connect, in order."""

    reference: Link
    places: list[RankingRow]
    figure: PlotView
    rests_on: str
    agreement: str | None


@dataclass(frozen=True)
class PairView:
    """One pair of the league."""

    first: Link
    second: Link
    sentence: str
    path: str
    certainty: str


@dataclass(frozen=True)
class ListedView:
    """A comparison of which only directions are known."""

    sentence: str
    rows: list[RowView]


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
    listed: list[ListedView]
    league: list[PairView]
    called: str
    """Name of the league among those of the page."""
    size: str
    """How much is known, for the fold's label."""


def view(desk: PageContext, field: PartEvidence) -> FieldView:
    """The field as seen from one page."""
    drawn = figures(field)
    standings = [_standing(desk, field, component, uri) for uri, component in drawn]
    listed = [c for c in field.comparisons if c.estimate is None and c.shape != "untested"]
    return FieldView(
        outcome=words.OUTCOMES[field.outcome],
        mark=field.outcome,
        limit=words.LIMITS.get(field.outcome),
        relative_to=desk.shelf.names.part(field.relative_to) if field.relative_to else None,
        folded=field.outcome != "growth",
        standings=standings,
        apart=APART if len(standings) > 1 else None,
        listed=[ListedView(c.sentence, [row(desk, r) for r in c.rows]) for c in listed],
        league=[_pair(desk, c) for c in field.comparisons if c.estimate],
        called=f"Every pair, {field.outcome}, {_topic(desk.shelf, field)}",
        size=_size(field, len(listed)),
    )


def figures(field: PartEvidence) -> list[tuple[str, NetworkOrder]]:
    """The plots of a field: the uri of each one's file, and the component it shows."""
    ratio = f"-to-{field.relative_to.replace('/', '.')}" if field.relative_to else ""
    return [
        (f"figures/muscles/{field.part}/{field.outcome}{ratio}-{n + 1}.svg", c)
        for n, c in enumerate(field.components)
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
    desk: PageContext, field: PartEvidence, component: NetworkOrder, uri: str
) -> Standing:
    pairs = {frozenset((c.question.first, c.question.second)): c for c in field.comparisons}
    after = [*component.order[1:], None]
    drawn = component_plot(desk.shelf, field, component, uri.removesuffix(".svg").replace("/", "-"))
    return Standing(
        reference=desk.exercise(component.reference),
        places=[
            _place(
                desk,
                r,
                pairs.get(frozenset((r.exercise, component.reference))),
                pairs.get(frozenset((r.exercise, then.exercise))) if then else None,
            )
            for r, then in zip(component.order, after, strict=True)
        ],
        figure=PlotView(drawn, Markup(svg(drawn)), desk.href(uri)),
        rests_on=f"{samples(component.samples)}, {component.people} people",
        agreement=_agreement(component),
    )


def _place(
    desk: PageContext, ranked: Ranked, to_reference: Comparison | None, to_next: Comparison | None
) -> RankingRow:
    return RankingRow(
        link=desk.exercise(ranked.exercise),
        shows=_shows(ranked),
        certainty=to_reference.certainty.level if to_reference and to_reference.certainty else "",
        unclear=to_next is not None and unclear(to_next),
        p_score=f"{ranked.p_score * 100:.0f}%",
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


def _agreement(component: NetworkOrder) -> str | None:
    if component.q_between_p is None:
        return (
            "Nothing was measured twice, so how far studies differ is not known."
            if component.tau2 is None
            else None
        )
    told = (
        "do not disagree more than chance allows"
        if component.q_between_p >= 0.05
        else "disagree more than chance allows"
    )
    return f"Direct and indirect comparisons {told} (p = {component.q_between_p:.2g})."


def _pair(desk: PageContext, comparison: Comparison) -> PairView:
    question, rated = comparison.question, comparison.certainty
    return PairView(
        desk.exercise(question.first),
        desk.exercise(question.second),
        comparison.sentence,
        comparison.path or "",
        rated.level if rated else "",
    )


def _size(field: PartEvidence, listed: int) -> str:
    exercises = sum(len(component.order) for component in field.components)
    told = [f"{exercises} exercises in order"] if exercises else []
    if listed:
        told.append(f"{counted(listed, 'comparison')} by direction only")
    return upper_first("; ".join(told))
