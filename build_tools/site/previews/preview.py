"""What Open Graph says of one page, as the head of that page has it.

Property names: https://ogp.me (title, type, image and url are required; image and url stand only where the handbook's own address is
known, since both must be absolute).
"""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ...catalog.fixed_words import fixed_words
from ..addresses import url
from ..context import RenderContext
from ..templating import render
from .canvas import HEIGHT, WIDTH

#: The page of every handout, and whose picture stands for client pages of no single exercise.
HANDOUT = "handout/index.html"
#: The page whose picture stands for the page of every source.
SOURCES = "sources/index.md"
#: Folders of pages that are of one thing each.
_ENTRIES = ("cues", "exercises", "muscles", "sources")


@dataclass(frozen=True)
class Preview:
    """One page's title, sentence and picture."""

    site: str
    """The handbook's name."""
    title: str
    description: str
    kind: str
    """``article`` for entries, ``website`` for all else."""
    address: str | None
    """The page's own, absolute; None while nobody knows it."""
    image: str | None
    alt: str
    """What the picture shows, in words."""
    width: int = WIDTH
    height: int = HEIGHT

    @property
    def tags(self) -> Markup:
        """The elements for the head of the page."""
        return Markup(render("open_graph.html.jinja", preview=self))


def picture(uri: str) -> str:
    """Where the picture of a page is: ``exercises/seated-row.md`` -> ``previews/exercises/seated-row.png``."""
    return f"previews/{url(uri).rstrip('/') or 'home'}.png"


def preview(
    shelf: RenderContext,
    uri: str,
    title: str,
    description: str,
    alt: str,
    pictured: str | None = None,
) -> Preview:
    """The preview of page ``uri``, with the picture of page ``pictured`` where that is another one."""
    folder, _, entry = uri.partition("/")
    is_entry = folder in _ENTRIES and entry != "index.md"
    return Preview(
        site=shelf.handbook.title,
        title=title,
        description=description,
        kind="article" if is_entry else "website",
        address=shelf.site.at(url(uri)),
        image=shelf.site.at(picture(pictured or uri)),
        alt=alt,
    )


def handout_preview(shelf: RenderContext) -> Preview:
    """The preview of every handout."""
    words = fixed_words("handout")
    return preview(
        shelf, HANDOUT, words["title"], words["description"], plain_alt(words["pictured"])
    )


def exercise_alt(name: str) -> str:
    """What an exercise's picture shows, for its page and its cue sheet."""
    return f"{name}: the posture at start and finish, drawn, beside the name and what it favours in one sentence."


def plain_alt(title: str) -> str:
    """What a picture without a drawing shows."""
    return f"The words “{title}” and what the page is for."
