"""The handout page: the coach's builder and the client's view, read from the link's fragment by scripts of this site.

What may stand in a fragment is decided in ``build_tools.handout``; the page learns it from its own JSON block, so that the client's
list stands there without another request. What only the builder and the week need comes with ``data.json``.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass

from ...catalog import care, entries
from ...catalog.fixed_words import fixed_words
from ...handout import doses, limits
from ...handout.successors import moved_on, taken_out
from ..addresses import url
from ..context import Link, PageContext, RenderContext
from ..pages import indexes
from ..planner import found
from ..previews.preview import HANDOUT, Preview, handout_preview
from ..templating import lean, render
from . import scripts

PAGE, DATA = HANDOUT, "handout/data.json"
#: What the client sees on a screen, on paper, and what the builder adds.
STYLE, PAPER, BUILDER = "handout/handout.css", "handout/paper.css", "handout/builder.css"
SCRIPT = "handout/handout.js"
#: What it imports before anything is shown.
FIRST = (
    "dom.js",
    "rules/link.js",
    "handout/view.js",
    "rules/doses.js",
    "rules/days.js",
    "rules/text.js",
)
_FIELDS = (
    ("sets", "numeric", 4),
    ("repetitions", "text", 20),
    ("load", "text", 20),
    ("left", "numeric", 4),
    ("rest", "numeric", 4),
    ("tempo", "text", 20),
    ("note", "text", limits.NOTE_LENGTH),
)
_WORDS = fixed_words("handout")
#: Begins the fragment of a link to a new handout; ``handout.js`` reads it. An exercise's id follows.
ADD = "add="


@dataclass(frozen=True)
class HandoutPage:
    """Everything the template shows."""

    handbook: entries.Handbook
    preview: Preview
    """The same for every handout: what one holds stays behind the ``#`` of its link."""
    address: str | None
    """Where the page is published."""
    offline: bool
    script: str
    first: list[str]
    """The scripts without which nothing is shown; the others follow."""
    data: dict[str, object]
    """What the view needs besides: words, rules of a link, successors of retired ids, concerns, and what is to be kept besides what is linked."""
    help_at_once: list[str]
    """Signs that need emergency help, one by one."""
    regions: list[tuple[str, list[tuple[str, Link]]]]
    """All cue sheets with their anchors, by region of the body, for browsers without scripts."""
    exercises: str
    """The index of exercises."""
    cautions: str
    """All cautions of the handbook."""
    title_length: int = limits.TITLE_LENGTH
    fields: tuple[tuple[str, str, int], ...] = _FIELDS
    """Name, kind of keyboard and characters of the fields of an exercise."""
    headings: tuple[str, str] = (care.HELP_AT_ONCE, care.STOP)

    @property
    def title(self) -> str:
        """Title of the page until a link says another."""
        return self.preview.title

    @property
    def description(self) -> str:
        """One sentence for previews and search."""
        return self.preview.description


def beginning_with(desk: PageContext, id: str) -> str:
    """The link to a new handout that begins with an exercise; without scripts it leads to the exercise in the list of sheets."""
    return desk.href(PAGE, f"{ADD}{id}")


def anchors(ids: Iterable[str]) -> list[str]:
    """What such links point at."""
    return [f"{ADD}{id}" for id in ids]


def uris(shelf: RenderContext) -> list[str]:
    """All files beside the handout page."""
    return [DATA, STYLE, PAPER, BUILDER, *_care(shelf), *(uri for uri, _ in scripts.handout())]


def files(shelf: RenderContext) -> list[tuple[str, bytes]]:
    """All files of the handout page, with their bytes."""
    made = {
        PAGE: render("handout.html.jinja", page=_model(shelf), palette=shelf.palette, words=_WORDS),
        STYLE: lean(render("handout.css.jinja", palette=shelf.palette)),
        PAPER: lean(render("handout_paper.css.jinja", palette=shelf.palette)),
        BUILDER: lean(render("handout_builder.css")),
        DATA: _json(data(shelf)),
        **{uri: _json(found.care(shelf, id)) for uri, id in _care(shelf).items()},
    }
    return [*((uri, text.encode()) for uri, text in made.items()), *scripts.handout()]


def _care(shelf: RenderContext) -> dict[str, str]:
    """The files that hold the lines of a concern, and its id."""
    return {f"data/care/{id}.json": id for id in shelf.vocabulary.concerns}


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), sort_keys=True) + "\n"


def data(shelf: RenderContext) -> dict[str, object]:
    """What builder and week need, as JSON values: rules of a link, all names of the exercises, ranges of doses, the builder's words."""
    programme = shelf.catalog.programme
    ranges = doses.ranges(programme.data) if programme else {}
    return {
        "rules": limits.as_data(),
        "exercises": {
            id: [entry.data.name, *entry.data.also_called]
            for id, entry in shelf.catalog.exercises.items()
        },
        "doses": {field: span._asdict() for field, span in ranges.items()},
        "words": _WORDS["builder"],
    }


def _shown_at_once(shelf: RenderContext, desk: PageContext) -> dict[str, object]:
    return {
        "words": {
            **_WORDS["script"],
            "dates": _WORDS["dates"],
            "emergency": f"{care.HELP_AT_ONCE}:",
        },
        "rules": limits.as_data(),
        "moved": moved_on(shelf.catalog)["exercises"],
        "retired": taken_out(shelf.catalog),
        "concerns": {
            id: [
                concern.name,
                concern.before.say if concern.before else None,
                [line.say for line in concern.help_at_once],
            ]
            for id, concern in shelf.vocabulary.concerns.items()
        },
        "files": [
            desk.href(uri)
            for uri in (
                DATA,
                PAPER,
                BUILDER,
                *(uri for uri, _ in scripts.handout() if uri.endswith(".js")),
            )
        ],
    }


def _model(shelf: RenderContext) -> HandoutPage:
    desk = shelf.at(PAGE)
    return HandoutPage(
        handbook=shelf.handbook,
        preview=handout_preview(shelf),
        address=shelf.site.at(url(PAGE)),
        offline=shelf.site.offline,
        script=desk.href(scripts.uri(SCRIPT)),
        first=[desk.href(scripts.uri(path)) for path in FIRST],
        data=_shown_at_once(shelf, desk),
        help_at_once=shelf.handbook.notice.help_at_once,
        regions=[
            (
                region,
                [
                    (
                        f"{ADD}{id}",
                        Link(
                            shelf.catalog.exercises[id].data.name,
                            desk.href(f"cues/{id}/index.html"),
                        ),
                    )
                    for id in ids
                ],
            )
            for region, ids in indexes.by_region(shelf)
        ],
        exercises=desk.href("exercises/index.md"),
        cautions=desk.href("cautions.md"),
    )
