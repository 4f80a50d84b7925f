"""The page What lags: one or two exercises for what lags, each with its reason, its cost and its care."""

from __future__ import annotations

from ...evidence_map.marks import LEGEND
from ..client import handout_page
from ..context import RenderContext
from ..map import mark as marks
from ..sections import care
from . import page
from .choices import choices

URI = "lagging.md"


def text(shelf: RenderContext) -> str:
    """The page as Markdown. The lines of each concern stand there hidden, so that a tick shows them at once."""
    desk = shelf.at(URI)
    views = [(id, care.view(desk, {id}, everybody=False)) for id in shelf.vocabulary.concerns]
    return page.text(
        shelf,
        "lagging",
        "What lags?",
        "Exercises for a part that lags: the reason, how sure it is, what it costs, and what to do with a sore joint.",
        [("Week", "week.md"), ("Handout", handout_page.PAGE)],
        choices=choices(shelf.vocabulary),
        marks=marks,
        legend=LEGEND,
        everybody=care.view(desk, (), everybody=True),
        care=views,
    )
