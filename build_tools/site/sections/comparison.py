"""One comparison as pages show it: its plot, the samples behind it, how its certainty was reached, what would change it."""

from __future__ import annotations

from dataclasses import dataclass
from math import isclose

from markupsafe import Markup

from ...catalog.bibliography import apa as referencing
from ...english import upper_first
from ...evidence.certainty.rating import Certainty
from ...evidence.claims.conclusions import Comparison, Row
from ...evidence.terms import Question, RatioInterval
from ...evidence.wording.amounts import amount, span
from ..context import Link, PageContext, RenderContext
from ..plots.curve_plot import CurvePlot
from ..plots.interval_plot import Plot, PlotRow, plot, svg
from . import labels as words
from . import outlook
from .outlook import OutlookView


@dataclass(frozen=True)
class RowView:
    """What one sample of people shows."""

    source: Link
    people: int
    read: str
    texts: tuple[str, ...]
    """The numbers as printed."""
    shows: str
    how: str
    notes: tuple[str, ...]


@dataclass(frozen=True)
class CertaintyView:
    """A level in GRADE's word, and every step that led to it."""

    level: str
    steps: list[tuple[str, str]]
    """What changed (``one level down``, empty when nothing did) and why."""


@dataclass(frozen=True)
class PlotView:
    """A plot on a page, and what its file is called that the reader's browser makes (``scripts/figure.js``)."""

    plot: Plot | CurvePlot
    drawing: Markup
    name: str
    credit: str = ""
    """The sources of a plot of studies; of curves it stands in ``data/figure.json``."""


@dataclass(frozen=True)
class ComparisonView:
    """Everything one step below a sentence."""

    asked: str
    figure: PlotView | None
    rows: list[RowView]
    together: list[str]
    """What is said of all samples at once: the path, chances, other assumptions."""
    certainty: CertaintyView | None
    outlook: OutlookView | None
    """What one more study would change."""


def view(desk: PageContext, comparison: Comparison, name: str) -> ComparisonView:
    """The comparison as seen from one page; ``name`` is that of its plot there."""
    drawn = claim_plot(desk.shelf, comparison, name) if has_plot(comparison) else None
    return ComparisonView(
        asked=upper_first(asked(desk.shelf, comparison.question)),
        figure=PlotView(
            drawn, Markup(svg(drawn)), name, credited(desk.shelf, studies_of(comparison))
        )
        if drawn
        else None,
        rows=[row(desk, r) for r in comparison.rows],
        together=_together(desk.shelf, comparison),
        certainty=certainty(comparison.certainty) if comparison.certainty else None,
        outlook=outlook.view(desk.shelf, comparison),
    )


def row(desk: PageContext, given: Row) -> RowView:
    """One sample as seen from one page."""
    return RowView(
        source=desk.source(given.study, given.results[0] if given.results else None),
        people=given.people,
        read=words.read_of(given.read),
        texts=given.texts,
        shows=shows(given),
        how=given.how,
        notes=given.notes,
    )


def shows(given: Row) -> str:
    """What a sample shows, in words: its ratio and interval, or only its direction."""
    if given.estimate:
        return told(given.estimate)
    if given.ratio is not None:
        return f"{amount(given.ratio)}, without a spread of its own"
    if given.stated:
        return {
            "more": "more, by how much is not known",
            "less": "less, by how much is not known",
            "neither": "no difference reported",
        }.get(given.direction or "", "different answers in different measurements")
    if given.direction == "neither":
        return "no difference told, but no test of the two was read, so not counted"
    return (
        "unequal, but no test of the two was read, so not counted"
        if given.direction
        else "no direction given"
    )


def told(estimate: RatioInterval) -> str:
    """A ratio with its interval: ``5% more (from 1% more to 9% more)``."""
    return f"{amount(estimate.ratio)} ({span(estimate.low, estimate.high)})"


def certainty(given: Certainty) -> CertaintyView:
    """A rating with its steps; caps stand last, as they hold whatever else is true."""
    steps = [(words.levels(step.change), step.reason) for step in given.steps]
    return CertaintyView(
        given.level, [*steps, *((f"at most {cap.at_most}", cap.reason) for cap in given.caps)]
    )


def has_plot(comparison: Comparison) -> bool:
    """Whether there is any number to draw; directions alone are better told in words."""
    if comparison.estimate is not None and comparison.sized:
        return True
    return any(row.estimate or row.ratio is not None for row in comparison.rows)


def claim_plot(shelf: RenderContext, comparison: Comparison, id: str) -> Plot:
    """The samples of one comparison and all of them together."""
    rows = [
        PlotRow(
            f"{shelf.short(r.study)}, {r.people} people",
            shows(r),
            "sample" if r.estimate else "direction" if r.ratio is None else "number",
            r.estimate,
            r.direction,
            r.ratio,
        )
        for r in comparison.rows
        if r.estimate or r.stated or r.ratio is not None
    ]
    if (
        comparison.estimate
        and comparison.sized
        and not any(r.estimate and _alike(r.estimate, comparison.estimate) for r in comparison.rows)
    ):
        through = {
            "indirect": "Through other exercises",
            "direct and indirect": "All together, other exercises included",
        }
        alone = "Over studies like this" if len(comparison.rows) == 1 else "All together"
        rows.append(
            PlotRow(
                through.get(comparison.path or "", alone),
                told(comparison.estimate),
                "together",
                comparison.estimate,
            )
        )
    question = comparison.question
    return plot(
        id,
        f"{upper_first(words.MEASURED[question.outcome])}: {asked(shelf, question)}",
        rows,
        shelf.margin(question.outcome),
    )


def _alike(a: RatioInterval, b: RatioInterval) -> bool:
    """Whether two estimates would be drawn as one."""
    return all(
        isclose(x, y, rel_tol=1e-3)
        for x, y in ((a.ratio, b.ratio), (a.low, b.low), (a.high, b.high))
    )


def asked(shelf: RenderContext, question: Question) -> str:
    """What is compared: ``crate curl against cable curl, long head``."""
    names = shelf.names
    if question.within:
        first, second, tail = (
            names.part(question.first),
            names.part(question.second),
            f" in {names.exercise(question.within)}",
        )
    else:
        first, second, tail = (
            names.exercise(question.first),
            names.exercise(question.second),
            f", {bare(names.part(question.part))}",
        )
    ratio = f" relative to {names.part(question.relative_to)}" if question.relative_to else ""
    return f"{bare(first)} against {bare(second)}{tail}{ratio}"


def bare(name: str) -> str:
    """A name without its article."""
    return name.removeprefix("the ")


def studies_of(comparison: Comparison) -> list[str]:
    """Keys of the studies behind a comparison, in order."""
    return list(dict.fromkeys(row.study for row in comparison.rows))


def credited(shelf: RenderContext, keys: list[str]) -> str:
    """The studies that a plot rests on, as its file names them."""
    named = []
    for key in keys:
        reference = shelf.catalog.references[key]
        short = referencing.short(reference, shelf.letters[key])
        named.append(f"{short}, https://doi.org/{reference.doi}" if reference.doi else short)
    return f"Sources: {'; '.join(named)}."


def _together(shelf: RenderContext, comparison: Comparison) -> list[str]:
    told = []
    if comparison.path == "indirect":
        told.append(
            "No study compares the two directly; the estimate comes through other exercises that studies connect."
        )
    if chances := outlook.chances(shelf, comparison):
        told.append(chances)
    if comparison.sensitive:
        told.append(comparison.sensitive)
    return told
