"""The page Find in Chromium: nothing before it is asked, names of every kind, care told apart, and its state in the address.

What Find finds is tested in ``rules/test_finder.py``. Latin names are those of Terminologia Anatomica (FIPAT 2019).
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
LAPTOP = {"viewport": {"width": 1366, "height": 900}}
SHIFTS = """window.shifted = 0; new PerformanceObserver((list) => { for (const one of list.getEntries())
    if (!one.hadRecentInput) window.shifted += one.value; }).observe({ type: "layout-shift", buffered: true });"""


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


def test_nothing_is_listed_or_fetched_before_it_is_asked(
    browser: Browser, shipped_address: str
) -> None:
    with visit(browser, base_url=shipped_address, **LAPTOP) as page:
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url.partition("/data/")[2]))
        page.add_init_script(SHIFTS)
        page.goto("find/")
        page.get_by_text("Nothing is asked yet.").wait_for()
        assert not page.locator('[data-part="results"] > *').count()
        box = page.get_by_role("button", name="Show").bounding_box()
        assert box and box["y"] + box["height"] < 900  # the whole form on one screen
        assert list(filter(None, asked)) == ["names.json"]
        page.goto("find/?part=calf/soleus")
        page.locator(".hb-found-list li").first.wait_for()
        assert set(filter(None, asked)) == {"names.json", "find.json", "find/calf.json"}
        assert page.evaluate("window.shifted") <= 0.1


@pytest.mark.parametrize(
    ("typed", "ref"),
    [
        ("lats", "back/latissimus-dorsi"),
        ("glute med", "gluteals/gluteus-medius"),
        ("musculus soleus", "calf/soleus"),
        ("deep calf", "calf/soleus"),
        ("short head of the biceps femoris", "hamstrings/biceps-femoris-short-head"),
        ("upper chest", "chest/pectoralis-major-clavicular-part"),
        ("side delt", "deltoid/acromial-part"),
    ],
)
def test_a_part_is_found_by_the_names_of_coaches_clients_and_anatomists(
    page: Page, typed: str, ref: str
) -> None:
    page.goto("find/")
    box = page.get_by_role("combobox", name="Part or muscle")
    box.fill(typed)
    page.get_by_role("option").first.wait_for()
    box.press("Enter")
    page.wait_for_url(f"**/find/?part={ref}*")
    page.locator('[data-part="count"]').filter(has_text="fit").wait_for()


@pytest.mark.parametrize(
    ("typed", "name"), [("skullcrusher", "Lying triceps extension"), ("RDL", "Romanian deadlift")]
)
def test_an_exercise_is_found_by_its_nickname(page: Page, typed: str, name: str) -> None:
    page.goto("find/")
    page.get_by_label("Name or other name").fill(typed)
    page.get_by_role("option", name=name).first.wait_for()
    page.locator(".hb-found-list").get_by_role("link", name=name).first.wait_for()


def test_results_are_name_mark_and_one_statement(page: Page) -> None:
    page.goto("find/?part=hamstrings/biceps-femoris-short-head")
    group = page.get_by_role("heading", name="Growth measured, not shown to be more")
    group.wait_for()
    assert group.locator("svg.hb-sign--growth").count() == 1
    rows = page.locator(".hb-found-list li")
    assert rows.filter(has_text="Prone leg curl").filter(has_text="No clear difference").count()
    assert not page.get_by_role("heading", name="Grew more", exact=False).count()  # nothing did


def test_care_is_told_apart_with_what_to_do_instead(page: Page) -> None:
    page.goto("find/?part=deltoid/acromial-part&avoid=shoulder")
    page.get_by_role("heading", name="Only with care").wait_for()
    assert "more only with care" in page.locator('[data-part="count"]').inner_text()
    row = page.locator("li", has_text="Dumbbell lateral raise")
    assert "Instead" in row.inner_text() and "Stop if" in row.inner_text()


def test_a_kit_sets_its_things(page: Page) -> None:
    page.goto("find/")
    page.get_by_label("Bands and dumbbells").check()
    page.wait_for_url("**/find/?has=band,dumbbell,high-anchor,low-anchor")
    page.get_by_label("Anything", exact=True).check()
    page.wait_for_url("**/find/")
    page.goto("find/?has=cable")  # an old link to things that are no kit
    page.get_by_label("Cable pulley").wait_for()
    assert page.get_by_label("Cable pulley").is_checked()


def test_find_keeps_its_state_in_the_address(page: Page) -> None:
    page.goto("find/")
    count = page.locator('[data-part="count"]')
    page.get_by_text("Evidence, position, sides").click()
    page.get_by_label("Sides", exact=True).select_option("one")
    count.filter(has_text="fit").wait_for()
    assert page.url.endswith("find/?sides=one")
    one_side = count.inner_text()
    page.get_by_label("Name or other name").fill("no such <b>name</b>")
    page.get_by_label("Name or other name").press("Enter")
    count.filter(has_text="No exercise fits.").wait_for()
    page.get_by_role("button", name="Without name").press("Enter")
    count.filter(has_text=one_side).wait_for()
    for _ in range(3):
        page.go_back()
    page.wait_for_url("**/find/")
    page.get_by_text("Nothing is asked yet.").wait_for()
    assert page.get_by_label("Sides", exact=True).input_value() == ""


def test_without_scripts_the_page_says_what_it_does(browser: Browser, shipped_address: str) -> None:
    with visit(browser, base_url=shipped_address, java_script_enabled=False) as page:
        page.goto("find/")
        plain = page.locator('[data-part="plain"]')
        assert (
            plain.is_visible()
            and plain.get_by_role("link", name="exercises").get_attribute("href") == "../exercises/"
        )
        assert not page.locator('[data-part="tool"]').is_visible()


@pytest.mark.parametrize("options", [LAPTOP, PHONE], ids=["laptop", "phone"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", ["find/?part=hamstrings&avoid=knee", "find/?name=none-such"])
def test_axe_finds_nothing_and_the_page_fits(
    browser: Browser, shipped_address: str, path: str, scheme: str, options: dict[str, object]
) -> None:
    with visit(browser, color_scheme=scheme, **options) as page:
        page.goto(shipped_address + path)
        page.locator('[data-part="tool"]').wait_for()
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
        assert axe.violations(page) == []
        page.locator("#find-part").fill("calf")
        page.get_by_role("option").first.wait_for()
        assert axe.violations(page) == []
