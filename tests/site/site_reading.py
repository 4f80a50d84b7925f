"""Reads built HTML with the standard library's parser: elements, ids and links."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

#: Fragments that a page's script reads, which name no element: a handout, or what a working page is asked.
STATE = re.compile(r"1\.[\w-]+|([a-z]+=[\w,/-]+&?)+")


class Reader(HTMLParser):
    """Elements with their attributes, all ids, and all addresses that a page refers to."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, tuple[str, ...]]] = []
        self.ids: list[str] = []
        self.addresses: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, tuple(name for name, _ in attrs)))
        for name, value in attrs:
            if name == "id":
                self.ids.append(value or "")
            if name in ("href", "src"):
                self.addresses.append(value or "")


def broken_links(site: Path) -> list[str]:
    """Every internal address in a site that does not lead to a file and, with a fragment, to an id in it."""
    pages = {
        path: Reader(path.read_text(encoding="utf-8")) for path in sorted(site.rglob("*.html"))
    }
    wrong = []
    for path, page in pages.items():
        if path.name == "404.html":  # its links start at the domain
            continue
        for address in page.addresses:
            parts = urlsplit(address)
            if parts.scheme or parts.netloc:
                continue
            target = (path.parent / unquote(parts.path)).resolve() if parts.path else path.resolve()
            target = target / "index.html" if target.is_dir() else target
            known = (
                pages.get(target) or pages.get(site / target.relative_to(site.resolve()))
                if target.is_file()
                else None
            )
            id = "" if STATE.fullmatch(parts.fragment) else unquote(parts.fragment)
            if not target.is_file() or (id and (known is None or id not in known.ids)):
                wrong.append(f"{path.relative_to(site)}: {address}")
    return wrong
