"""The page Find: exercises by part, evidence, equipment, position, sides, care and name."""

from __future__ import annotations

from ..context import RenderContext
from . import page

URI = "find.md"


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    return page.text(
        shelf,
        "find",
        "Find",
        "Exercises by the part they train, the evidence, the equipment at hand and who should take care.",
        [("Compare", "compare.md")],
    )
