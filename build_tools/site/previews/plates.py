"""Drawings as plates, as a printer separates colours: how much ink, and how much of the accent, falls on each pixel.

A drawing is an SVG in three colours, ``PAPER``, ``INK`` and ``ACCENT`` (and shades between paper and ink), that resvg turns into
pixels. Its PNG is read here with just what that needs of the PNG specification (W3C, third edition, section 9: filters): eight bits,
four channels, not interlaced.
"""

from __future__ import annotations

import struct
import zlib
from dataclasses import dataclass
from importlib import resources
from typing import Any

import numpy as np
import resvg_py
from numpy.typing import NDArray

from .font import FILE

Plate = NDArray[np.uint8]
#: Red tells the ink, blue the accent; an accent over ink covers it.
PAPER, INK, ACCENT = "#fff", "#00f", "#f00"
_RED, _BLUE = 0, 2


@dataclass(frozen=True)
class Plates:
    """Coverage from 0 to 255, row by row."""

    ink: Plate
    accent: Plate


def shade(share: float) -> str:
    """A colour between paper and ink."""
    level = round(255 * (1 - share))
    return f"#{level:02x}{level:02x}ff"


def plates(body: str, width: int, height: int, accent: bool = True) -> Plates:
    """The plates of a drawing of whole pixels; ``accent`` says whether it has that colour at all."""
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}">'
        f'<rect width="{width}" height="{height}" fill="{PAPER}"/>{body}</svg>'
    )
    with resources.as_file(resources.files("build_tools.site.previews") / FILE) as font:
        png = resvg_py.svg_to_bytes(svg_string=svg, skip_system_fonts=True, font_files=[str(font)])
    lines = _lines(bytes(png))
    ink = 255 - _channel(lines, _RED)
    return Plates(ink, 255 - _channel(lines, _BLUE) if accent else np.zeros_like(ink))


def _lines(png: bytes) -> NDArray[np.uint8]:
    """The filtered lines, each with the number of its filter first."""
    at, data, head = 8, b"", b""
    while at < len(png):
        (length,), kind = struct.unpack_from(">I", png, at), png[at + 4 : at + 8]
        content = png[at + 8 : at + 8 + length]
        head, data = (content if kind == b"IHDR" else head), data + content * (kind == b"IDAT")
        at += 12 + length
    width, height, *how = struct.unpack(">IIBBBBB", head)
    if how != [8, 6, 0, 0, 0]:
        raise ValueError(f"a PNG of another kind than resvg writes: {how}")
    return np.frombuffer(zlib.decompress(data), np.uint8).reshape(height, 1 + 4 * width)


def _channel(lines: NDArray[np.uint8], channel: int) -> Plate:
    found = lines[:, 1 + channel :: 4].copy()  # one column is contiguous already, and read-only
    above = np.zeros(found.shape[1], np.uint8)
    for n, kind in enumerate(lines[:, 0].tolist()):
        row = found[n]
        if kind == 1:
            np.cumsum(row, dtype=np.uint8, out=row)
        elif kind == 2:
            row += above
        elif kind == 3:
            row[:] = _averaged(row.tolist(), above.tolist())
        elif kind == 4:
            _paeth(row, above)
        above = row
    return found


def _averaged(row: list[int], above: list[int]) -> list[int]:
    left = 0
    for x, up in enumerate(above):
        row[x] = left = (row[x] + (left + up) // 2) & 255
    return row


def _paeth(row: NDArray[Any], above: NDArray[np.uint8]) -> None:
    """Most of a line is like the line above it: only where they part has it to be gone through pixel by pixel."""
    marks = np.flatnonzero(row).tolist()
    rest, up, last = row.tolist(), above.tolist(), len(marks)
    row[:] = above
    out, next_mark, x = up.copy(), 0, 0
    while next_mark < last:
        x = max(x, marks[next_mark])
        while x < len(out):
            a, b, c = (out[x - 1], up[x], up[x - 1]) if x else (0, up[x], 0)
            pa, pb, pc = abs(b - c), abs(a - c), abs(a + b - c - c)
            guess = a if pa <= pb and pa <= pc else b if pb <= pc else c
            out[x] = (rest[x] + guess) & 255
            x += 1
            if out[x - 1] == up[x - 1]:
                break
        while next_mark < last and marks[next_mark] < x:
            next_mark += 1
    row[:] = out
