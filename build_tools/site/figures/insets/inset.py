"""A small drawing beside the postures, with its words."""

from __future__ import annotations

from dataclasses import dataclass

from ..shapes import Shape


@dataclass(frozen=True)
class Inset:
    """``box``: left, top, width and height in drawing units."""

    says: str
    shapes: list[Shape]
    box: tuple[int, int, int, int]
    pairs: bool = False
    """Whether it stands beside another that it is compared with; else its words stand beside it."""
