"""Lists that stand whole on their pages, narrowed in Chromium. What fits is tested in ``rules/test_narrow.py``."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import axe
import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

pytestmark = pytest.mark.browser

RECORDS = "[All records]"  # a heading that holds no entries stays


@pytest.fixture
def context(browser: Browser, demo_address: str) -> Iterator[BrowserContext]:
    with browser.new_context(
        base_url=demo_address, viewport={"width": 390, "height": 844}, color_scheme="dark"
    ) as made:
        yield made


def seen(page: Page) -> list[str]:
    """Names of the entries that are shown, and headings in brackets."""
    return page.eval_on_selector_all(
        ".md-content h2, [data-entry] > a",
        "all => all.filter(e => e.offsetParent).map(e => e.tagName === 'H2' ? `[${e.firstChild.textContent}]` : e.textContent)",
    )


def test_sources_are_narrowed_and_the_address_can_be_passed_on(page: Page) -> None:
    page.goto("sources/")
    count = page.locator('[data-part="count"]')
    assert count.inner_text() == "4 sources"
    page.get_by_label("Measured").select_option("growth")
    assert page.url.endswith("sources/#outcome=growth")
    assert seen(page) == ["[D]", "Dusk & Wick 2032", "[W]", "Wick et al. 2030", RECORDS]
    page.get_by_label("Author, title, year").fill("Tap")  # an author whom the short name leaves out
    page.get_by_label("Author, title, year").press("Enter")
    assert (
        seen(page) == ["[W]", "Wick et al. 2030", RECORDS]
        and count.inner_text() == "1 of 4 sources"
    )
    assert axe.violations(page) == []
    address = page.url
    page.goto("about:blank")
    page.goto(address)
    assert seen(page) == ["[W]", "Wick et al. 2030", RECORDS]
    page.get_by_role("button", name="Show all").press("Enter")
    assert len(seen(page)) == 9 and page.url.endswith("sources/")


def test_a_letter_of_the_list_is_no_query(page: Page) -> None:
    page.goto("sources/")
    page.get_by_role("article").get_by_role("link", name="W", exact=True).click()
    assert page.url.endswith("#letter-w") and len(seen(page)) == 9


def test_exercises_are_found_by_another_name_and_by_equipment(page: Page) -> None:
    page.goto("exercises/#words=box")
    assert seen(page) == ["[Lamp]", "Crate curl"]
    page.goto("exercises/#equipment=cable")
    assert seen(page) == ["[Lamp]", "Standing cable curl"]


def test_a_rule_is_narrowed_with_all_that_stands_under_it(page: Page) -> None:
    page.goto("rules/#words=absolute-words")
    assert len(seen(page)) == 1
    assert page.locator(".md-content details:visible:not(.hb-onpage)").count() == 1
    page.goto("rules/#words=no such rule")
    assert seen(page) == [] and "None of" in page.locator('[data-part="count"]').inner_text()


@pytest.mark.parametrize("path", ["sources/", "exercises/", "rules/"])
def test_without_a_script_the_list_stands_whole(
    browser: Browser, demo_address: str, path: str
) -> None:
    with browser.new_context(base_url=demo_address, java_script_enabled=False) as context:
        page = context.new_page()
        page.goto(path)
        assert (
            page.locator("[data-entry]:visible").count() == page.locator("[data-entry]").count() > 1
        )
        assert not page.locator('[data-part="narrow"]').is_visible()
