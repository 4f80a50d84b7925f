"""Pages of what was taken out without a successor, for every id under ``retired`` in ``moved.yaml``.

An address lives in chats for years: it says what was there, why it is gone and where to go. A cue sheet's says it to a
client, with the words of every cue sheet on when to stop; a handout takes them over from there.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial

from ...catalog import care
from ...catalog.entries import Retired
from ...catalog.fixed_words import fixed_words
from ..context import Link, PageContext, RenderContext
from ..previews.preview import HANDOUT, Preview, plain_alt, preview
from ..resource import Resource
from ..templating import render
from . import cue_sheet
from .redirects import led_on

_WORDS = fixed_words("retired")
#: Kind under ``retired`` -> folder of its pages, and the list that leads on.
_FOLDERS = {
    "exercises": ("exercises", ("Exercises", "exercises/index.md")),
    "muscles": ("muscles", ("Muscles", "muscles/index.md")),
    "parts": ("muscles", ("Muscles", "muscles/index.md")),
    "sources": ("sources", ("Sources", "sources/index.md")),
}


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """A page for each id, a client's page for each exercise, and what leads on from a muscle's lesson."""
    for kind, (folder, _) in _FOLDERS.items():
        for id, gone in sorted(retired(shelf, kind).items()):
            yield Resource(f"{folder}/{id}.md", partial(_page, id=id, kind=kind, gone=gone))
            if kind == "exercises":
                yield Resource(cue_sheet.uri(id), partial(_sheet, id=id, gone=gone))
            if kind == "muscles":
                for below in ("", "slides/"):
                    yield led_on(f"lessons/{id}/{below}", f"muscles/{id}/", gone.name)


def retired(shelf: RenderContext, kind: str) -> Mapping[str, Retired]:
    """Ids of a kind that were taken out without a successor, each with why."""
    moved = shelf.catalog.moved
    found: Mapping[str, Retired] = getattr(moved.data.retired, kind) if moved else {}
    return found


def _page(shelf: RenderContext, id: str, kind: str, gone: Retired) -> str:
    folder, (title, index) = _FOLDERS[kind]
    desk = shelf.at(f"{folder}/{id}.md")
    return render(
        "retired.md.jinja",
        gone=gone,
        parts=_parts(desk, gone),
        find=Link("Find", desk.href("find.md")),
        index=Link(title, desk.href(index)),
        meta={
            "title": gone.name,
            "description": f"Taken out of the handbook: {gone.because}",
            "hide": ["navigation", "toc"],
        },
    )


def _parts(desk: PageContext, gone: Retired) -> list[Link]:
    return [desk.part(ref) for ref in gone.parts if desk.shelf.catalog.part(ref)]


def _sheet(shelf: RenderContext, id: str, gone: Retired) -> bytes:
    desk = shelf.at(cue_sheet.uri(id))
    return render(
        "retired_sheet.html.jinja",
        gone=gone,
        handbook=shelf.handbook,
        palette=shelf.palette,
        words=_WORDS,
        headings=(care.HELP_AT_ONCE, care.STOP),
        preview=_preview(shelf, id, gone),
        page=desk.href(f"exercises/{id}.md"),
        cautions=desk.href("cautions.md"),
    ).encode()


def _preview(shelf: RenderContext, id: str, gone: Retired) -> Preview:
    title, said = _WORDS["title"].format(name=gone.name), _WORDS["description"]
    # Its words are those of every client page; its picture too.
    return preview(shelf, cue_sheet.uri(id), title, said, plain_alt(title), HANDOUT)
