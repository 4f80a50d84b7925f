"""Reads a table of the map as a screen reader does: each cell by its row's and its column's head, and what it says."""

from __future__ import annotations

from html.parser import HTMLParser
from typing import NamedTuple


class ReadCell(NamedTuple):
    """One cell below the heads."""

    row: str
    column: str
    said: str
    tinted: bool
    href: str | None


class ReadTable(HTMLParser):
    """All tables of a piece of HTML. What is hidden from readers that hear the page is left out."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.captions: list[str] = []
        self.heads: list[list[str]] = []
        self.cells: list[ReadCell] = []
        self.scopes: list[str | None] = []
        self._in: str | None = None
        self._text, self._said, self._row = "", "", ""
        self._column, self._tinted = 0, False
        self._href: str | None = None
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag == "table":
            self.heads.append([])
        if tag == "tr":
            self._column = 0
        if tag in ("caption", "th", "td"):
            self._in, self._text, self._said, self._href = tag, "", "", None
            self._tinted = given.get("class") == "on"
        if tag == "th":
            self.scopes.append(given.get("scope"))
            self._scope = given.get("scope")
        if tag == "a" and self._in == "td":
            self._said, self._href = given.get("aria-label") or "", given.get("href")

    def handle_data(self, data: str) -> None:
        if self._in:
            self._text += data

    def handle_endtag(self, tag: str) -> None:
        if tag != self._in:
            return
        text = " ".join(self._text.split())
        if tag == "caption":
            self.captions.append(text)
        elif tag == "th" and self._scope == "col":
            self.heads[-1].append(text)
        elif tag == "th":
            self._row, self._column = text, 1
        else:
            head = self.heads[-1][self._column]
            self.cells.append(
                ReadCell(self._row, head, self._said or text, self._tinted, self._href)
            )
            self._column += 1
        self._in = None
