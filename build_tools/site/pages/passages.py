"""Generated passages in hand-written pages: a line ``<!-- handbook: name -->`` is replaced."""

from __future__ import annotations

import re
from collections.abc import Callable

from ...catalog.care import HELP_AT_ONCE
from ..context import RenderContext
from ..map import whole
from ..sections import care as care_view
from ..templating import render
from . import methods, methods_movement

_MARKER = re.compile(r"^<!-- handbook: ([a-z ]+) -->$", re.MULTILINE)


class UnfitPage(ValueError):
    """A hand-written page that the handbook cannot take: which, and what to change."""


def fill(shelf: RenderContext, uri: str, text: str) -> str:
    """The page ``uri`` with its markers replaced. An unknown marker raises ``UnfitPage``."""
    demand_known(uri, text)
    return _MARKER.sub(lambda match: _PASSAGES[match[1]](shelf, uri), text)


def demand_known(uri: str, text: str) -> None:
    """Raise ``UnfitPage`` for a marker that stands for no passage."""
    for name in _MARKER.findall(text):
        if name not in _PASSAGES:
            raise UnfitPage(f"{uri}: no passage is called `{name}`; known: {', '.join(_PASSAGES)}")


def _evidence_map(shelf: RenderContext, uri: str) -> str:
    return whole.passage(shelf.at(uri))


def _notice(shelf: RenderContext, uri: str) -> str:
    return render(
        "notice.html.jinja",
        notice=shelf.handbook.notice,
        signs=care_view.signs(shelf),
        heading=HELP_AT_ONCE,
    )


def _by_concern(shelf: RenderContext, uri: str) -> str:
    return render("by_concern.html.jinja", concerns=care_view.by_concern(shelf.at(uri)))


_PASSAGES: dict[str, Callable[[RenderContext, str], str]] = {
    "evidence map": _evidence_map,
    "notice": _notice,
    "by concern": _by_concern,
    "worked example": methods.example,
    "findings": methods.findings,
    "sentence table": methods.sentences,
    "levels of certainty": methods.levels,
    "rules of certainty": methods.rules,
    "conventions": methods.conventions,
    "posture length and load": methods_movement.lengths,
}
