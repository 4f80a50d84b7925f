"""Interval plots: ratios with their 95% intervals, as a drawing and as the words that stand in for it.

Shapes carry the meaning, not colours: a filled dot with a line is a sample of
people, a hollow dot one whose number has no spread of its own, a diamond on a
bar the average over studies like these, a hollow dot with an arrow a sample of
which only the direction is known. Sizes of dots mean nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from ...english import upper_first
from ...evidence.studies.contrasts import Direction
from ...evidence.terms import RatioInterval
from ...evidence.wording.amounts import percent
from ..templating import render
from .axis import PlotAxis, Tick, fitting

Shape = Literal["sample", "number", "estimate", "together", "direction", "reference"]

#: Heights in pixels: one row, and the axis below the rows.
ROW, AXIS = 42, 30


@dataclass(frozen=True)
class PlotRow:
    """What one row of a plot shows. Directions and references have neither estimate nor number."""

    label: str
    says: str
    """The row in words, without its label."""
    shape: Shape
    estimate: RatioInterval | None = None
    direction: Direction | None = None
    number: float | None = None
    """A ratio without a spread of its own."""


@dataclass(frozen=True)
class IntervalMark:
    """One row as drawn; places are shares of the width, heights pixels."""

    label: str
    numbers: str
    shape: Shape
    top: int
    at: float
    low: float
    high: float
    cut_low: bool
    cut_high: bool
    arrow: Literal["more", "less", ""]


@dataclass(frozen=True)
class Plot:
    """A plot ready to be drawn."""

    id: str
    """Unique on its page."""
    title: str
    says: str
    """Everything the drawing shows, in words."""
    key: str
    """What the shapes mean, for those that occur."""
    marks: list[IntervalMark]
    ticks: list[Tick]
    one: float
    band: tuple[float, float]
    """The margin of likeness."""
    height: int


def plot(id: str, title: str, rows: Sequence[PlotRow], margin: float) -> Plot:
    """Lay out a plot. ``margin`` (> 1) is the ratio below which two count as alike."""
    estimates = [row.estimate for row in rows if row.estimate]
    numbers = [row.number for row in rows if row.number is not None]
    ends = [end for e in estimates for end in (e.low, e.high)]
    axis = fitting([*(e.ratio for e in estimates), *numbers], [*ends, *numbers])
    return Plot(
        id=id,
        title=title,
        says=" ".join(f"{e.label}: {e.says}." for e in rows),
        key=_key(rows, margin),
        marks=[_mark(axis, row, n * ROW) for n, row in enumerate(rows)],
        ticks=axis.ticks(),
        one=axis.place(1),
        band=(axis.place(1 / margin), axis.place(margin)),
        height=len(rows) * ROW + AXIS,
    )


def svg(drawn: Plot) -> str:
    """The plot as inline SVG, as wide as its place on the page."""
    return render("interval_plot.svg.jinja", plot=drawn)


def _mark(axis: PlotAxis, row: PlotRow, top: int) -> IntervalMark:
    e, number = row.estimate, row.number if row.number is not None else 1.0
    ends = (e.low, e.high) if e else (number, number)
    at = axis.place(e.ratio if e else number)
    low, high = map(axis.place, ends)
    return IntervalMark(
        label=row.label,
        numbers=row.says,
        shape=row.shape,
        top=top,
        at=at,
        low=low,
        high=high,
        cut_low=ends[0] < axis.low,
        cut_high=ends[1] > axis.high,
        arrow=row.direction
        if row.shape == "direction" and row.direction in ("more", "less")
        else "",
    )


def _key(rows: Sequence[PlotRow], margin: float) -> str:
    shapes = {row.shape for row in rows}
    told = [
        ("sample", "dot: one sample of people, with its 95% interval"),
        ("number", "hollow dot: its number prints no spread"),
        ("estimate", "dot: estimate with its 95% interval"),
        ("together", "diamond: the average over studies like these"),
        ("direction", "hollow dot with an arrow: only the direction is known"),
        ("reference", "square: what the others are compared with"),
    ]
    words = [text for shape, text in told if shape in shapes]
    return (
        upper_first("; ".join([*words, f"shaded: counts as alike (within {percent(margin)})"]))
        + "."
    )
