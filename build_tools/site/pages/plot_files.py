"""A plot as a file of its own: the drawing with its title, its key, its sources and the licence."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from ...catalog.bibliography import apa as referencing
from ..context import RenderContext
from ..escape import xml_text
from ..plots import curve_pair, curves
from ..plots.curve_plot import CurvePlot
from ..plots.interval_plot import Plot
from ..resource import Resource
from ..sections import comparison as comparisons
from ..sections import ranking as standings
from ..sections import statements
from ..templating import render

#: Pixels, and characters that fit into the width at the two sizes of words.
WIDTH, EDGE, TITLE_CHARACTERS, CHARACTERS = 640, 20, 74, 100


@dataclass(frozen=True)
class PlotFile:
    """Everything the template of the file shows; sizes in pixels."""

    plot: Plot | CurvePlot
    head: list[str]
    foot: list[str]
    curves: bool
    """Whether it is a plot of curves, not of intervals."""
    width: int = WIDTH
    edge: int = EDGE

    @property
    def top(self) -> int:
        """Where the drawing begins."""
        return self.edge + 22 * len(self.head) + 14

    @property
    def height(self) -> int:
        """Height of the whole file."""
        return self.top + self.plot.height + 24 + 17 * len(self.foot) + self.edge // 2


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """Every plot as a file."""
    for uri, draw, keys in _plots(shelf):
        yield Resource(uri, partial(_interval_file, uri=uri, draw=draw, keys=keys))
    for uri, curve in _curves(shelf):
        yield Resource(uri, partial(_curve_file, draw=curve))


def _interval_file(
    shelf: RenderContext, uri: str, draw: Callable[[str], Plot], keys: list[str]
) -> bytes:
    return plot_file(shelf, draw(uri), [_credit(shelf, key) for key in keys])


def _curve_file(shelf: RenderContext, draw: Callable[[RenderContext], CurvePlot]) -> bytes:
    return plot_file(shelf, draw(shelf), curves.credits(shelf))


def _plots(shelf: RenderContext) -> list[tuple[str, Callable[[str], Plot], list[str]]]:
    """Every plot of the handbook: where its file is, how it is drawn, and the studies it rests on."""
    found: list[tuple[str, Callable[[str], Plot], list[str]]] = []
    for id in shelf.catalog.exercises:
        for uri, comparison in statements.figures(shelf, id):
            found.append(
                (
                    uri,
                    partial(comparisons.claim_plot, shelf, comparison),
                    comparisons.studies_of(comparison),
                )
            )
    for fields in shelf.fields.values():
        for field in fields:
            for uri, component in standings.figures(field):
                found.append(
                    (
                        uri,
                        partial(standings.component_plot, shelf, field, component),
                        standings.sources(field),
                    )
                )
    return found


def _curves(shelf: RenderContext) -> Iterator[tuple[str, Callable[[RenderContext], CurvePlot]]]:
    """Every plot of load and length: where its file is, and how it is drawn."""
    for id in shelf.catalog.exercises:
        if curves.has_plot(shelf, id):
            yield curves.file(id), partial(_drawn_alone, id=id)
        for other in curve_pair.compared_with(shelf, id):
            yield curve_pair.file_with(id, other), partial(_drawn_beside, id=id, other=other)


def _drawn_alone(shelf: RenderContext, id: str) -> CurvePlot:
    return curves.draw(shelf, id)  # as its page asks for it, so that it is drawn once


def _drawn_beside(shelf: RenderContext, id: str, other: str) -> CurvePlot:
    return curve_pair.compare(shelf, id, other)


def plot_file(shelf: RenderContext, plot: Plot | CurvePlot, credits: list[str]) -> bytes:
    """The stand-alone SVG of a plot that rests on what ``credits`` name."""
    paragraphs = [
        plot.key,
        plot.basis if isinstance(plot, CurvePlot) else "",
        f"Sources: {'; '.join(credits)}.",
        f"From: {shelf.handbook.title}, {shelf.handbook.owner.name}. Licence: {shelf.handbook.licence}.",
    ]
    foot = [line for paragraph in paragraphs for line in textwrap.wrap(paragraph, CHARACTERS)]
    drawn = render(
        "plot_file.svg.jinja",
        palette=shelf.palette,
        file=PlotFile(
            plot, textwrap.wrap(plot.title, TITLE_CHARACTERS), foot, isinstance(plot, CurvePlot)
        ),
    )
    return xml_text(drawn).encode()


def _credit(shelf: RenderContext, key: str) -> str:
    reference = shelf.catalog.references[key]
    named = referencing.short(reference, shelf.letters[key])
    return f"{named}, https://doi.org/{reference.doi}" if reference.doi else named
