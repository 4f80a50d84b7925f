"""What was taken out says so at every address that it had, to coaches, clients and old handouts, and sends nobody into nothing."""

from __future__ import annotations

import re
from html import unescape
from typing import TYPE_CHECKING

import pytest
from folders import DEMO
from handouts import Item, encode, single

from build_tools.catalog.load import Catalog
from build_tools.site.book import Book

if TYPE_CHECKING:
    from playwright.sync_api import Browser


def words(text: str | bytes) -> str:
    text = text.decode() if isinstance(text, bytes) else text
    text = re.sub(r"<(style|head)>.*?</\1>", "", text, flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", text)).split())


def test_each_kind_has_its_page(moved_book: Book) -> None:
    pages = {page.uri: page.text for page in moved_book.pages}
    for uri, name, why in (
        ("exercises/pit-curl.md", "Pit curl", "The pit was filled."),
        ("muscles/tinder.md", "Tinder muscle", "It was none."),
        ("muscles/lantern/glass.md", "Glass", "It was none."),
        ("sources/soot2020.md", "Soot 2020", "It was withdrawn."),
    ):
        assert f"# {name}" in pages[uri]
        assert f"Taken out of the handbook on 5 January 2026. Why: {why}" in words(pages[uri])
        assert "find/" in pages[uri]
    assert "muscles/lantern/long-head/" in pages["exercises/pit-curl.md"]
    leading = {file.uri: file.content for file in moved_book.files}
    for below in ("", "slides/"):
        assert b"muscles/tinder/" in leading[f"lessons/tinder/{below}index.html"]


def test_a_client_is_told_to_ask_and_when_to_stop(moved: Catalog, moved_book: Book) -> None:
    """Every safety line of everybody's notice, read from the catalog's own file."""
    files = {file.uri: file.content for file in moved_book.files}
    sheet = words(files["cues/pit-curl/index.html"])
    assert "Do not do this exercise for now" in sheet
    assert "Ask your coach what to do instead" in sheet
    assert moved.handbook
    notice = moved.handbook.data.notice
    assert all(line in sheet for line in (*notice.help_at_once, *notice.stop, notice.short))
    assert b"<script" not in files["cues/pit-curl/index.html"]
    assert len(files["cues/pit-curl/index.html"]) <= 30 * 1024


def test_nothing_else_offers_it(moved_book: Book) -> None:
    """No list, no figure and no choice names it; only its own pages and the words of the search do."""
    own = {"exercises/pit-curl.md", "cues/pit-curl/index.html", "handout/index.html"}
    named = {
        page.uri for page in moved_book.pages if "Pit curl" in page.text or "pit-curl" in page.text
    }
    assert named <= {*own, "rules.md"}  # an example of the rule
    assert (DEMO / "moved.yaml").exists() is False  # the demo itself retires nothing


@pytest.mark.browser
def test_the_pages_can_be_opened(browser: Browser, moved_address: str) -> None:
    page = browser.new_page(viewport={"width": 390, "height": 844})
    for path in (
        "exercises/pit-curl/",
        "muscles/tinder/",
        "muscles/lantern/glass/",
        "cues/pit-curl/",
    ):
        answer = page.goto(moved_address + path)
        assert answer and answer.status == 200
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        for link in page.eval_on_selector_all("main a", "all => all.map((one) => one.href)"):
            if link.startswith(moved_address):
                assert page.request.get(link).status == 200, link
    page.close()


@pytest.mark.browser
def test_an_old_handout_says_so_in_its_row(browser: Browser, moved_address: str) -> None:
    """A link made while it was there: the other exercises stay, its row asks for nothing, and its cue sheet's words stand in it."""
    link = encode(single("Week 1", (Item("pit-curl", 3, "8-12"), Item("lamp-curl", 2, "10"))))
    page = browser.new_page(viewport={"width": 390, "height": 844})
    page.goto(f"{moved_address}handout/#{link}")
    page.wait_for_selector("[data-part=list] li")
    rows = page.locator("[data-part=list] li").all_inner_texts()
    assert "Pit curl (taken out, ask your coach)" in rows[0] and "3" not in rows[0]
    assert "Crate curl" in rows[1] and "10" in rows[1]
    page.wait_for_selector("article >> text=Ask your coach what to do instead", state="attached")
    page.locator("[data-part=edit]").click()
    page.wait_for_selector("[data-part=builder]:not([hidden])")
    assert page.locator("[data-part=builder] [data-id]").evaluate_all(
        "all => all.map((one) => one.dataset.id)"
    ) == ["crate-curl"]
    page.close()


@pytest.mark.browser
def test_an_old_address_of_a_working_page_asks_for_what_there_is(
    browser: Browser, moved_address: str
) -> None:
    page = browser.new_page()
    page.goto(f"{moved_address}find/?part=lantern/wick")
    page.wait_for_url("**/find/?part=lantern/long-head")
    page.goto(f"{moved_address}lagging/#parts=lantern/wick,lamp/short-head")
    page.wait_for_url("**/lagging/#parts=lantern/long-head,lantern/short-head*")
    page.close()
