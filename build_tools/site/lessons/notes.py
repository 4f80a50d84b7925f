"""What the speaker says to each slide, as plain text."""

from __future__ import annotations

from ..context import RenderContext
from . import cited
from .lesson import lesson


def text(shelf: RenderContext, muscle: str) -> str:
    """The notes of a lesson, slide by slide."""
    of = lesson(shelf, muscle)
    head = f"{of.title}: speaker notes\n{cited.credit(shelf, f'lessons/{muscle}/')}\n"
    told = [
        f"\n{n}. {slide.heading}\n" + "".join(f"\n{note}\n" for note in slide.notes if note)
        for n, slide in enumerate(of.slides, 1)
    ]
    return "\n".join([head, *told])
