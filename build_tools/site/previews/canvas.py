"""A picture in sixteen colours, and the PNG of it.

Every colour of a picture is the paper, or one of a few steps from the paper to a colour of the palette: that is what a chat shows no
difference to, and what keeps a picture at a few thousand bytes. Written after the PNG specification (W3C, third edition): indexed
colour, four bits a pixel, no filter.
"""

from __future__ import annotations

import struct
import zlib
from functools import cache
from typing import Literal

import numpy as np

from ...catalog.palette import Palette, mix, rgb
from . import lettering
from .plates import Plate, Plates

#: Pixels, as services that show previews commonly ask for; common practice, the protocol names no size.
WIDTH, HEIGHT = 1200, 630
Role = Literal["ink", "accent", "activation"]
#: Role -> first place and steps.
_RAMPS: dict[Role, tuple[int, int]] = {"ink": (1, 3), "accent": (7, 4), "activation": (11, 3)}
_TINT, _LINE = 14, 15
#: How hard zlib tries: more takes five times as long for one byte in thirty.
_EFFORT = 7


class Canvas:
    """One picture, empty at first."""

    def __init__(self, palette: Palette) -> None:
        self._palette = palette
        self._pixels = np.zeros((HEIGHT, WIDTH), np.uint8)

    def fill(
        self, left: int, top: int, width: int, height: int, what: Role | Literal["tint", "line"]
    ) -> None:
        """A rectangle of one colour."""
        fixed = {"tint": _TINT, "line": _LINE}
        place = fixed[what] if what in fixed else _full(what)  # type: ignore[arg-type]
        self._pixels[top : top + height, left : left + width] = place

    def lay(self, plate: Plate, left: int, top: int, role: Role, share: float = 1.0) -> None:
        """A plate with its corner at (``left``, ``top``), in a colour or a ``share`` of it. Raises ValueError where it would overflow."""
        height, width = plate.shape
        if left < 0 or top < 0 or left + width > WIDTH or top + height > HEIGHT:
            raise ValueError(f"{width} by {height} pixels at ({left}, {top}) leave the picture")
        found = _steps(role, share)[plate]
        room = self._pixels[top : top + height, left : left + width]
        np.copyto(room, found, where=found > 0)

    def draw(self, drawn: Plates, left: int, top: int) -> None:
        """A drawing, its accent over its ink."""
        self.lay(drawn.ink, left, top, "ink")
        self.lay(drawn.accent, left, top, "accent")

    def write(
        self, text: str, left: int, baseline: int, size: int, role: Role = "ink", share: float = 1.0
    ) -> None:
        """One line of letters."""
        self.lay(*lettering.line(text, size, left, baseline), role, share)

    def write_up(
        self, text: str, left: int, bottom: int, size: int, role: Role = "ink", share: float = 1.0
    ) -> None:
        """One line of letters on end, read from below, its upper edge at ``left``."""
        plate = np.rot90(lettering.line(text, size, 0, 0)[0])
        self.lay(plate, left, bottom - plate.shape[0], role, share)

    def png(self) -> bytes:
        """The picture."""
        packed = self._pixels[:, ::2] << 4 | self._pixels[:, 1::2]
        lines = np.zeros((HEIGHT, 1 + WIDTH // 2), np.uint8)
        lines[:, 1:] = packed
        head = struct.pack(">IIBBBBB", WIDTH, HEIGHT, 4, 3, 0, 0, 0)
        chunks = (
            (b"IHDR", head),
            (b"PLTE", _places(self._palette)),
            (b"IDAT", zlib.compress(lines.tobytes(), _EFFORT)),
            (b"IEND", b""),
        )
        return b"\x89PNG\r\n\x1a\n" + b"".join(
            struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
            for kind, data in chunks
        )


def _full(role: Role) -> int:
    first, steps = _RAMPS[role]
    return first + steps - 1


@cache
def _steps(role: Role, share: float) -> Plate:
    """Coverage -> place in the palette; 0 leaves what is there."""
    first, steps = _RAMPS[role]
    level = np.rint(np.arange(256) * share * steps / 255).astype(np.uint8)
    return np.where(level > 0, level + (first - 1), 0).astype(np.uint8)


@cache
def _places(palette: Palette) -> bytes:
    """The sixteen colours, on the paper of drawn files."""
    file = palette.file
    colours = [*[file["paper"]] * _TINT, file["tint"], file["line"]]
    for role, (first, steps) in _RAMPS.items():
        for n in range(steps):
            colours[first + n] = mix(file["paper"], palette.light[role], (n + 1) / steps)
    return bytes(value for colour in colours for value in rgb(colour))
