"""The page Compare: two to four exercises side by side."""

from __future__ import annotations

from ...evidence_map.marks import LEGEND
from ..context import RenderContext
from ..map import mark as marks
from . import page

URI = "compare.md"


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    return page.text(
        shelf,
        "compare",
        "Compare",
        "Two to four exercises side by side: parts by exercises, what compares them, load and length, cautions and cues.",
        [],
        marks=marks,
        legend=LEGEND,
    )
