"""The search field in a browser, over the shipped catalog: typing, keyboard, names for assistive technology, and what is sent.

Outside sources: the ARIA Authoring Practices' pattern of an editable combobox with a list (roles, states and keys); axe-core for WCAG 2.2.
"""

from __future__ import annotations

import gzip
import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import axe
import pytest
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page

pytestmark = pytest.mark.browser
LAPTOP, PHONE = {"width": 1366, "height": 900}, {"width": 390, "height": 844}


@pytest.fixture(params=["light", "dark"], scope="module")
def opened(
    request: pytest.FixtureRequest, browser: Browser, shipped_address: str
) -> Iterator[tuple[Page, list[str]]]:
    with browser.new_context(base_url=shipped_address, color_scheme=request.param) as context:
        page, wrong = context.new_page(), []
        page.on(
            "console",
            lambda told: wrong.append(told.text) if told.type in ("error", "warning") else None,
        )
        page.on("pageerror", lambda error: wrong.append(str(error)))
        yield page, wrong


@pytest.fixture
def page(opened: tuple[Page, list[str]]) -> Iterator[Page]:
    """A page on which nothing may go wrong."""
    page, wrong = opened
    page.set_viewport_size(LAPTOP)
    page.goto("methods/")
    yield page
    found, wrong[:] = list(wrong), []
    assert found == []


def field(page: Page) -> Locator:
    return page.get_by_role("combobox", name="Search")


def results(page: Page) -> Locator:
    return page.get_by_role("listbox", name="Search results").get_by_role("option")


def typed(page: Page, text: str) -> Locator:
    """Type as a reader does, after a slash; answers the results."""
    page.keyboard.press("/")
    page.keyboard.type(text, delay=10)
    return results(page)


def test_a_nickname_is_typed_and_opened_by_keys_alone(page: Page) -> None:
    found = typed(page, "RDL")
    expect(found.first).to_contain_text("Romanian deadlift")
    expect(field(page)).to_be_focused()
    expect(field(page)).to_have_attribute("aria-expanded", "true")
    expect(found.first).to_have_attribute("aria-selected", "true")
    expect(field(page)).to_have_attribute(
        "aria-activedescendant", found.first.get_attribute("id") or ""
    )
    page.keyboard.press("ArrowDown")
    expect(found.nth(1)).to_have_attribute("aria-selected", "true")
    expect(found.first).to_have_attribute("aria-selected", "false")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Enter")
    page.wait_for_url("**/exercises/romanian-deadlift/")


def test_enter_means_what_stands_in_the_field_however_fast_it_was_typed(page: Page) -> None:
    page.keyboard.press("/")
    page.keyboard.insert_text("skullcrusher")
    page.keyboard.press("Enter")
    page.wait_for_url("**/exercises/lying-triceps-extension/")


def test_escape_closes_then_empties_then_leaves(page: Page) -> None:
    typed(page, "soleus")
    expect(results(page).first).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.locator(".hb-search__panel")).to_be_hidden()
    expect(field(page)).to_have_attribute("aria-expanded", "false")
    expect(field(page)).to_have_value("soleus")
    page.keyboard.press("Escape")
    expect(field(page)).to_have_value("")
    page.keyboard.press("Escape")
    expect(field(page)).not_to_be_focused()


def test_a_missing_name_says_so_and_enter_opens_nothing(page: Page) -> None:
    typed(page, "zercher squat")
    told = page.get_by_role("status").filter(has_text="Not in the handbook")
    expect(told).to_contain_text("nearest: ")
    address = page.url
    page.keyboard.press("Enter")
    page.wait_for_timeout(200)
    assert page.url == address


def test_a_sore_knee_leads_to_the_cautions_on_it(page: Page) -> None:
    typed(page, "knee pain").first.click()
    page.wait_for_url("**/cautions/#concern-knee")
    expect(page.locator("#concern-knee")).to_be_in_viewport()


@pytest.mark.parametrize("size", [LAPTOP, PHONE], ids=["laptop", "phone"])
@pytest.mark.parametrize("query", ["hamstring", "kettlebell swing"])
def test_axe_finds_nothing_in_the_open_list(page: Page, query: str, size: dict[str, int]) -> None:
    page.set_viewport_size(size)
    found = typed(page, query)
    expect(found.first).to_be_visible()
    expect(page.get_by_role("status").filter(has_text=re.compile("result|Not in"))).to_be_visible()
    assert axe.violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0


def test_on_a_phone_a_button_opens_the_field_over_the_header(page: Page) -> None:
    page.set_viewport_size(PHONE)
    expect(field(page)).to_be_hidden()
    page.get_by_role("button", name="Search").click()
    expect(field(page)).to_be_focused()
    page.keyboard.type("glute bridge")
    expect(results(page).first).to_contain_text("Bent-knee bridge")
    box = results(page).first.bounding_box()
    assert box and box["height"] >= 24 and box["width"] > 300  # WCAG 2.2, 2.5.8
    page.get_by_role("button", name="Close").click()
    expect(field(page)).to_be_hidden()


def test_forced_colours_show_the_chosen_result(browser: Browser, shipped_address: str) -> None:
    with browser.new_context(base_url=shipped_address, forced_colors="active") as context:
        page = context.new_page()
        page.goto("methods/")
        found = typed(page, "hamstring")
        expect(found.nth(1)).to_be_visible()
        colours = [
            one.evaluate("element => getComputedStyle(element).backgroundColor")
            for one in (found.first, found.nth(1))
        ]
        assert colours[0] != colours[1]


def test_without_scripts_there_is_no_field(browser: Browser, shipped_address: str) -> None:
    with browser.new_context(base_url=shipped_address, java_script_enabled=False) as context:
        page = context.new_page()
        page.goto("methods/")
        expect(page.locator(".hb-search")).to_be_hidden()


def test_little_is_sent_before_the_first_result(
    browser: Browser, shipped_address: str, shipped_site: Path
) -> None:
    """Nothing of the index before the field is used; then at most 150 kB, as a host sends it (gzip), with all scripts."""
    with browser.new_context(base_url=shipped_address) as context:
        page, asked = context.new_page(), []
        page.on("request", lambda request: asked.append(urlsplit(request.url).path.lstrip("/")))
        page.goto("methods/", wait_until="networkidle")
        assert not [path for path in asked if path.startswith("search/")]
        before = [path for path in asked if path.startswith("scripts/")]
        asked.clear()
        expect(typed(page, "bulgrian split squat").first).to_contain_text("split squat")
        files = [path for path in [*before, *asked] if path.startswith(("scripts/", "search/"))]
        assert (
            sum(len(gzip.compress((shipped_site / path).read_bytes())) for path in files) < 150_000
        )
