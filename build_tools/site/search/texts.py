"""The words that a page shows, section by section, from its Markdown: headings are Markdown lines, bodies mostly HTML.

What stands in an element with ``data-search-exclude`` is left out: notices, drawings, what repeats another page.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any

import yaml

_FRONT_MATTER = re.compile(r"\A---\n(.*?)\n---\n", re.DOTALL)
_HEADING = re.compile(r"^(#{1,6}) +(.+?)(?: *\{#([\w-]+)\})?$", re.MULTILINE)
#: Where a Markdown link leads is no text; neither is a comment.
_HIDDEN = re.compile(r"\]\([^)\s]*\)|<!--.*?-->", re.DOTALL)
_VOID = frozenset({"br", "hr", "img", "input", "link", "meta", "source", "wbr", "col"})
_UNREAD = frozenset({"script", "style", "svg", "template"})
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
    plain = re.sub(r"['’]", "", unicodedata.normalize("NFKD", text))
    bare = "".join(letter for letter in plain if not unicodedata.category(letter).startswith("M"))
    return tuple(_WORD.findall(bare.lower()))


def shown(html: str) -> str:
    """The text of a piece of Markdown and HTML; where one element ends and the next begins stands a blank."""
    reader = _ShownText()
    reader.feed(_HIDDEN.sub(" ", html))
    reader.close()
    return " ".join(" ".join(reader.found).split())


class _ShownText(HTMLParser):
    """Gathers text outside of what is left out."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self._inside: list[str] = []
        """Open elements from the outermost one that is left out."""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in _VOID:
            return
        if (
            self._inside
            or tag in _UNREAD
            or any(name == "data-search-exclude" for name, _ in attrs)
        ):
            self._inside.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag in self._inside:
            while self._inside.pop() != tag:
                pass

    def handle_data(self, data: str) -> None:
        if not self._inside:
            self.found.append(data)
