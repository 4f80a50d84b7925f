"""The words that a page shows, section by section, from its Markdown: headings are Markdown lines, bodies mostly HTML.

What stands in an element with ``data-search-exclude`` is left out: notices, drawings, what repeats another page.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from html import unescape
from typing import Any

import yaml

_FRONT_MATTER = re.compile(r"\A---\n(.*?)\n---\n", re.DOTALL)
_HEADING = re.compile(r"^(#{1,6}) +(.+?)(?: *\{#([\w-]+)\})?$", re.MULTILINE)
#: Where a Markdown link leads is no text; neither is a comment.
_HIDDEN = re.compile(r"\]\([^)\s]*\)|<!--.*?-->", re.DOTALL)
_VOID = frozenset({"br", "hr", "img", "input", "link", "meta", "source", "wbr", "col"})
_UNREAD = frozenset({"script", "style", "svg", "template"})
#: Our templates write no `>` into an attribute as it stands.
_TAG = re.compile(r"<(/?)([A-Za-z][\w-]*)([^>]*)>")
_WORD = re.compile(r"[^\W_]+")


@dataclass(frozen=True)
class PageSection:
    """What stands between two headings."""

    heading: str
    anchor: str | None
    words: tuple[str, ...]


@dataclass(frozen=True)
class PageText:
    """A page as it can be searched."""

    uri: str
    title: str
    meta: dict[str, Any]
    sections: list[PageSection] = field(default_factory=list)
    """The first is what stands above the first heading below the title, under the title's own anchor or none."""

    @property
    def description(self) -> str:
        """What the page says of itself."""
        return str(self.meta.get("description", ""))

    @property
    def is_entry(self) -> bool:
        """Whether it is the page of an exercise, muscle, part or source: those are found by their own names."""
        return "section" in self.meta

    @property
    def is_manual(self) -> bool:
        """Whether it is for contributors: its headings are messages, not terms."""
        return self.meta.get("audience") == "contributors"


def front_matter(markdown: str) -> dict[str, Any]:
    """What a page says of itself before its text; nothing where it says nothing."""
    front = _FRONT_MATTER.match(markdown)
    return yaml.load(front[1], yaml.CSafeLoader) if front else {}


def page_text(uri: str, markdown: str) -> PageText:
    """A page's sections from its Markdown with front matter."""
    front, meta = _FRONT_MATTER.match(markdown), front_matter(markdown)
    body = markdown[front.end() :] if front else markdown
    headings = list(_HEADING.finditer(body))
    first = next((shown(found[2]) for found in headings if len(found[1]) == 1), "")
    pieces: list[tuple[str, str | None, int]] = [(str(meta.get("title", first)), None, 0)]
    pieces += [
        (shown(found[2]), found[3], found.end()) if len(found[1]) > 1 else ("", None, found.end())
        for found in headings
    ]
    ends = [found.start() for found in headings] + [len(body)]
    sections = [
        PageSection(heading, anchor, words(f"{heading} {shown(body[start:end])}"))
        for (heading, anchor, start), end in zip(pieces, ends, strict=True)
    ]
    return PageText(uri, pieces[0][0], meta, sections)


def words(text: str) -> tuple[str, ...]:
    """The words of a text as the search spells them: small letters without accents, apostrophes left out. As ``spelled`` in rules/query.js."""
    bare = re.sub(r"['’]", "", text)
    if not bare.isascii():
        plain = unicodedata.normalize("NFKD", bare)
        bare = "".join(c for c in plain if not unicodedata.category(c).startswith("M"))
    return tuple(_WORD.findall(bare.lower()))


def shown(html: str) -> str:
    """The text of a piece of Markdown and HTML; where one element ends and the next begins stands a blank."""
    html = _HIDDEN.sub(" ", html)
    found: list[str] = []
    inside: list[str] = []  # open elements from the outermost one that is left out
    end = 0
    for tag in _TAG.finditer(html):
        closes, name, rest = tag.groups()
        name = name.lower()
        if not inside:
            start, after = tag.span()
            found.append(html[end:start])
            end = after
            if closes or not (name in _UNREAD or "data-search-exclude" in rest):
                continue
        if closes:
            if name in inside:
                while inside.pop() != name:
                    pass
                end = tag.end()
        elif name not in _VOID and not rest.endswith("/"):
            inside.append(name)
    if not inside:
        found.append(html[end:])
    return " ".join(unescape(" ".join(found)).split())
