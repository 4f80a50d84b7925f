"""The page Lagging part: one or two accessories for what lags, each with its reason."""

from __future__ import annotations

from ..context import RenderContext
from . import page

URI = "lagging.md"


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    return page.text(
        shelf,
        "lagging",
        "Lagging part",
        "One or two accessories for a part that lags, with the reason, how sure it is and what it costs.",
        [("Week", "week.md")],
    )
