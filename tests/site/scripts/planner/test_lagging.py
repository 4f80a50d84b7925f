"""What a coach does on the page Lagging part, by keyboard, in Chromium."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from handout_site import visit
from week_links import PART, week

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser


def test_parts_are_added_and_taken_out_by_keyboard(page: Page) -> None:
    page.goto("lagging/")
    parts, chosen = page.get_by_label("What lags"), page.locator("[data-part=chosen] li")
    for number, ref in enumerate([PART, "calf/soleus", "deltoid/spinal-part"], 1):
        parts.select_option(ref)
        page.get_by_role("button", name="Add this part").press("Enter")
        assert chosen.count() == number
    assert "Inner hamstring, top layer (Semitendinosus)" in chosen.first.inner_text()
    page.get_by_role("button", name="Remove Deep calf (Soleus)").press("Enter")
    assert chosen.count() == 2 and page.evaluate("document.activeElement.id") == "choice"
    assert page.locator("[data-part=at-hand]").inner_text() == "everything"
    assert not page.locator("[data-part=equipment]").is_visible()


def test_nothing_fits_and_one_press_helps(page: Page) -> None:
    page.goto(f"lagging/#parts={PART}&equipment=none&avoid=knee")
    page.get_by_role("button", name="With cable pulley: ").press("Enter")
    page.locator("[data-part=proposals] article").first.wait_for()
    assert "equipment=cable" in page.url
    page.get_by_text("Equipment at hand").click()
    page.get_by_role("button", name="Bands and dumbbells").press("Enter")
    assert (
        page.get_by_label("Elastic band").is_checked()
        and not page.get_by_label("Cable pulley").is_checked()
    )


def test_the_accessory_goes_to_the_chosen_day(page: Page) -> None:
    page.goto(f"lagging/#parts={PART}&{week('back-squat')}")
    add = page.locator("[data-part=proposals] a.hb-action").first
    assert add.inner_text().endswith("to Wednesday")  # the last day that holds anything
    page.get_by_label("Sets", exact=True).fill("4")
    page.get_by_label("Day", exact=True).select_option("Friday")
    assert add.inner_text() == "Add 4 sets to Friday"
    add.press("Enter")
    page.wait_for_url("**/week/#**")
    page.locator("[data-part=days] h3").nth(1).wait_for()
    heads = page.locator("[data-part=days] h3").all_inner_texts()
    assert [head.split()[0] for head in heads] == ["Wednesday", "Friday"]


def test_without_scripts_the_page_says_what_it_does(browser: Browser, address: str) -> None:
    with visit(browser, base_url=address, java_script_enabled=False) as page:
        page.goto("lagging/")
        assert (
            page.locator('[data-part="plain"]')
            .get_by_role("link", name="muscles")
            .get_attribute("href")
            == "../muscles/"
        )
        assert not page.locator('[data-part="tool"]').is_visible()
