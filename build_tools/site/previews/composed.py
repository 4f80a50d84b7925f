"""The preview of every page and the picture of each, composed from what the pages say."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from ...catalog.fixed_words import fixed_words
from ...english import listed, lower_first, upper_first
from ...evidence_map.answer_card import answer_card
from ...evidence_map.marks import LEGEND, Mark
from ..addresses import url
from ..context import RenderContext
from ..figures import file as figure_file
from ..map import mark as marks
from ..map.block import view
from ..pages.muscles.card import answer
from ..search.texts import front_matter
from ..sections.comparison import bare
from . import pictures
from .pictures import BLOCK_ROWS, PictureWords
from .preview import (
    HANDOUT,
    SOURCES,
    Preview,
    exercise_alt,
    handout_preview,
    picture,
    plain_alt,
    preview,
)

_SIGNS = "Square: growth. Circle: activity in one session. Filled: more than with another exercise. Bar: not shown to be more."
#: What the picture of every source shows.
_SOURCES_ALT = plain_alt("Sources")


@dataclass(frozen=True)
class Composed:
    """What stands in one page's preview, and how its picture is made."""

    preview: Preview
    draw: Callable[[], bytes] | None
    """None where another page's picture stands for it."""


def previews(shelf: RenderContext, texts: Mapping[str, str]) -> dict[str, Composed]:
    """Uri of a page -> its preview. ``texts``: every page's Markdown by its uri."""
    found = {uri: _page(shelf, uri, front_matter(text)) for uri, text in texts.items()}
    made = handout_preview(shelf)
    words = PictureWords(
        made.site, fixed_words("handout")["pictured"], "", made.description, shelf.palette
    )
    found[HANDOUT] = Composed(made, partial(pictures.plain, words))
    return found


def files(shelf: RenderContext, composed: Mapping[str, Composed]) -> Iterator[tuple[str, bytes]]:
    """Uri and content of every picture; none while the handbook's address is not known."""
    if shelf.site.url:
        for uri, page in composed.items():
            if page.draw:
                yield picture(uri), page.draw()


def _page(shelf: RenderContext, uri: str, meta: Mapping[str, Any]) -> Composed:
    room, _, rest = uri.removesuffix(".md").partition("/")
    if room == "exercises" and rest in shelf.catalog.exercises:
        return _exercise(shelf, uri, rest)
    if room == "muscles" and rest in shelf.catalog.muscles:
        return _muscle(shelf, uri, rest, str(meta.get("description", "")))
    if room == "muscles" and "/" in rest and shelf.catalog.part(rest):
        return _part(shelf, uri, rest)
    title, said = str(meta.get("title", shelf.handbook.title)), str(meta.get("description", ""))
    said = said or (shelf.handbook.notice.short if url(uri) else shelf.handbook.tagline)
    if room == "lessons" and rest in shelf.catalog.muscles:
        of = _muscle(shelf, f"muscles/{rest}.md", rest, said)
        return Composed(
            preview(shelf, uri, title, said, of.preview.alt, f"muscles/{rest}.md"), None
        )
    if room == "sources" and rest != "index":  # hundreds, and nothing to draw of a reference
        return Composed(preview(shelf, uri, title, said, _SOURCES_ALT, SOURCES), None)
    words = PictureWords(shelf.handbook.title, title, "", said, shelf.palette)
    return Composed(
        preview(shelf, uri, title, said, plain_alt(title)), partial(pictures.plain, words)
    )


def _exercise(shelf: RenderContext, uri: str, id: str) -> Composed:
    name, told = shelf.catalog.exercises[id].data.name, shelf.favours.of(id)
    made = preview(shelf, uri, name, told, exercise_alt(name))
    words = PictureWords(made.site, name, "", told, shelf.palette)
    return Composed(
        made, lambda: pictures.exercise(words, figure_file.posture(shelf, id, "preview"))
    )


def _part(shelf: RenderContext, uri: str, ref: str) -> Composed:
    named = shelf.catalog.part(ref)
    assert named is not None, ref
    title = upper_first(bare(shelf.names.part(ref)))
    card = answer_card(shelf.names, answer(shelf, ref))
    chosen = listed([shelf.names.exercise(id).removeprefix("the ") for id in card.chosen])
    others = f", and {card.others} more" if card.others else ""
    sure = f" How sure: {lower_first(card.sure)}" if card.sure else ""
    told = f"{card.lead}: {chosen}{others}. {card.why}{sure}"
    alt = f"{title}: which exercise to choose, in words, beside its exercises with the marks of the map."
    made = preview(shelf, uri, title, told, alt)
    under = named.name if named.name.casefold() != title.casefold() else upper_first(named.everyday)
    words = PictureWords(made.site, title, under, told, shelf.palette)
    return Composed(made, lambda: pictures.part(words, _marked(shelf, ref)))


def _marked(shelf: RenderContext, ref: str) -> list[tuple[Mark, str, list[str]]]:
    """The exercises that train a part, by their marks: the mark, what it says, names."""
    exercises = shelf.catalog.exercises
    cells = [
        shelf.evidence_map.cell(id, ref)
        for id in sorted(exercises, key=lambda id: exercises[id].data.name)
    ]
    found = [
        (
            mark,
            upper_first(marks.words(mark)),
            [exercises[c.exercise].data.name for c in cells if c.mark == mark and c.counts],
        )
        for mark in LEGEND
    ]
    return [group for group in found if group[2]]


def _muscle(shelf: RenderContext, uri: str, id: str, said: str) -> Composed:
    named = shelf.catalog.muscles[id].data
    alt = f"{named.name}: exercises by its parts, each with the mark of the best evidence."
    made = preview(shelf, uri, named.name, said, alt)

    def draw() -> bytes:
        block = view(shelf.at("index.md"), id)
        rows = [
            (row.link.text, [(cell.counts, cell.mark) for cell in row.cells]) for row in block.rows
        ]
        rest = len(rows) - BLOCK_ROWS
        more = f"and {rest} more, on the page" if rest > 0 else ""
        words = PictureWords(
            made.site, named.name, upper_first(named.everyday), _SIGNS, shelf.palette
        )
        return pictures.muscle(words, [part.name for part in block.parts], rows[:BLOCK_ROWS], more)

    return Composed(made, draw)
