"""No page scrolls sideways: with words of 30 and 70 letters on a phone and a laptop, and with a root font twice as large.

320 CSS pixels are those of WCAG 2.2, 1.4.10 (reflow); twice as large text is its 1.4.4. The judge is Chromium's layout.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from poisoned_site import made, pages
from site_serving import serve

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = pytest.mark.browser

TWICE = "document.addEventListener('DOMContentLoaded', () => { document.documentElement.style.fontSize = '200%'; })"


#: What a visitor sees first, and all that can be unfolded.
STATES = {
    "as it comes": "() => {}",
    "unfolded": "() => { for (const fold of document.querySelectorAll('details')) fold.open = true; }",
}


def sideways(browser: Browser, site: Path, width: int, before: str = "") -> list[str]:
    """Pages wider than the window."""
    found = []
    with (
        serve(site) as address,
        browser.new_context(viewport={"width": width, "height": 800}) as context,
    ):
        if before:
            context.add_init_script(before)
        page = context.new_page()
        for path, html in pages(site):
            if "refresh" not in html:
                page.goto(f"{address}{path.removesuffix('index.html')}")
                page.wait_for_load_state("networkidle")
                for state, prepare in STATES.items():
                    page.evaluate(prepare)
                    wide = page.evaluate("document.documentElement.scrollWidth")
                    if wide > width:
                        found.append(f"{path}, {state}: {wide}")
    return found


@pytest.fixture(scope="module", params=[30, 70])
def unbreakable(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site with a word of so many letters in each text."""
    return made(tmp_path_factory.mktemp("wide"), ["b" * request.param])[0]


@pytest.mark.parametrize("width", [320, 1280])
def test_words_that_cannot_break_do_not_widen_a_page(
    browser: Browser, unbreakable: Path, width: int
) -> None:
    assert sideways(browser, unbreakable, width) == []


def test_a_root_font_twice_as_large_does_not_widen_a_page(
    browser: Browser, demo_site: Path
) -> None:
    assert sideways(browser, demo_site, 375, TWICE) == []


@pytest.mark.parametrize("path", ["", "muscles/gluteals/", "muscles/quadriceps/", "taught/"])
def test_tables_with_many_columns_move_by_themselves_if_letters_are_that_large(
    browser: Browser, shipped_address: str, path: str
) -> None:
    """The widest of the shipped catalog; the demo's have two columns."""
    with browser.new_context(viewport={"width": 375, "height": 800}) as context:
        context.add_init_script(TWICE)
        page = context.new_page()
        page.goto(shipped_address + path)
        page.wait_for_load_state("networkidle")
        assert page.evaluate("document.documentElement.scrollWidth") <= 375


def test_nothing_moves_where_motion_is_not_wanted(browser: Browser, demo_address: str) -> None:
    """Every fold open, "See it move" among them: no animation or transition is at work (Web Animations)."""
    running = """() => { for (const fold of document.querySelectorAll('details')) fold.open = true;
        return document.getAnimations().filter(({ playState }) => playState === 'running').length; }"""
    for motion, moves in (("no-preference", True), ("reduce", False)):
        with browser.new_context(base_url=demo_address, reduced_motion=motion) as context:
            page = context.new_page()
            page.goto("exercises/crate-curl/")
            assert bool(page.evaluate(running)) == moves
