"""The page Taught and tested: what stands open, what is folded, and how it narrows."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import axe
import pytest
import shipped_made
from made import page

from build_tools.site.book import Book
from build_tools.site.pages.evidence import taught
from build_tools.site.sections import taught as views

if TYPE_CHECKING:
    from playwright.sync_api import Browser


def words(text: str) -> int:
    return len(re.sub(r"<[^>]+>", " ", text).split())


def entries(text: str) -> list[str]:
    return re.findall(r"<li data-state=.*?</li>", text, re.S)


def test_the_demo_teaches_one_thing(demo_book: Book) -> None:
    text = page(demo_book, taught.URI)
    assert "Of 1 common teaching, none holds so far" in text
    assert [re.search('data-state="(.*?)"', one)[1] for one in entries(text)] == ["untested"]  # type: ignore[index]


def test_every_teaching_of_the_shipped_catalog_stands_once() -> None:
    text = page(shipped_made.book(), taught.URI)
    shelf = shipped_made.book().shelf
    assert len(entries(text)) == len(views.all_taught(shelf))
    for state in views.STATES:
        marked = sum(f'data-state="{state}"' in one for one in entries(text))
        assert marked == sum(t.state == state for t in views.all_taught(shelf))


def test_entries_are_short() -> None:
    """About 30 words; a few name many parts that answer differently."""
    counted = sorted(map(words, entries(page(shipped_made.book(), taught.URI))))
    assert sum(counted) / len(counted) <= 30
    assert counted[int(0.9 * len(counted))] <= 40 and counted[-1] <= 60


def test_no_word_grades() -> None:
    text = page(shipped_made.book(), taught.URI).lower()
    assert not re.search(r"\b(verdict|score|grade|tier|badge|myth|proven|best)\b", text)


def test_what_was_answered_stands_open_and_the_rest_is_folded() -> None:
    text = page(shipped_made.book(), taught.URI)
    unfolded = re.sub(r"<details.*?</details>", "", text, flags=re.S)
    states = {re.search('data-state="(.*?)"', one)[1] for one in entries(unfolded)}  # type: ignore[index]
    assert states <= set(taught.OPEN)


@pytest.mark.browser
def test_it_narrows_and_is_no_taller_than_ten_screens(
    browser: Browser, shipped_address: str, shipped_site: Path
) -> None:
    for size in ({"width": 390, "height": 844}, {"width": 1366, "height": 900}):
        opened = browser.new_page(viewport=size, base_url=shipped_address)
        opened.goto("taught/")
        for path in ("gaps/", "taught/"):
            opened.goto(path)
            assert opened.evaluate("document.documentElement.scrollHeight") <= 10 * size["height"]
        opened.wait_for_selector("#taught-state")
        opened.select_option("#taught-state", "mixed")
        listed = opened.locator(".hb-teachings > li:visible")
        assert set(listed.evaluate_all("all => all.map(one => one.dataset.state)")) == {"mixed"}
        assert opened.locator('[data-part="count"]').inner_text() == f"{listed.count()} teachings."
        opened.select_option("#taught-state", "untested")
        opened.select_option("#taught-muscle", "chest")
        assert listed.count() > 5
        assert opened.locator("h2:visible").count() == 2  # the muscle, and how to read the page
        assert axe.violations(opened) == []
        opened.close()
