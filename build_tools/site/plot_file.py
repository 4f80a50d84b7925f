"""A plot as a file of its own: the drawing with its title, its key, its sources and the licence."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass

from ..catalog import referencing
from .interval_plot import Plot
from .shelf import Shelf
from .templating import render

#: Pixels, and characters that fit into the width at the two sizes of words.
WIDTH, EDGE, TITLE_CHARACTERS, CHARACTERS = 640, 20, 74, 100


@dataclass(frozen=True)
class PlotFile:
    """Everything the template of the file shows; sizes in pixels."""

    plot: Plot
    head: list[str]
    foot: list[str]
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


def plot_file(shelf: Shelf, plot: Plot, keys: list[str]) -> bytes:
    """The stand-alone SVG of a plot that rests on the references ``keys``."""
    paragraphs = [plot.key, f"Sources: {'; '.join(_credit(shelf, key) for key in keys)}.",
                  f"From: {shelf.handbook.title}, {shelf.handbook.owner.name}. Licence: {shelf.handbook.licence}."]
    foot = [line for paragraph in paragraphs for line in textwrap.wrap(paragraph, CHARACTERS)]
    return render("plot_file.svg.jinja", file=PlotFile(plot, textwrap.wrap(plot.title, TITLE_CHARACTERS), foot)).encode()


def _credit(shelf: Shelf, key: str) -> str:
    reference = shelf.catalog.references[key]
    named = referencing.short(reference, shelf.letters[key])
    return f"{named}, doi:{reference.doi}" if reference.doi else named
