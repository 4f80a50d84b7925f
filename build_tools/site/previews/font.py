"""How wide words are in the shipped font, read from the font file itself.

Tables and their layout: OpenType specification 1.9, "cmap" (format 4), "head", "hhea" and "hmtx".
"""

from __future__ import annotations

import struct
import unicodedata
from functools import cache
from importlib import resources
from typing import NamedTuple

FILE = "lettering.ttf"
#: The name that the font gives itself, and its weight.
FAMILY, WEIGHT = "Noto Sans Medium", 500


class Metrics(NamedTuple):
    """What the font says of its letters."""

    units: int
    """In an em."""
    advances: dict[str, int]
    """Letter -> how far it moves on, units."""


@cache
def metrics() -> Metrics:
    """The metrics of the shipped font."""
    data = (resources.files("build_tools.site.previews") / FILE).read_bytes()
    tables = {
        data[at : at + 4].decode(): struct.unpack(">II", data[at + 8 : at + 16])
        for at in range(12, 12 + 16 * struct.unpack(">H", data[4:6])[0], 16)
    }
    units = struct.unpack_from(">H", data, tables["head"][0] + 18)[0]
    count = struct.unpack_from(">H", data, tables["hhea"][0] + 34)[0]
    widths = struct.unpack_from(">" + "Hh" * count, data, tables["hmtx"][0])[::2]
    glyphs = _glyphs(data, tables["cmap"][0])
    return Metrics(units, {c: widths[min(glyph, count - 1)] for c, glyph in glyphs.items()})


def _glyphs(data: bytes, cmap: int) -> dict[str, int]:
    """Letter -> number of its glyph, from the first table of format 4."""
    for n in range(struct.unpack_from(">H", data, cmap + 2)[0]):
        at = cmap + struct.unpack_from(">I", data, cmap + 4 + 8 * n + 4)[0]
        if struct.unpack_from(">H", data, at)[0] == 4:
            break
    else:
        raise ValueError(f"{FILE} has no cmap of format 4")
    count = struct.unpack_from(">H", data, at + 6)[0] // 2
    arrays = [at + 14 + 2 * count * k + (2 if k else 0) for k in range(4)]
    ends, starts, deltas, offsets = (struct.unpack_from(f">{count}H", data, a) for a in arrays)
    found = {}
    for k in range(count):
        for code in range(starts[k], min(ends[k], 0xFFFE) + 1):
            glyph = code
            if offsets[k]:
                place = arrays[3] + 2 * k + offsets[k] + 2 * (code - starts[k])
                glyph = struct.unpack_from(">H", data, place)[0]
            if glyph:
                found[chr(code)] = (glyph + deltas[k]) & 0xFFFF
    return found


def known(text: str) -> str:
    """The text in letters that the font has: without accents, or without the letter, where it lacks one."""
    has = metrics().advances
    plain = (c if c in has else unicodedata.normalize("NFKD", c) for c in text)
    return "".join(c for part in plain for c in part if c in has)


def width(text: str, size: int) -> float:
    """How wide a line is, pixels; without kerning, as it is set."""
    units, advances = metrics()
    return sum(advances[c] for c in text) * size / units


def wrapped(text: str, size: int, room: float) -> list[str]:
    """Lines of at most ``room`` pixels, broken between words; a word that is wider stands alone."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
