"""Find answers in the browser as the Python reference does, over generated queries; both pages keep their state in the address."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict
from importlib import resources, util
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from handout_site import visit
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from site_serving import serve

from build_tools.planning.find import KINDS, NOTHING, Query, find, relaxed

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser
QUERIES = 400
COMPARED = "compare/?exercises=seated-leg-curl,prone-leg-curl"
#: Answers of the page's script, and whether the query comes back from its own address.
IN_PAGE = """async (queries) => {
    const { find, read, relaxed, write } = await import(new URL('../planner/core.js', location.href));
    const data = await (await fetch('../data/planner.json')).json();
    return queries.map((query) => [find(data, query), Object.fromEntries(relaxed(data, query)), read(data, write(query))]);
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


def queries(data: dict[str, Any]) -> st.SearchStrategy[Query]:
    """Queries of which many find something: little equipment finds little, so most ask for none."""
    names = sorted({word for one in data["exercises"].values() for name in (one["name"], *one["also"]) for word in name.split()})
    some = st.one_of(st.just(""), st.sampled_from(sorted([*data["parts"], *data["muscles"]])))
    kit = st.frozensets(st.sampled_from([NOTHING, *data["equipment"]]), max_size=len(data["equipment"]))
    return st.builds(
        Query, part=some, kind=st.sampled_from(["", "", *KINDS]), has=st.one_of(st.just(frozenset()), kit),
        position=st.sampled_from(["", "", "", *data["positions"]]), sides=st.sampled_from(["", "", "both", "one"]),
        avoid=st.frozensets(st.sampled_from(sorted(data["concerns"])), max_size=3),
        name=st.one_of(st.just(""), st.sampled_from(names), st.sampled_from(names).map(lambda word: f"{word[:3].upper()}é")))


def drawn(strategy: st.SearchStrategy[Query]) -> list[Query]:
    found: list[Query] = []

    @settings(max_examples=QUERIES, database=None, phases=[Phase.generate], suppress_health_check=list(HealthCheck))
    @given(strategy)
    def collect(query: Query) -> None:
        found.append(query)

    collect()
    return found


def as_json(query: Query) -> dict[str, Any]:
    return {key: sorted(value) if isinstance(value, frozenset) else value for key, value in asdict(query).items()}


def test_the_page_finds_what_the_reference_finds(page: Page, data: dict[str, Any]) -> None:
    asked = [Query(), *drawn(queries(data))]
    page.goto("find/")
    for query, (found, ways, again) in zip(asked, page.evaluate(IN_PAGE, [as_json(query) for query in asked]), strict=True):
        assert found == find(data, query), query
        assert ways == relaxed(data, query), query
        assert again == as_json(query)
    results = [len(find(data, query)) for query in asked]
    assert 0 in results and sum(map(bool, results)) > QUERIES / 10  # else nothing was compared


def test_less_equipment_and_more_care_never_add_an_exercise(data: dict[str, Any]) -> None:
    for query in drawn(queries(data)):
        found = set(find(data, query))
        for kit in query.has if len(query.has) > 1 else ():
            assert set(find(data, Query(**{**query.__dict__, "has": query.has - {kit}}))) <= found
        for concern in data["concerns"]:
            assert set(find(data, Query(**{**query.__dict__, "avoid": query.avoid | {concern}}))) <= found


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
    assert count.inner_text() == everything and page.get_by_label("Sides", exact=True).input_value() == ""


def test_compare_adds_and_removes_by_keyboard(page: Page) -> None:
    page.goto(COMPARED)
    page.get_by_role("heading", name="Load and length").wait_for()
    assert page.locator(".hb-overlay").count()
    dashes = page.eval_on_selector_all(".hb-sample path", "lines => lines.map(line => line.getAttribute('stroke-dasharray'))")
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
    expected = [one for one in data["statements"] if one.get("ratio") and {one["first"], one["second"]} == both]
    assert page.get_by_text("As a ratio:").count() == len(expected)
    ratio, low, high = (f"{value:.3g}" for value in told["ratio"])
    assert page.get_by_text(f"As a ratio: {ratio} ({low} to {high})").count()


@pytest.mark.parametrize("path", ["find/", "compare/"])
def test_without_scripts_the_page_says_what_it_does(browser: Browser, address: str, path: str) -> None:
    with visit(browser, base_url=address, java_script_enabled=False) as page:
        page.goto(path)
        plain = page.locator('[data-part="plain"]')
        assert plain.is_visible() and plain.get_by_role("link", name="exercises").get_attribute("href") == "../exercises/"
        assert not page.locator('[data-part="tool"]').is_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", ["find/?part=hamstrings&kind=growth", "find/?name=none-such", COMPARED, "compare/"])
def test_axe_finds_nothing_and_pages_fit(browser: Browser, address: str, path: str, scheme: str) -> None:
    if util.find_spec("axe_playwright_python") is None:
        pytest.skip("axe-core is missing; install axe-playwright-python")
    axe = (resources.files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")
    with visit(browser, base_url=address, color_scheme=scheme, viewport={"width": 390, "height": 844}) as page:
        page.goto(path)
        page.locator('[data-part="tool"]').wait_for()
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
        page.evaluate(axe)
        assert page.evaluate("axe.run().then(r => r.violations.map(v => [v.id, v.nodes.map(n => n.html.slice(0, 160))]))") == []
