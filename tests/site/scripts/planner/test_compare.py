"""The page Compare in Chromium keeps its state in the address."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import axe
import pytest
from handout_site import visit

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


pytestmark = pytest.mark.browser
COMPARED = "compare/?exercises=seated-leg-curl,prone-leg-curl"
PHONE = {"viewport": {"width": 390, "height": 844}}


def test_compare_adds_and_removes_by_keyboard(page: Page) -> None:
    page.goto(COMPARED)
    page.get_by_role("heading", name="Load and length").wait_for()
    assert page.locator(".hb-overlay").count()
    dashes = page.eval_on_selector_all(
        ".hb-sample path", "lines => lines.map(line => line.getAttribute('stroke-dasharray'))"
    )
    assert len(set(dashes)) == 2  # told apart without colour
    page.get_by_role("button", name="Remove Prone leg curl").press("Enter")
    page.get_by_text("One exercise is chosen.").wait_for()
    page.locator("#compare-add").select_option("romanian-deadlift")
    page.get_by_role("button", name="Add", exact=True).press("Enter")
    page.wait_for_url("**/compare/?exercises=seated-leg-curl,romanian-deadlift")
    page.go_back()
    page.get_by_text("One exercise is chosen.").wait_for()


def test_compare_shows_each_interval_of_the_pair(page: Page, data: dict[str, Any]) -> None:
    told = next(one for one in data["statements"] if one.get("ratio"))
    page.goto(f"compare/?exercises={told['first']},{told['second']}")
    page.get_by_text(told["sentence"]).first.wait_for()
    both = {told["first"], told["second"]}
    expected = [
        one
        for one in data["statements"]
        if one.get("ratio") and {one["first"], one["second"]} == both
    ]
    assert page.get_by_text("As a ratio:").count() == len(expected)
    ratio, low, high = (f"{value:.3g}" for value in told["ratio"])
    assert page.get_by_text(f"As a ratio: {ratio} ({low} to {high})").count()


def test_without_scripts_the_page_says_what_it_does(browser: Browser, address: str) -> None:
    with visit(browser, base_url=address, java_script_enabled=False) as page:
        page.goto("compare/")
        plain = page.locator('[data-part="plain"]')
        assert (
            plain.is_visible()
            and plain.get_by_role("link", name="exercises").get_attribute("href") == "../exercises/"
        )
        assert not page.locator('[data-part="tool"]').is_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", [COMPARED, "compare/"])
def test_axe_finds_nothing_and_the_page_fits(
    browser: Browser, address: str, path: str, scheme: str
) -> None:
    with visit(browser, color_scheme=scheme, **PHONE) as page:
        page.goto(address + path)
        page.locator('[data-part="tool"]').wait_for()
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
        assert axe.violations(page) == []
