"""Words as plates: letters of the shipped font, drawn once for each size and set side by side on whole pixels."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from math import ceil

import numpy as np
from markupsafe import escape

from .font import FAMILY, WEIGHT, known, metrics, width, wrapped
from .plates import INK, Plate, plates

#: Room above and below the baseline, and to both sides of a letter, in shares of the size.
ASCENT, DESCENT, SIDE = 1.1, 0.3, 0.1
#: Distance of two baselines, in shares of the size.
LEADING = 1.28
#: Letters of a sheet, and of its row.
_PLAIN, _ROW = "".join(map(chr, range(0x21, 0x7F))), 24


def line(text: str, size: int, left: int, baseline: int) -> tuple[Plate, int, int]:
    """The plate of one line that begins at ``left`` and stands on ``baseline``, and its corner."""
    text, side = known(text), _side(size)
    letters, (units, advances) = _sheet(size), metrics()
    high = _above(size) + _below(size)
    plate = np.zeros((high, ceil(width(text, size)) + 2 * side + 1), np.uint8)
    at = 0.0
    for letter in text:
        if not letter.isspace():
            drawn, x = letters[letter] if letter in letters else _other(size, letter), round(at)
            room = plate[:, x : x + drawn.shape[1]]
            np.maximum(room, drawn[:, : room.shape[1]], out=room)
        at += advances[letter] * size / units
    return plate, left - side, baseline - _above(size)


def fitted(text: str, sizes: Sequence[int], room: int, height: int) -> tuple[int, list[str]]:
    """The largest of ``sizes`` (the largest first) at which a text fits, and its lines.

    A text that fits at none ends in ``…`` at the smallest: nothing runs over its neighbour, whatever an entry is called.
    """
    text = known(text)
    for size in sizes:
        lines = wrapped(text, size, room)
        if _fits(lines, size, room, height):
            return size, lines
    while len(text) > 1 and not _fits(wrapped(f"{text}…", size, room), size, room, height):
        text = text[:-1].rstrip()
    return size, wrapped(f"{text}…", size, room)


def _fits(lines: Sequence[str], size: int, room: int, height: int) -> bool:
    return len(lines) * size * LEADING <= height and all(width(one, size) <= room for one in lines)


def _above(size: int) -> int:
    return ceil(ASCENT * size)


def _below(size: int) -> int:
    return ceil(DESCENT * size)


def _side(size: int) -> int:
    return ceil(SIDE * size)


@cache
def _sheet(size: int) -> dict[str, Plate]:
    """The letters of plain English -> their plates; others are drawn when they are met."""
    return _drawn(size, _PLAIN)


@cache
def _other(size: int, letter: str) -> Plate:
    return _drawn(size, letter)[letter]


def _drawn(size: int, letters: str) -> dict[str, Plate]:
    high, side = _above(size) + _below(size), _side(size)
    wide = [ceil(width(c, size)) + 2 * side for c in letters]
    cell, rows = max(wide), ceil(len(letters) / _ROW)
    drawn = "".join(
        f'<text x="{n % _ROW * cell + side}" y="{n // _ROW * high + _above(size)}">{escape(c)}</text>'
        for n, c in enumerate(letters)
    )
    style = f'font-family="{FAMILY}" font-weight="{WEIGHT}" font-size="{size}" fill="{INK}"'
    columns = min(_ROW, len(letters))
    sheet = plates(f"<g {style}>{drawn}</g>", columns * cell, rows * high, accent=False).ink
    places = [(n // _ROW * high, n % _ROW * cell) for n in range(len(letters))]
    return {
        c: sheet[top : top + high, left : left + wide[n]]
        for n, (c, (top, left)) in enumerate(zip(letters, places, strict=True))
    }
