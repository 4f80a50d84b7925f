"""Slides as one file: styles, script and drawings inside, so that it works from a download; printed, one slide is one page of 16:9."""

from __future__ import annotations

from ..context import RenderContext
from ..templating import render
from . import cited
from .lesson import Lesson, lesson

#: Slides without any, to which the page Compare adds those of a comparison.
EMPTY = "data/slides.html"


def uri(muscle: str) -> str:
    """Where the slides of a muscle are."""
    return f"lessons/{muscle}/slides/index.html"


def file(shelf: RenderContext, muscle: str) -> bytes:
    """The slides of one muscle."""
    return _written(shelf, lesson(shelf, muscle), cited.at(shelf, f"lessons/{muscle}/"))


def empty(shelf: RenderContext) -> bytes:
    """The file without slides; its address stands open, as ``{address}``."""
    return _written(shelf, Lesson("", "Comparison", ()), "{address}")


def _written(shelf: RenderContext, of: Lesson, address: str) -> bytes:
    script = render("slides.js")
    return render(
        "slides.html.jinja",
        palette=shelf.palette,
        lesson=of,
        script=script,
        credit=cited.credit(shelf, address),
        handbook=cited.handbook(shelf, address),
        book=shelf.handbook,
    ).encode()
