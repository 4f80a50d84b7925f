"""The page Week: days, exercises and sets, counted for each part against the cited range."""

from __future__ import annotations

from ..context import RenderContext
from . import page

URI = "week.md"


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    return page.text(
        shelf,
        "week",
        "Week",
        "A week of training: sets of each part against the cited range, time, starting loads and files to take along.",
        [("What lags", "lagging.md")],
    )
