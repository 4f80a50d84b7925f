"""The pages Find and Compare in Chromium: both keep their state in the address.

What Find finds is tested in tests/planning/test_finder.py.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from importlib import resources, util
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from handout_site import visit
from queries import drawn, queries
from site_serving import serve

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser
COMPARED = "compare/?exercises=seated-leg-curl,prone-leg-curl"
#: The query of each address that the script writes.
IN_PAGE = """async (queries) => {
    const { read, write } = await import(new URL('../scripts/rules/finder.js', location.href));
    const data = await (await fetch('../data/planner.json')).json();
    return queries.map((query) => read(data, write(query)));
}"""


@pytest.fixture(scope="module")
def data(shipped_site: Path) -> dict[str, Any]:
    return json.loads((shipped_site / "data/planner.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def address(shipped_site: Path) -> Iterator[str]:
    with serve(shipped_site) as at:
        yield at


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    with visit(browser, base_url=address) as page:
        yield page


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


@pytest.mark.parametrize("path", ["find/", "compare/"])
def test_without_scripts_the_page_says_what_it_does(
    browser: Browser, address: str, path: str
) -> None:
    with visit(browser, base_url=address, java_script_enabled=False) as page:
        page.goto(path)
        plain = page.locator('[data-part="plain"]')
        assert (
            plain.is_visible()
            and plain.get_by_role("link", name="exercises").get_attribute("href") == "../exercises/"
        )
        assert not page.locator('[data-part="tool"]').is_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(
    "path", ["find/?part=hamstrings&kind=growth", "find/?name=none-such", COMPARED, "compare/"]
)
def test_axe_finds_nothing_and_pages_fit(
    browser: Browser, address: str, path: str, scheme: str
) -> None:
    if util.find_spec("axe_playwright_python") is None:
        pytest.skip("axe-core is missing; install axe-playwright-python")
    axe = (resources.files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")
    with visit(
        browser, base_url=address, color_scheme=scheme, viewport={"width": 390, "height": 844}
    ) as page:
        page.goto(path)
        page.locator('[data-part="tool"]').wait_for()
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
        page.evaluate(axe)
        assert (
            page.evaluate(
                "axe.run().then(r => r.violations.map(v => [v.id, v.nodes.map(n => n.html.slice(0, 160))]))"
            )
            == []
        )
