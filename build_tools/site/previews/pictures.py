"""What each kind of page shows in its picture. PictureWords are fitted by the font's own metrics."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...catalog.palette import Palette
from ...evidence_map.marks import Mark
from ..figures.figure import Figure
from . import drawings
from .canvas import HEIGHT, WIDTH, Canvas, Role
from .lettering import LEADING, fitted

#: Pixels: the margin, the column of words beside a drawing, and where what fills the picture begins and ends.
EDGE, COLUMN, TOP, BOTTOM = 56, 520, 108, HEIGHT - 42
#: Sizes that letters may have, the largest first.
TITLE, TEXT, SMALL = (56, 48, 40, 36), (26, 23), 23
#: Between title and text; a row of a list, and how far it stands in; a sign of the map.
_GAP, _ROW, _INDENT, _SIGN = 22, 38, 44, 26
#: Rows of a block; width and height of its cells, height of its heads.
BLOCK_ROWS, _CELL, _HIGH, _HEADS = 8, 56, 36, 186
_ROLES: dict[str, Role] = {"growth": "accent", "activation": "activation"}


@dataclass(frozen=True)
class PictureWords:
    """What a picture says."""

    handbook: str
    title: str
    under: str
    """A second name; empty where there is none."""
    text: str
    palette: Palette = Palette()


def plain(words: PictureWords) -> bytes:
    """A page without a drawing: its title and a sentence."""
    canvas = _begun(words)
    _say(canvas, words, WIDTH - 2 * EDGE, (76, *TITLE), (34, *TEXT))
    return canvas.png()


def exercise(words: PictureWords, figure: Figure) -> bytes:
    """An exercise: its name and its line beside its postures."""
    canvas = _begun(words)
    _say(canvas, words, COLUMN, TITLE, TEXT)
    left = EDGE + COLUMN + EDGE
    wide, high = WIDTH - EDGE - left, BOTTOM - EDGE
    drawn = drawings.postures(figure, wide, high)
    height, width = drawn.ink.shape
    canvas.draw(drawn, left + (wide - width) // 2, EDGE + (high - height) // 2)
    return canvas.png()


def part(words: PictureWords, groups: Sequence[tuple[Mark, str, Sequence[str]]]) -> bytes:
    """A part: what to choose, beside its exercises under the marks of the map and what these say; those without room are counted."""
    canvas = _begun(words)
    left, room = EDGE + COLUMN + EDGE, WIDTH - EDGE - (EDGE + COLUMN + EDGE) - _INDENT
    _say(canvas, words, COLUMN if groups else WIDTH - 2 * EDGE, TITLE, TEXT)
    y, waiting = TOP + 10, sum(len(names) for _, _, names in groups)
    for mark, says, names in groups:
        size, lines = fitted(says, (21, 19), room, 2 * _ROW)
        if y + (len(lines) + 1) * _ROW > BOTTOM - _ROW:
            break
        _sign(canvas, mark, left, y)
        for line in lines:
            canvas.write(line, left + _INDENT, y + 21, size, share=0.7)
            y += round(size * LEADING)
        y += 8
        for name in names:
            if y + _ROW > BOTTOM - _ROW:
                break
            size, [line] = fitted(name, (25, SMALL, 20), room, _ROW)
            canvas.write(line, left + _INDENT, y + 26, size)
            y, waiting = y + _ROW, waiting - 1
        y += 10
    if waiting:
        canvas.write(f"and {waiting} more", left + _INDENT, y + 16, 21, share=0.7)
    return canvas.png()


def muscle(
    words: PictureWords,
    parts: Sequence[str],
    rows: Sequence[tuple[str, Sequence[tuple[bool, Mark | None]]]],
    more: str,
) -> bytes:
    """A muscle: its name beside its block of the map. A cell is whether a set counts, and its mark."""
    canvas = _begun(words)
    _say(canvas, words, 420 if rows else WIDTH - 2 * EDGE, TITLE, TEXT)
    if not rows:
        return canvas.png()
    right = WIDTH - EDGE - _CELL * len(parts)
    names = EDGE + 420 + 36
    top = EDGE + _HEADS + 12
    for n, name in enumerate(parts):
        size, lines = fitted(name, (SMALL, 20, 18), _HEADS, _CELL)
        start = right + n * _CELL + (_CELL - round(len(lines) * size * LEADING)) // 2
        for k, line in enumerate(lines):
            canvas.write_up(line, start + round(k * size * LEADING), EDGE + _HEADS, size)
    for r, (name, cells) in enumerate(rows):
        y = top + r * _HIGH
        for c, (counts, mark) in enumerate(cells):
            x = right + c * _CELL
            if counts:
                canvas.fill(x, y, _CELL, _HIGH, "tint")
            if mark:
                _sign(canvas, mark, x + (_CELL - _SIGN) // 2, y + 6)
        canvas.fill(names, y, WIDTH - EDGE - names, 1, "line")
        size, [line] = fitted(name, (24, 22, 20, 18, 16), right - names - 12, _HIGH)
        canvas.write(line, names, y + 27, size)
    if more:
        canvas.write(more, names, top + len(rows) * _HIGH + 28, 20, share=0.7)
    return canvas.png()


def _begun(words: PictureWords) -> Canvas:
    canvas = Canvas(words.palette)
    canvas.lay(drawings.own_mark(40).ink, EDGE - 6, 42, "accent")
    canvas.write(words.handbook, EDGE + 44, 72, 26, share=0.7)
    canvas.fill(0, HEIGHT - 14, WIDTH, 14, "accent")
    return canvas


def _say(
    canvas: Canvas, words: PictureWords, room: int, titles: Sequence[int], texts: Sequence[int]
) -> None:
    """Title, second name and text, below one another."""
    size, lines = fitted(words.title, titles, room, 250)
    y = float(TOP)
    for line in lines:
        y += size * LEADING
        canvas.write(line, EDGE, round(y - 0.28 * size), size)
    y += 6
    if words.under:
        size, lines = fitted(words.under, (28, 26, SMALL, 20), room, 80)
        for line in lines:
            y += size * LEADING
            canvas.write(line, EDGE, round(y - 0.28 * size), size, share=0.7)
    y += _GAP
    if words.text:
        size, lines = fitted(words.text, texts, room, BOTTOM - round(y))
        for line in lines:
            y += size * LEADING
            canvas.write(line, EDGE, round(y - 0.28 * size), size)


def _sign(canvas: Canvas, mark: Mark, left: int, top: int) -> None:
    role = _ROLES.get(mark.kind, "ink")
    canvas.lay(drawings.sign(mark, _SIGN).ink, left, top, role, 1.0 if mark.kind in _ROLES else 0.7)
