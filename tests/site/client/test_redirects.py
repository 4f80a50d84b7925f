"""Retired addresses lead on to the successor: read with the standard library's parser, followed in Chromium.

Outside sources: the refresh's form (HTML standard, "Refresh" pragma; W3C technique H76, from memory), the canonical link (RFC 6596).
"""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from build_tools.catalog.load import Catalog, load
from build_tools.evidence.claims.conclusions import Conclusions
from build_tools.evidence.wording.names import Names
from build_tools.site.addresses import Addresses
from build_tools.site.book import Book
from build_tools.site.client import redirects
from build_tools.site.context import RenderContext
from build_tools.site.publication import Publication

if TYPE_CHECKING:
    from playwright.sync_api import Browser

SITE = Publication("https://lantern.example/handbook/")


class Head(HTMLParser):
    """What a redirect page says to browsers and search engines."""

    def __init__(self, html: bytes) -> None:
        super().__init__()
        self.meta: dict[str, str] = {}
        self.links: dict[str, str] = {}
        self.tags: list[str] = []
        self.feed(html.decode())

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.tags.append(tag)
        if tag == "meta":
            self.meta[given.get("http-equiv") or given.get("name") or "charset"] = given.get(
                "content"
            ) or given.get("charset", "")
        if tag in ("link", "a"):
            self.links[given.get("rel", "visible")] = given["href"]


def pages(catalog: Catalog, site: Publication) -> dict[str, bytes]:
    shelf = RenderContext(catalog, Conclusions(Names(catalog), {}, {}, []), Addresses(), site)
    return {resource.uri: resource.make(shelf) for resource in redirects.resources(shelf)}


def test_each_retired_id_has_its_pages(moved: Catalog) -> None:
    made = {uri: Head(page) for uri, page in pages(moved, SITE).items()}
    assert {uri: page.links["visible"] for uri, page in made.items()} == {
        "exercises/lamp-curl/index.html": "../../exercises/crate-curl/",
        "cues/lamp-curl/index.html": "../../cues/crate-curl/",
        "muscles/lamp/index.html": "../../muscles/lantern/",
        "muscles/lamp/long-head/index.html": "../../../muscles/lantern/long-head/",
        "muscles/lamp/short-head/index.html": "../../../muscles/lantern/short-head/",
        "muscles/lantern/wick/index.html": "../../../muscles/lantern/long-head/",
        "lessons/lamp/index.html": "../../lessons/lantern/",
        "lessons/lamp/slides/index.html": "../../../lessons/lantern/slides/",
        "sources/wick2029/index.html": "../../sources/wick2030/",
    }
    for page in made.values():
        assert page.meta["refresh"] == f"0; url={page.links['visible']}"
        assert page.links["canonical"] == SITE.url + page.links["visible"].removeprefix(
            "../" * page.links["visible"].count("../")
        )
        assert page.meta["robots"] == "noindex" and "script" not in page.tags


def test_without_an_address_the_canonical_link_is_relative(moved: Catalog) -> None:
    for page in pages(moved, Publication()).values():
        assert Head(page).links["canonical"] == Head(page).links["visible"]


def test_a_catalog_without_retired_ids_has_none(demo: Path) -> None:
    assert pages(load(demo), SITE) == {}


def test_names_are_text(moved: Catalog) -> None:
    entry = moved.exercises["crate-curl"]
    object.__setattr__(
        entry, "data", entry.data.model_copy(update={"name": "</title><script>alert(1)</script>"})
    )
    assert all("script" not in Head(page).tags for page in pages(moved, SITE).values())


def test_they_are_in_the_book(moved_book: Book) -> None:
    assert {"exercises/lamp-curl/index.html", "cues/lamp-curl/index.html"} <= {
        file.uri for file in moved_book.files
    }


@pytest.mark.browser
@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("exercises/lamp-curl/", "exercises/crate-curl/"),
        ("cues/lamp-curl/", "cues/crate-curl/"),
        ("lessons/lamp/slides/", "lessons/lantern/slides/"),
        ("sources/wick2029/", "sources/wick2030/"),
    ],
)
def test_a_browser_without_scripts_lands_on_the_successor(
    browser: Browser, moved_address: str, old: str, new: str
) -> None:
    with browser.new_context(base_url=moved_address, java_script_enabled=False) as context:
        page = context.new_page()
        page.goto(old)
        page.wait_for_url(f"**/{new}")
        assert (
            page.locator("h1")
            .inner_text()
            .startswith(
                "Crate curl" if "curl" in new else "Back of" if "lessons" in new else "Wick"
            )
        )
