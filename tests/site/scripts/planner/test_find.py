"""The page Find in Chromium keeps its state in the address.

What Find finds is tested in ``rules/test_finder.py``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import axe
import pytest
from handout_site import visit
from queries import drawn, queries

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


pytestmark = pytest.mark.browser
PHONE = {"viewport": {"width": 390, "height": 844}}


#: The query of each address that the script writes.
IN_PAGE = """async (queries) => {
    const { read, write } = await import(new URL('../scripts/rules/finder.js', location.href));
    const data = await (await fetch('../data/planner.json')).json();
    return queries.map((query) => read(data, write(query)));
}"""


def test_a_query_comes_back_from_its_address(page: Page, data: dict[str, Any]) -> None:
    asked = drawn(queries(data), 400)
    page.goto("find/")
    assert page.evaluate(IN_PAGE, asked) == asked


def test_find_keeps_its_state_in_the_address(page: Page) -> None:
    page.goto("find/")
    count = page.locator('[data-part="count"]')
    count.filter(has_text="fit").wait_for()
    everything = count.inner_text()
    page.get_by_label("Sides", exact=True).select_option("one")
    assert page.url.endswith("find/?sides=one") and count.inner_text() != everything
    page.get_by_label("Name or other name").fill("no such <b>name</b>")
    page.get_by_label("Name or other name").press("Enter")
    assert count.inner_text() == "No exercise fits."
    page.get_by_role("button", name="Without name").press("Enter")
    assert count.inner_text() not in (everything, "No exercise fits.")
    for _ in range(3):
        page.go_back()
    page.wait_for_url("**/find/")
    assert (
        count.inner_text() == everything
        and page.get_by_label("Sides", exact=True).input_value() == ""
    )


def test_without_scripts_the_page_says_what_it_does(browser: Browser, address: str) -> None:
    with visit(browser, base_url=address, java_script_enabled=False) as page:
        page.goto("find/")
        plain = page.locator('[data-part="plain"]')
        assert (
            plain.is_visible()
            and plain.get_by_role("link", name="exercises").get_attribute("href") == "../exercises/"
        )
        assert not page.locator('[data-part="tool"]').is_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", ["find/?part=hamstrings&kind=growth", "find/?name=none-such"])
def test_axe_finds_nothing_and_the_page_fits(
    browser: Browser, address: str, path: str, scheme: str
) -> None:
    with visit(browser, color_scheme=scheme, **PHONE) as page:
        page.goto(address + path)
        page.locator('[data-part="tool"]').wait_for()
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
        assert axe.violations(page) == []
