"""The page Compare in Chromium: what a coach reads of the comparisons of the review (issue 14), and that its state stands in the address.

What the studies found is written here from their papers, as the catalog's reviewers read them: maeo2021 (leg curls), maeo2022 (overhead
and pushdown), kinoshita2023 (calf raises), chaves2020 (incline and flat press), enes2024 (back and front squat).
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import axe
import pytest
from handout_site import visit

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


pytestmark = pytest.mark.browser
COMPARED = "compare/?exercises=seated-leg-curl,prone-leg-curl"
PHONE = {"viewport": {"width": 390, "height": 844}}
LAPTOP = {"viewport": {"width": 1366, "height": 900}}
#: Words before and with the right ones.
WORDS = 40
SHIFTS = """window.shifted = 0; new PerformanceObserver((list) => { for (const one of list.getEntries())
    if (!one.hadRecentInput) window.shifted += one.value; }).observe({ type: "layout-shift", buffered: true });"""
QUESTIONS = {
    "back-squat,front-squat,goblet-squat": "No clear difference in growth .*vastus lateralis",
    "seated-leg-curl,prone-leg-curl,standing-leg-curl": "Grew more with the seated leg curl .*long head of the biceps",
    "overhead-cable-extension,cable-pushdown": "Grew more with the overhead cable extension.*long head of the triceps",
    "standing-calf-raise,seated-calf-raise": "Grew more with the standing calf raise.*calf.*No clear difference.*the soleus",
    "incline-bench-press,bench-press": "Grew more with the incline bench press.*upper chest",
}


@pytest.mark.parametrize("ids", QUESTIONS)
def test_the_right_words_stand_first_on_one_screen(
    browser: Browser, shipped_address: str, ids: str
) -> None:
    """Without a click, within 40 words, with the figures and the first rows on one laptop screen, the page within three."""
    with visit(browser, base_url=shipped_address, **LAPTOP) as page:
        page.add_init_script(SHIFTS)
        page.goto(f"compare/?exercises={ids}")
        answer = page.locator('[data-part="answer"]')
        answer.locator("li").first.wait_for()
        words = " ".join(answer.inner_text().split()[:WORDS])
        assert re.search(QUESTIONS[ids], words), words
        figures, rows = page.locator(".hb-grid thead .hb-pose"), page.locator(".hb-grid tbody td")
        assert figures.count() == len(ids.split(","))
        for part in (answer, figures.first, rows.first):
            box = part.bounding_box()
            assert box and box["y"] + box["height"] <= 900
        assert page.evaluate("document.documentElement.scrollHeight") <= 3 * 900
        assert page.evaluate("window.shifted") <= 0.1


def test_a_null_is_shown_as_measured_and_blank_is_nobody(page: Page) -> None:
    page.goto("compare/?exercises=standing-calf-raise,seated-calf-raise")
    row = page.locator(".hb-grid tbody tr", has=page.get_by_role("link", name="Soleus", exact=True))
    row = row.first
    row.wait_for()
    assert "not shown to be more" in row.inner_text() and "a set" in row.inner_text()
    below = page.locator("tr", has_text="No clear difference in growth").last
    assert "3% lost to 9% gained" in below.inner_text()
    assert "p = 0.41" not in below.inner_text()  # one step below
    below.locator("summary").click()
    assert "p = 0.41" in below.inner_text()
    assert below.locator(".hb-bars--growth").count() == 1
    page.goto("compare/?exercises=seated-leg-curl,standing-leg-curl")
    blank = page.locator(".hb-grid tbody td", has_text="untested").first
    blank.wait_for()
    assert not blank.locator("svg").count()


def test_bars_of_activation_are_never_drawn_as_growth(page: Page) -> None:
    page.goto("compare/?exercises=incline-bench-press,bench-press")
    page.locator(".hb-bars--activation").first.wait_for()
    looks = page.eval_on_selector_all(
        ".hb-bars--activation rect, .hb-bars--difference rect, .hb-bars--growth rect",
        "all => all.map(one => [one.closest('svg').classList[1], getComputedStyle(one).fill, one.getAttribute('rx')])",
    )
    assert all(
        (fill == "none") and (round == "6") == (look == "hb-bars--activation")
        for look, fill, round in looks
        if look != "hb-bars--growth"
    )


def test_an_exercise_is_added_by_a_nickname_and_removed_by_keyboard(page: Page) -> None:
    page.goto(COMPARED)
    box = page.get_by_role("combobox", name="Add an exercise")
    box.fill("rdls")
    option = page.get_by_role("option", name="Romanian deadlift").first
    option.wait_for()
    box.press("ArrowDown")
    assert box.get_attribute("aria-activedescendant") == option.get_attribute("id")
    box.press("Enter")
    page.wait_for_url("**/compare/?exercises=seated-leg-curl,prone-leg-curl,romanian-deadlift")
    page.get_by_role("button", name="Remove Romanian deadlift").wait_for()
    page.get_by_role("button", name="Remove Prone leg curl").press("Enter")
    page.wait_for_url("**/compare/?exercises=seated-leg-curl,romanian-deadlift")
    box.fill("no such name")
    page.get_by_text("No exercise has this name.").wait_for()
    box.press("Escape")
    page.go_back()
    page.get_by_role("button", name="Remove Prone leg curl").wait_for()
    page.goto("compare/?exercises=seated-leg-curl")
    page.get_by_text("One exercise is chosen.").wait_for()


def shown(page: Page) -> list[int]:
    """Which posture each figure shows."""
    return page.eval_on_selector_all(
        ".hb-grid thead .hb-pose",
        "all => all.map(one => [...one.querySelectorAll('g')].findIndex(g => g.classList.contains('on')))",
    )


def test_figures_move_in_step_and_stop(page: Page) -> None:
    page.goto(COMPARED)
    page.get_by_role("button", name="Move in step").click()
    assert shown(page)[0] == 0 or len(set(shown(page))) == 1
    page.locator(".hb-pose .step.on").first.wait_for()
    seen = page.locator("thead .hb-pose .still").evaluate_all(
        "all => all.map((one) => getComputedStyle(one).visibility)"
    )
    assert set(seen) == {"visible"}
    page.get_by_role("button", name="Pause").click()
    still = shown(page)
    assert len(set(still)) == 1
    page.wait_for_timeout(500)
    assert shown(page) == still


def test_who_wants_little_motion_sees_start_and_finish(
    browser: Browser, shipped_address: str
) -> None:
    with visit(browser, base_url=shipped_address, reduced_motion="reduce") as page:
        page.goto(COMPARED)
        page.get_by_role("button", name="Show the finish").click()
        assert set(shown(page)) == {1}
        page.wait_for_timeout(500)
        assert set(shown(page)) == {1}
        page.get_by_role("button", name="Show the start").click()
        assert set(shown(page)) == {0}


def test_curves_have_dashes_and_their_names_apart(page: Page) -> None:
    page.goto("compare/?exercises=seated-leg-curl,prone-leg-curl,standing-leg-curl")
    figure = page.locator("figure", has_text="Biceps femoris short head").first
    figure.wait_for()
    dashes = figure.locator(".hb-plot__curve").evaluate_all(
        "lines => lines.map(line => line.getAttribute('stroke-dasharray'))"
    )
    assert len(set(dashes)) == len(dashes) == 3  # told apart without colour
    boxes = figure.locator(".hb-overlay__plot > svg:last-child text").evaluate_all(
        "all => all.map(one => one.getBoundingClientRect()).map(({ top, bottom }) => [top, bottom])"
    )
    for above, below in zip(sorted(boxes), sorted(boxes)[1:], strict=False):
        assert below[0] >= above[1] - 3  # line boxes hold some room of their own


def test_only_what_was_asked_is_fetched(browser: Browser, shipped_address: str) -> None:
    with visit(browser, base_url=shipped_address) as page:
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url.partition("/data/")[2]))
        page.goto(COMPARED)
        page.locator(".hb-grid").wait_for()
        assert sorted(filter(None, asked)) == [
            "compare/pairs/prone-leg-curl--seated-leg-curl.json",
            "compare/prone-leg-curl.json",
            "compare/seated-leg-curl.json",
            "names.json",
        ]


def test_without_scripts_the_page_says_what_it_does(browser: Browser, shipped_address: str) -> None:
    with visit(browser, base_url=shipped_address, java_script_enabled=False) as page:
        page.goto("compare/")
        plain = page.locator('[data-part="plain"]')
        assert (
            plain.is_visible()
            and plain.get_by_role("link", name="exercises").get_attribute("href") == "../exercises/"
        )
        assert not page.locator('[data-part="tool"]').is_visible()


@pytest.mark.parametrize("options", [LAPTOP, PHONE], ids=["laptop", "phone"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", [f"{COMPARED},back-squat", "compare/"])
def test_axe_finds_nothing_and_the_page_fits(
    browser: Browser, shipped_address: str, path: str, scheme: str, options: dict[str, object]
) -> None:
    with visit(browser, color_scheme=scheme, **options) as page:
        page.goto(shipped_address + path)
        page.locator('[data-part="tool"]').wait_for()
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
        assert axe.violations(page) == []
        page.locator("#compare-add").fill("curl")
        page.get_by_role("option").first.wait_for()
        assert axe.violations(page) == []
