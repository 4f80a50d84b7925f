"""What a coach does on the page Week, by keyboard, in Chromium; the loads are those of the embedded engine."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
import shipped_made
from handout_site import visit
from script_rules import loads
from week_links import week

from build_tools.planning.planner_data import POUND

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser


def test_an_empty_week_shows_a_hint_only(page: Page) -> None:
    page.goto("week/")
    page.locator("[data-part=hint]").wait_for()
    assert page.locator("h2:visible").count() == 0
    page.get_by_label("Exercise", exact=True).fill("Back squat")
    page.get_by_label("Exercise", exact=True).press("Enter")
    assert page.locator("#days").is_visible() and not page.locator("[data-part=hint]").is_visible()
    below = page.locator("[data-part=count] tbody tr").first.locator("td")
    assert below.all_inner_texts()[1:] == ["Below", "Mon"]  # in words, beside the number


@pytest.mark.parametrize("unit", ["kg", "lb"])
def test_a_body_weight_lift_counts_the_body(page: Page, unit: str) -> None:
    page.goto(f"week/#{week('pull-up')}")
    page.get_by_label("Unit").select_option(unit)
    for label, value in (
        ("Body mass", "80"),
        ("Load of a recent set", "10"),
        ("Repetitions done", "5"),
        ("Repetitions wanted", "8"),
    ):
        page.get_by_label(label).fill(value)
    programme = shipped_made.catalog().programme
    assert programme
    scale = {"kg": 1, "lb": POUND}[unit]
    mass, added = 80 * scale, 10 * scale
    equations = {
        id: equation.model_dump(mode="json")
        for id, equation in programme.data.load_prediction.equations.items()
    }
    expected = []
    for guess in loads.guesses(equations, "pull-up", 5, mass * 0.955 + added, 8 + 2):
        hung = (guess["load"] - mass * 0.955) / scale
        expected.append(f"{'add' if hung >= 0 else 'help of'} {loads.told(abs(hung))} {unit}")
    assert (
        page.locator("[data-part=guesses] tbody tr td:nth-child(2)").all_inner_texts() == expected
    )
    page.get_by_label("Load of a recent set").fill("")  # nothing was added
    assert "0 " + unit + " added" in page.locator("[data-part=guesses] p").inner_text()


def test_without_scripts_the_page_says_what_it_does(browser: Browser, address: str) -> None:
    with visit(browser, base_url=address, java_script_enabled=False) as page:
        page.goto("week/")
        assert (
            page.locator('[data-part="plain"]')
            .get_by_role("link", name="exercises")
            .get_attribute("href")
            == "../exercises/"
        )
        assert not page.locator('[data-part="tool"]').is_visible()
