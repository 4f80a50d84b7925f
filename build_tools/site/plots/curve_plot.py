"""Curves over a repetition, as a drawing and as the words that stand in for it.

Panels stand one below the other on the same repetition and never share a height: a load and a
length, or the lengths of two parts, are no amounts of one thing. Letters and dashes tell two
exercises apart, not colours. Widths are shares of the place on the page, heights pixels.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import groupby
from typing import Literal

from ...movement.length.length import percent
from ..templating import render

#: Heights in pixels: a line of words, room between panels, room above and below a curve in its panel.
LINE, GAP, EDGE = 18, 10, 4
#: Panels: of a load, of a length.
LOAD, LENGTH = 92, 60
#: Half the height of a length's band: lengths are told in steps of 10 %.
HALF_STEP = 0.05
#: How far a drawn curve may lie from what it shows, pixels: less than a screen shows.
SLACK = 0.1
#: Points of a curve before it is drawn.
SAMPLES = 61


@dataclass(frozen=True)
class CurveMark:
    """One curve of a panel: a path in a box 100 wide and as high as the panel, and where its letter stands."""

    path: str
    style: Literal["solid", "dashed", "band"]
    letter: str = ""
    x: float = 0.0
    """Share of the width."""
    y: float = 0.0
    """Pixels below the top of the panel."""


@dataclass(frozen=True)
class Word:
    """A word at the edge of a panel."""

    text: str
    y: float
    right: bool


@dataclass(frozen=True)
class Caption:
    """A line of words above a panel, with the sample of a curve where two have to be told apart."""

    text: str
    numbers: str = ""
    letter: str = ""


@dataclass(frozen=True)
class Panel:
    """Curves that share a height. ``top`` is that of its words, pixels."""

    top: int
    height: int
    captions: list[Caption]
    marks: list[CurveMark]
    words: list[Word]
    threshold: float | None = None
    """Where 80 % of the peak lies, pixels below the top of the curve's box."""

    @property
    def box(self) -> int:
        """Top of the curve's box."""
        return self.top + LINE * len(self.captions) + 2

    @property
    def bottom(self) -> int:
        """Bottom of the curve's box."""
        return self.box + self.height


@dataclass(frozen=True)
class CurvePlot:
    """A plot ready to be drawn."""

    id: str
    """Unique on its page."""
    title: str
    says: str
    """Everything the drawing shows, in words."""
    key: str
    """What the marks mean."""
    basis: str
    """What the curves are and what they do not show."""
    panels: list[Panel]
    ends: list[tuple[str, bool]]
    """Words below, and whether they stand on the right."""
    hard: list[tuple[float, float]] = field(default_factory=list)
    """Stretches with a load above 80 % of its peak: start and width as shares of the repetition."""

    @property
    def bottom(self) -> int:
        """Bottom of the last panel."""
        return self.panels[-1].bottom

    @property
    def height(self) -> int:
        """Height of the drawing."""
        return self.bottom + LINE * len(self.ends) + 6


def svg(drawn: CurvePlot) -> str:
    """The plot as inline SVG, as wide as its place on the page."""
    return render("curves.svg.jinja", plot=drawn)


def y(share: float, height: int) -> float:
    """Pixels below the top of a box at which a share (0-1) stands."""
    return EDGE + (1 - share) * (height - 2 * EDGE)


def _place(value: float) -> str:
    """A tenth of a pixel, or of a hundredth of the width: finer than a screen shows."""
    return f"{value:.1f}".removesuffix(".0")


def line(values: Sequence[float], height: int) -> str:
    """A path through evenly spaced shares; what lies below 0 is drawn at 0. Points are left out where it stays within ``SLACK`` of them."""
    last = len(values) - 1
    heights = [y(min(1.0, max(0.0, v)), height) for v in values]
    return "M" + "L".join(f"{_place(100 * n / last)} {_place(heights[n])}" for n in _bends(heights))


def _bends(heights: Sequence[float]) -> list[int]:
    """Indexes of evenly spaced points of which a line may be drawn, from each to the farthest that leaves none between them out of reach."""
    found, last = [0], len(heights) - 1
    while found[-1] < last:
        start = found[-1]
        end = start + 1
        while end < last and _is_straight(heights[start : end + 2]):
            end += 1
        found.append(end)
    return found


def _is_straight(heights: Sequence[float]) -> bool:
    last = len(heights) - 1
    rise = (heights[-1] - heights[0]) / last
    return all(abs(heights[0] + n * rise - h) <= SLACK for n, h in enumerate(heights))


def steps(shares: Sequence[float], height: int) -> str:
    """A path in steps of 10 %."""
    runs = _runs(shares)
    path = f"M0 {_place(y(runs[0][0], height))}"
    for n, (_, end) in enumerate(runs):
        path += f"H{_place(100 * end)}" + (
            f"V{_place(y(runs[n + 1][0], height))}" if n + 1 < len(runs) else ""
        )
    return path


def band(shares: Sequence[float], height: int) -> str:
    """A closed path around the steps, as high as a step, cut at the ends of the range."""
    runs, start = _runs(shares), 0.0
    over, under = [], []
    for share, end in runs:
        top, low = (
            y(min(1.0, max(0.0, edge)), height) for edge in (share + HALF_STEP, share - HALF_STEP)
        )
        over.append(f"{_place(100 * start)} {_place(top)}H{_place(100 * end)}")
        under.append(f"{_place(100 * end)} {_place(low)}H{_place(100 * start)}")
        start = end
    return f"M{'L'.join(over)}L{'L'.join(reversed(under))}Z"


def stretches(values: Sequence[float], least: float) -> list[tuple[float, float]]:
    """Where evenly spaced values reach ``least``: starts and widths as shares; half a step is added on either side."""
    last, found = len(values) - 1, []
    for high, run in groupby(enumerate(values), key=lambda item: item[1] >= least):
        indices = [n for n, _ in run]
        if high:
            start, end = max(0.0, (indices[0] - 0.5) / last), min(1.0, (indices[-1] + 0.5) / last)
            found.append((start, end - start))
    return found


def edge_words(high: str, low: str, height: int, curves: Sequence[Sequence[float]]) -> list[Word]:
    """What the top and the bottom of a panel mean, each at the end where the curves leave room."""
    top_busy = max((c[0] for c in curves), default=0.0) > max((c[-1] for c in curves), default=0.0)
    low_busy = min((c[0] for c in curves), default=0.0) < min((c[-1] for c in curves), default=0.0)
    return [Word(high, EDGE + 10, top_busy), Word(low, height - EDGE - 2, low_busy)]


def resampled(values: Sequence[float]) -> list[float]:
    """Evenly spaced values brought to ``SAMPLES``; a repetition with postures on the way has more."""
    return [values[round(n * (len(values) - 1) / (SAMPLES - 1))] for n in range(SAMPLES)]


def apart(first: Sequence[float], second: Sequence[float]) -> int:
    """The sample at which two curves lie farthest apart, away from the ends where there is room for a letter."""
    inner = range(len(first) // 10, len(first) - len(first) // 10)
    # Noise in a last digit, which is another on another Python, moves no letter of two curves that are alike.
    return max(inner, key=lambda n: (round(abs(first[n] - second[n]), 9), -n))


def _runs(shares: Sequence[float]) -> list[tuple[float, float]]:
    """Shares in steps of 10 %, each with the share of the width up to which it holds."""
    found, last, n = [], len(shares) - 1, -1
    for tenth, run in groupby(shares, key=percent):
        n += len(list(run))
        found.append((tenth / 100, min(1.0, (n + 0.5) / last)))
    return found
