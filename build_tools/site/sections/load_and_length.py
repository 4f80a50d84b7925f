"""The section of an exercise's page on load and length: the sentence, the plot, and others beside it one step below."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ...movement.curve_words import Told
from ..context import Link, PageContext
from ..plots import curve_pair, curves
from ..plots.curve_plot import svg
from .comparison import PlotView


@dataclass(frozen=True)
class CurvesView:
    """What the page shows."""

    told: Told
    figure: PlotView | None
    why: list[str]
    """Reasons for lengths that are missing."""
    compared: list[tuple[Link, PlotView]]
    basis: str
    """What the curves are and what they do not show; empty without any."""
    methods: str
    """Where it is told what is computed."""


def view(desk: PageContext, id: str) -> CurvesView:
    """The section as seen from one page."""
    shelf = desk.shelf
    drawn = curves.draw(shelf, id) if curves.has_plot(shelf, id) else None
    compared = [
        (other, curve_pair.compare(shelf, id, other))
        for other in curve_pair.compared_with(shelf, id)
    ]
    return CurvesView(
        told=curves.told(shelf, id),
        figure=PlotView(drawn, Markup(svg(drawn)), curves.NAME) if drawn else None,
        why=_reasons(desk, id),
        compared=[
            (
                desk.exercise(other),
                PlotView(plot, Markup(svg(plot)), f"with-{other}"),
            )
            for other, plot in compared
        ],
        basis=drawn.basis if drawn else "",
        methods=desk.href("methods.md", "posture"),
    )


def _reasons(desk: PageContext, id: str) -> list[str]:
    """Each reason once, with the parts that it holds for."""
    by_reason: dict[str, list[str]] = {}
    for ref, why in desk.shelf.courses.of(id).unknown.items():
        by_reason.setdefault(why, []).append(ref)
    return [f"{desk.shelf.names.parts(refs)}: {why}" for why, refs in by_reason.items()]
