"""The drawings that pictures show: an exercise's postures, the signs of the map, the handbook's own mark."""

from __future__ import annotations

from functools import cache
from itertools import product
from math import ceil

from ...evidence_map.marks import Mark
from ..figures.figure import Figure
from ..map import mark as marks
from ..sign import BARS, SIDE
from .plates import ACCENT, INK, PAPER, Plates, plates, shade

#: Style of a figure's path -> how it is painted: as on pages, in the colours of plates.
_QUIET, _LIGHT, _PANEL = shade(0.7), shade(0.3), shade(0.12)
_STYLES = {
    "body": f'fill="{PAPER}" stroke-width="9" paint-order="stroke"',
    "muscle": 'stroke-width="9"',
    "far": f'fill="{PAPER}" stroke="{_QUIET}" stroke-width="7" stroke-dasharray="10 9" stroke-linecap="butt" paint-order="stroke"',
    "kit": f'fill="{_PANEL}" stroke="{_QUIET}"',
    "ring": f'stroke="{_QUIET}" stroke-width="5"',
    "cord": f'stroke="{_QUIET}" stroke-width="5"',
    "hub": f'fill="{_QUIET}" stroke="none"',
    "floor": f'stroke="{_LIGHT}" stroke-width="5"',
    "way": f'stroke="{ACCENT}" stroke-width="6"',
    "tip": f'fill="{ACCENT}" stroke="none"',
}
_LINES = (
    f'fill="none" stroke="{INK}" stroke-width="4" stroke-linecap="round" stroke-linejoin="round"'
)
#: Between two postures, pixels.
_GAP = 28


def postures(figure: Figure, width: int, height: int) -> Plates:
    """First and last posture, side by side or one above the other as they are larger: as much of the room as they fill."""
    shown = list(dict.fromkeys((0, len(figure.poses) - 1)))
    left, top, wide, high = figure.box

    def scale(columns: int, rows: int) -> float:
        return min(
            (width - (columns - 1) * _GAP) / columns / wide,
            (height - (rows - 1) * _GAP) / rows / high,
        )

    columns, rows = max(((len(shown), 1), (1, len(shown))), key=lambda grid: scale(*grid))
    size = scale(columns, rows)
    step, drop = wide * size + _GAP, high * size + _GAP
    drawn = [
        f'<g transform="translate({column * step:.2f} {row * drop:.2f}) scale({size:.4f}) translate({-left} {-top})">'
        + "".join(
            f'<path {_STYLES.get(shape.style, "")} d="{shape.d}"/>'
            for shape in figure.poses[n].shapes
        )
        + "</g>"
        for n, (row, column) in zip(shown, product(range(rows), range(columns)), strict=True)
    ]
    return plates(
        f"<g {_LINES}>{''.join(drawn)}</g>", ceil(columns * step - _GAP), ceil(rows * drop - _GAP)
    )


@cache
def sign(mark: Mark, side: int) -> Plates:
    """A mark of the map, in ink alone."""
    inside = (
        str(marks.paths(mark))
        .replace('class="in"', f'fill="{INK}"')
        .replace('class="out"', f'fill="none" stroke="{INK}" stroke-width="2"')
    )
    return plates(
        f'<g transform="scale({side / marks.SIDE})">{inside}</g>', side, side, accent=False
    )


@cache
def own_mark(side: int) -> Plates:
    """The handbook's mark, in ink alone."""
    bars = (
        f'<path fill="none" stroke="{INK}" stroke-width="2.4" stroke-linecap="round" d="{BARS}"/>'
    )
    return plates(f'<g transform="scale({side / SIDE})">{bars}</g>', side, side, accent=False)
