"""What a blind coach hears: the accessibility tree of the pages that are used most, word for word, and no page with something unnamed.

Outside sources: WAI-ARIA 1.2 for roles, states and what must have a name; Accessible Name and Description Computation 1.2 for the names;
WCAG 2.2, 1.1.1, 1.3.1, 2.1.1 and 4.1.2. Chromium computes all of it; ``spoken`` only writes it down.
After a wanted change run ``GOLDEN=write pytest -n0 tests/site/whole/test_spoken.py`` and read the difference aloud before committing it.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from handout_site import WEEK, link
from spoken import spoken
from week_links import week

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

pytestmark = pytest.mark.browser

GOLDEN = Path(__file__).with_name("spoken")
PHONE, LAPTOP = {"width": 390, "height": 844}, {"width": 1366, "height": 900}
#: Roles that say nothing without a name (WAI-ARIA 1.2: name required; landmarks where there may be several).
NAMED = re.compile(
    r"\s*(img|button|link|textbox|searchbox|combobox|listbox|checkbox|radio|option|radiogroup|table|dialog|region|navigation|search|heading"
    r"|spinbutton|slider|graphics-document|canvas|summary)( \(|\n| \[)"
)
KINDS = [
    "", "cautions/", "exercises/", "exercises/crate-curl/", "muscles/", "muscles/lantern/", "muscles/lantern/long-head/", "sources/",
    "sources/wick2030/", "methods/", "programme/", "taught/", "gaps/", "changes/", "data/", "rules/", "find/#part=lantern/long-head",
    "compare/#compare=crate-curl,cable-curl", "lagging/#parts=lantern/long-head", "tour/", "lessons/", f"week/#{week('crate-curl')}",
    "cues/crate-curl/", "handout/#add=crate-curl", "keep/", "404.html",
]  # fmt: skip


@pytest.fixture
def context(browser: Browser, demo_address: str) -> Iterator[BrowserContext]:
    with browser.new_context(
        base_url=demo_address, viewport=LAPTOP, service_workers="block", locale="en-GB"
    ) as made:
        yield made


def opened(page: Page, path: str) -> None:
    page.goto("about:blank")
    page.goto(path)
    page.wait_for_load_state("networkidle")


def an_open_mark(page: Page) -> None:
    opened(page, "")
    page.locator("td button, td [role=button]").first.press("Enter")
    page.get_by_role("dialog").wait_for()


def a_drawer(page: Page) -> None:
    page.set_viewport_size(PHONE)
    opened(page, "cautions/")
    page.get_by_role("button", name="All pages").press("Enter")


def a_week(page: Page) -> None:
    opened(page, f"week/#{week('crate-curl', 'cable-curl')}")
    page.locator(".hb-row").nth(1).wait_for()


def a_handout(page: Page) -> None:
    opened(page, link("handout/", WEEK))
    page.locator("html[data-print]").wait_for(state="attached")


#: Golden text -> what leads to it, and which part of the page it tells.
SCRIPTS: dict[str, tuple[Callable[[Page], None], str]] = {
    "frame": (lambda page: opened(page, "cautions/"), "header"),
    "frame-phone": (a_drawer, "body"),
    "map": (lambda page: opened(page, ""), "main"),
    "map-mark": (an_open_mark, "[popover]"),
    "answer-card": (lambda page: opened(page, "muscles/lantern/long-head/"), "main"),
    "exercise": (lambda page: opened(page, "exercises/crate-curl/"), "article"),
    "week-empty": (lambda page: opened(page, "week/"), "main"),
    "week": (a_week, "main"),
    "cue-sheet": (lambda page: opened(page, "cues/crate-curl/"), "body"),
    "handout": (a_handout, "body"),
    "handout-builder": (lambda page: opened(page, "handout/#add=crate-curl"), "body"),
}


@pytest.mark.parametrize("name", SCRIPTS)
def test_a_screen_reader_is_told(page: Page, demo_address: str, name: str) -> None:
    go, selector = SCRIPTS[name]
    go(page)
    text = spoken(page, selector).replace(demo_address, "https://handbook.example/")
    golden = GOLDEN / f"{name}.txt"
    if os.environ.get("GOLDEN") == "write":
        golden.parent.mkdir(exist_ok=True)
        golden.write_text(text, encoding="utf-8")
    assert text == golden.read_text(encoding="utf-8")


@pytest.mark.parametrize("path", KINDS)
def test_nothing_is_without_a_name_and_landmarks_can_be_told_apart(page: Page, path: str) -> None:
    opened(page, path)
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    lines = spoken(page).splitlines(keepends=True)
    # A table that its own scrolling region names is told by it.
    told = [
        line
        for before, line in pairwise(["", *lines])
        if not (before.strip().startswith("region: ") and line.strip() == "table")
    ]
    assert not [line for line in told if NAMED.match(line)]
    landmarks = [
        line.strip() for line in lines if re.match(r"\s*(navigation|region|search)\b", line)
    ]
    assert len(landmarks) == len(set(landmarks))
    assert sum(line.strip() == "main" for line in lines) == 1


def test_the_list_of_all_pages_opens_by_keyboard_and_is_no_hidden_stop(page: Page) -> None:
    """WCAG 2.2, 2.1.1 and 2.4.7: what is off the window takes no focus; Escape leads back to the button."""
    page.set_viewport_size(PHONE)
    opened(page, "exercises/crate-curl/")
    stops = """() => { const at = document.activeElement, box = at.getBoundingClientRect();
        return [at.className, box.left >= 0 && box.right <= innerWidth]; }"""
    for _ in range(8):
        page.keyboard.press("Tab")
        assert page.evaluate(stops)[1], page.evaluate(stops)
    opener = page.get_by_role("button", name="All pages")
    opener.press("Space")
    assert opener.get_attribute("aria-expanded") == "true"
    assert page.evaluate("document.activeElement.closest('.hb-drawer') !== null")
    page.keyboard.press("Escape")
    assert opener.get_attribute("aria-expanded") == "false"
    assert page.evaluate("document.activeElement.getAttribute('aria-label')") == "All pages"


def test_the_colours_that_are_chosen_are_told_as_chosen(page: Page) -> None:
    opened(page, "cautions/")
    page.get_by_role("radio", name="Follow the system's colours").focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    assert page.locator("body").get_attribute("data-md-color-scheme") == "slate"
    opened(page, "gaps/")
    assert page.get_by_role("radio", name="Use the dark colours").is_checked()
