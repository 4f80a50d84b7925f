"""The handout page: the coach's builder and the client's view, read from the link's fragment by scripts of this site.

What may stand in a fragment is decided in ``build_tools.handout``; the page learns it from ``data.json``.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass

from ...catalog import entries
from ...handout import doses, limits
from ...handout.successors import shown
from ..addresses import url
from ..context import Link, PageContext, RenderContext
from ..pages import indexes
from ..previews.preview import HANDOUT, Preview, handout_preview
from ..templating import render
from . import scripts

PAGE, DATA, STYLE = HANDOUT, "handout/data.json", "handout/handout.css"
SCRIPT = "handout/handout.js"
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
    modules: list[str]
    """All its scripts."""
    regions: list[tuple[str, list[tuple[str, Link]]]]
    """All cue sheets with their anchors, by region of the body, for browsers without scripts."""
    exercises: str
    """The index of exercises."""
    cautions: str
    """All cautions of the handbook."""
    title_length: int = limits.TITLE_LENGTH
    note_length: int = limits.NOTE_LENGTH

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


def uris() -> list[str]:
    """All files beside the handout page."""
    return [DATA, STYLE, *(uri for uri, _ in scripts.handout())]


def files(shelf: RenderContext) -> list[tuple[str, bytes]]:
    """All files of the handout page, with their bytes."""
    made = {
        PAGE: render("handout.html.jinja", page=_model(shelf)),
        STYLE: render("handout.css.jinja"),
        DATA: json.dumps(data(shelf), ensure_ascii=False, separators=(",", ":"), sort_keys=True)
        + "\n",
    }
    return [*((uri, text.encode()) for uri, text in made.items()), *scripts.handout()]


def data(shelf: RenderContext) -> dict[str, object]:
    """What the scripts need, as JSON values: rules of a link, names of exercises, successors of retired ids, ranges of doses."""
    exercises, moved, programme = (
        shelf.catalog.exercises,
        shelf.catalog.moved,
        shelf.catalog.programme,
    )
    known = shown(exercises, moved.data.exercises if moved else {})
    ranges = doses.ranges(programme.data) if programme else {}
    return {
        "rules": limits.as_data(),
        "exercises": {
            id: [entry.data.name, *entry.data.also_called] for id, entry in exercises.items()
        },
        "moved": {id: successor for id, successor in known.items() if id != successor},
        "doses": {field: found._asdict() for field, found in ranges.items()},
    }


def _model(shelf: RenderContext) -> HandoutPage:
    desk = shelf.at(PAGE)
    return HandoutPage(
        handbook=shelf.handbook,
        preview=handout_preview(shelf),
        address=shelf.site.at(url(PAGE)),
        offline=shelf.site.offline,
        script=desk.href(scripts.uri(SCRIPT)),
        modules=[desk.href(uri) for uri, _ in scripts.handout() if uri.endswith(".js")],
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
