"""The evidence map in Chromium: by keyboard, with and without scripts, on a phone and on a laptop.

Accessibility is judged by axe-core (``axe``); that Escape closes a dialog and focus returns is what the ARIA Authoring Practices ask of one.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import axe
import pytest
from handout_site import Watched, once_more, visit, watch

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser
PHONE = {"viewport": {"width": 390, "height": 844}}
LAPTOP = {"viewport": {"width": 1366, "height": 900}}
#: Screens that a page may fill before it is narrowed.
MOST = 10
CURL = '[data-muscle="hamstrings"] tr[data-exercise="seated-leg-curl"] td'


@pytest.fixture(scope="module")
def opened(browser: Browser, shipped_address: str) -> Iterator[Watched]:
    with watch(browser, base_url=shipped_address, **LAPTOP) as watched:
        yield watched


@pytest.fixture
def page(opened: Watched) -> Iterator[Page]:
    with once_more(opened) as page:
        page.goto("")
        page.locator('[data-part="tools"]').wait_for()
        yield page


def focused(page: Page) -> str | None:
    return page.evaluate("document.activeElement.getAttribute('aria-label')")


def test_arrows_lead_through_a_table_that_takes_one_stop(page: Page) -> None:
    table = page.locator('table[data-muscle="quadriceps"]')
    assert table.locator('a[tabindex="0"]').count() == 1
    table.locator('a[tabindex="0"]').focus()
    first = focused(page)
    page.keyboard.press("ArrowDown")
    assert focused(page) != first
    page.keyboard.press("Control+Home")
    assert page.evaluate("document.activeElement.closest('thead') !== null")
    page.keyboard.press("ArrowDown")
    assert focused(page) == first
    page.keyboard.press("Home")
    assert page.evaluate("document.activeElement.closest('th').scope") == "row"
    page.keyboard.press("Tab")
    assert not page.evaluate("document.activeElement.closest('table')")
    page.keyboard.press("Shift+Tab")
    assert page.evaluate("document.activeElement.closest('th').scope") == "row"


def test_all_marks_are_reached_by_the_arrows(page: Page) -> None:
    """A snake over the rows: what no arrow reaches, no keyboard reaches."""
    missed = page.evaluate(
        """async () => {
        const { led } = await import(new URL('scripts/rules/evidence_map.js', location.href));
        const missed = [];
        for (const table of document.querySelectorAll('.hb-map__table')) {
          const rows = [...table.rows].map((row) => [...row.cells].map((cell) => cell.querySelector('a')));
          const cells = rows.map((row) => row.map(Boolean)), seen = new Set(), left = [[1, 0]];
          while (left.length) {
            const at = left.pop();
            if (seen.has(String(at))) continue;
            seen.add(String(at));
            for (const key of ['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight']) { const to = led(cells, at, key, false); if (to) left.push(to); }
          }
          rows.forEach((row, r) => row.forEach((link, c) => { if (link && !seen.has(`${r},${c}`)) missed.push(link.textContent); }));
        }
        return missed; }"""
    )
    assert missed == []


@pytest.mark.parametrize("key", ["Enter", "Space"])
def test_a_mark_opens_its_panel_and_escape_leads_back(page: Page, key: str) -> None:
    mark = page.locator(f"{CURL} a").first
    mark.focus()
    page.keyboard.press(key)
    panel = page.get_by_role("dialog", name="Seated leg curl: Biceps femoris long head")
    panel.wait_for()
    text = panel.inner_text()
    assert "Grew more" in text and "Certainty: " in text and " people." in text
    assert panel.evaluate("panel => panel.contains(document.activeElement)")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent").startswith("To its place")
    page.keyboard.press("Escape")
    panel.wait_for(state="hidden")
    assert focused(page) == mark.get_attribute("aria-label")


def test_a_panel_leads_to_a_place_that_is_there(page: Page) -> None:
    page.locator(f"{CURL} a").first.click()
    page.get_by_role("link", name="To its place").first.click()
    page.wait_for_url("**/exercises/**#claim-*")
    assert page.evaluate("document.querySelector(location.hash) !== null")


def test_a_mark_whose_words_cannot_be_had_leads_to_its_place(
    browser: Browser, shipped_address: str
) -> None:
    with browser.new_context(base_url=shipped_address, **LAPTOP) as context:  # type: ignore[arg-type]
        page = context.new_page()
        page.route("**/data/map/*.json", lambda route: route.abort())
        page.goto("")
        page.locator('[data-part="tools"]').wait_for()
        page.locator(f"{CURL} a").first.click()
        page.wait_for_url("**/exercises/**#claim-*")


def test_filters_leave_what_fits_and_count_it(page: Page, shipped_site: Path) -> None:
    facts = json.loads((shipped_site / "data/map/exercises.json").read_text(encoding="utf-8"))
    held = set(
        page.eval_on_selector_all("[data-exercise]", "all => all.map(one => one.dataset.exercise)")
    )
    count = page.locator('[data-part="count"]')
    page.get_by_text("Equipment: any").click()
    page.get_by_role("button", name="No equipment").click()
    fits = {id for id in held if not facts[id]["equipment"]}
    count.filter(has_text="shown").wait_for()
    assert count.inner_text() == f"{len(fits)} of {len(held)} exercises shown"
    page.get_by_text("Care: nothing").click()
    page.get_by_label("Shoulder", exact=True).check()
    fits = {id for id in fits if "shoulder" not in facts[id]["concerns"]}
    count.filter(has_text=f"{len(fits)} of").wait_for()
    left = page.eval_on_selector_all(
        "[data-exercise]:not([hidden])", "all => all.map(one => one.dataset.exercise)"
    )
    assert set(left) == fits
    assert page.url.endswith("#has=none&avoid=shoulder")
    page.locator(".hb-jump").get_by_text("Thigh", exact=True).click()
    assert count.inner_text() == f"{len(fits)} of {len(held)} exercises shown"
    page.get_by_role("button", name="Any", exact=True).click()
    page.get_by_label("Shoulder", exact=True).uncheck()
    assert count.inner_text() == ""
    assert not page.locator("[data-exercise][hidden]").count()


def test_what_was_asked_comes_back_with_the_address(browser: Browser, shipped_address: str) -> None:
    with visit(browser, base_url=shipped_address, **PHONE) as page:
        page.goto("#muscle=calf&has=dumbbell")
        page.locator('[data-part="count"]').filter(has_text="shown").wait_for()
        assert page.locator("#map-calf").is_visible()
        assert not page.locator("#map-gluteals table").is_visible()
        assert page.get_by_label("Dumbbell", exact=True).is_checked()


def test_a_phone_shows_one_muscle_and_its_first_marks_at_once(
    browser: Browser, shipped_address: str
) -> None:
    with visit(browser, base_url=shipped_address, **PHONE) as page:
        page.goto("")
        page.locator('[data-part="tools"]').wait_for()
        first = page.locator(".hb-block[open] td a").first.bounding_box()
        assert first and first["y"] + first["height"] < PHONE["viewport"]["height"]
        muscles = page.eval_on_selector_all(
            "#map-muscle option", "all => all.map(one => one.value)"
        )
        for muscle in muscles:
            page.get_by_label("Show", exact=True).select_option(muscle)
            assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
            assert page.evaluate("document.documentElement.scrollHeight / innerHeight") < MOST
            if muscle != "all":
                assert page.locator(f"#map-{muscle} table").is_visible()
                assert page.locator(".hb-block table:visible").count() == 1


def test_find_in_page_meets_blocks_that_a_phone_keeps_hidden(
    browser: Browser, shipped_address: str
) -> None:
    """Chromium looks into what is hidden until found and tells the page by ``beforematch`` (HTML standard, 6.1.2)."""
    with visit(browser, base_url=shipped_address, **PHONE) as page:
        page.goto("")
        page.locator('[data-part="tools"]').wait_for()
        assert page.locator("#map-calf").get_attribute("hidden") == "until-found"
        page.locator("#map-calf").evaluate("block => block.dispatchEvent(new Event('beforematch'))")
        assert page.locator("#map-calf table").is_visible()
        assert page.locator("#map-muscle").input_value() == "calf"


@pytest.mark.parametrize(
    "words", ["rectus femoris", "lats", "latissimus dorsi", "soleus", "triceps", "gluteus medius"]
)
def test_find_in_page_finds_both_names(page: Page, words: str) -> None:
    assert page.evaluate("words => window.find(words)", words)


@pytest.mark.parametrize("window", [PHONE, LAPTOP], ids=["phone", "laptop"])
def test_without_scripts_every_mark_is_a_link_and_the_page_stays_short(
    browser: Browser, shipped_address: str, window: dict[str, dict[str, int]]
) -> None:
    with browser.new_context(
        java_script_enabled=False, base_url=shipped_address, **window
    ) as context:  # type: ignore[arg-type]
        page = context.new_page()
        page.goto("")
        mark = page.locator(".hb-map__table td a").first
        box = mark.bounding_box()
        assert box and box["y"] + box["height"] < window["viewport"]["height"]
        assert not page.locator('[data-part="tools"]').is_visible()
        assert page.locator(".hb-jump a").first.is_visible()
        height = page.locator("html").bounding_box()
        assert height and height["height"] < MOST * window["viewport"]["height"]
        mark.click()
        assert "/exercises/" in page.url or "/muscles/" in page.url


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("window", [PHONE, LAPTOP], ids=["phone", "laptop"])
def test_axe_finds_nothing_and_the_page_fits(
    browser: Browser, shipped_address: str, window: dict[str, dict[str, int]], scheme: str
) -> None:
    with visit(browser, base_url=shipped_address, color_scheme=scheme, **window) as page:
        page.goto("")
        page.locator('[data-part="tools"]').wait_for()
        assert page.evaluate("document.documentElement.scrollHeight / innerHeight") < MOST
        for summary in page.locator('[data-part="tools"] summary').all():
            summary.click()
        page.locator(".hb-block[open] td a").first.click()
        page.get_by_role("dialog", name=":").wait_for()
        assert axe.violations(page) == []
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0


def test_the_page_is_light(shipped_site: Path) -> None:
    import gzip

    assert len(gzip.compress((shipped_site / "index.html").read_bytes(), 9)) <= 60_000
