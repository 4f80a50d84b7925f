"""The way through the handbook in Chromium: doors, the line of a section's pages, the way back, and where a link lands."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
import shipped_made

from build_tools.site.frame import doors

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

STEPS = ["Find", "Compare", "What lags", "Week", "Tour"]
WINDOWS = [(390, 844), (1366, 900), (1920, 1080)]
LINE = "nav.hb-doors"


@pytest.fixture(scope="module", params=["light", "dark"])
def page(request: pytest.FixtureRequest, browser: Browser, demo_address: str) -> Iterator[Page]:
    with browser.new_context(base_url=demo_address, color_scheme=request.param) as context:
        yield context.new_page()


def test_five_doors_for_coaches_and_one_for_contributors() -> None:
    """As the review of the handbook by its users asks; whoever adds a page puts it behind one of them."""
    made = shipped_made.book()
    nav = doors({page.uri for page in made.pages} | {file.uri for file in made.files}, made.written)
    assert [next(iter(door)) for door in nav] == [
        "Map",
        "Exercises",
        "Plan",
        "Evidence",
        "For clients",
        "Contribute",
    ]


@pytest.mark.parametrize("window", WINDOWS, ids=lambda w: str(w[0]))
@pytest.mark.parametrize("step", ["find", "compare", "lagging", "week", "tour"])
def test_planning_pages_show_their_steps(page: Page, window: tuple[int, int], step: str) -> None:
    page.set_viewport_size({"width": window[0], "height": window[1]})
    page.goto(f"{step}/")
    steps = page.locator(f"{LINE} ol a")
    assert steps.all_inner_texts() == STEPS
    for link in steps.all():
        box = link.bounding_box()
        assert box and 0 <= box["x"] <= window[0] - box["width"] and box["y"] < window[1] / 2
    [current] = page.locator(f"{LINE} [aria-current=page]").all()
    assert current.evaluate("a => a.href") == page.evaluate("location.href")
    weights = steps.evaluate_all("all => all.map(a => getComputedStyle(a).fontWeight)")
    assert sorted(set(weights)) == ["400", "600"] and weights.count("600") == 1
    title = page.locator("h1").bounding_box()
    assert title and title["y"] < (steps.first.bounding_box() or {})["y"]


def test_steps_are_reached_by_keyboard_and_left_out_of_print(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto("lagging/")
    page.locator(f"{LINE} a").first.focus()
    for name in STEPS[1:4]:
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.textContent") == name
    page.keyboard.press("Enter")
    page.wait_for_url("**/week/")
    assert page.locator(LINE).is_visible()
    page.emulate_media(media="print")
    assert not page.locator(LINE).is_visible()
    page.emulate_media(media="screen")


@pytest.mark.parametrize(
    ("path", "door", "line"),
    [
        ("", "Map", []),
        ("exercises/", "Exercises", ["Exercises", "Muscles"]),
        ("programme/", "Plan", [*STEPS, "Sets and loads"]),
        ("cautions/", "For clients", ["Cautions", "Handout"]),
        ("rules/", "Contribute", []),
    ],
)
def test_a_page_stands_behind_its_door(page: Page, path: str, door: str, line: list[str]) -> None:
    page.set_viewport_size({"width": 1366, "height": 900})
    page.goto(path)
    assert page.locator(".md-tabs__item--active").all_inner_texts() in ([door], [])
    assert page.locator(f"{LINE} a").all_inner_texts() == line
    if path:
        assert page.locator(".md-tabs__item--active").inner_text() == door


def test_evidence_leads_on_to_all_of_it(page: Page) -> None:
    page.goto("methods/")
    names = page.locator(f"{LINE} a").all_inner_texts()
    assert names == [
        "Taught and tested",
        "Gaps",
        "Since last time",
        "Lessons",
        "Sources",
        "Methods",
        "Data",
    ]
    page.get_by_role("navigation", name="Pages of this section").get_by_role(
        "link", name="Sources"
    ).click()
    assert page.locator(f"{LINE} [aria-current]").inner_text() == "Sources"


@pytest.mark.parametrize(
    ("path", "way", "door"),
    [
        ("exercises/crate-curl/", ["Exercises"], "Exercises"),
        ("muscles/lantern/", ["Muscles"], "Exercises"),
        ("muscles/lantern/long-head/", ["Muscles", "Lantern muscle"], "Exercises"),
        ("sources/wick2030/", ["Sources"], "Evidence"),
    ],
)
def test_an_entry_shows_the_way_back(page: Page, path: str, way: list[str], door: str) -> None:
    page.set_viewport_size({"width": 1366, "height": 900})
    page.goto(path)
    assert page.locator(".hb-way nav a").all_inner_texts() == way
    assert page.locator(".md-tabs__item--active").inner_text() == door


@pytest.mark.parametrize("width", [1366, 2600])
@pytest.mark.parametrize("path", ["methods/", "muscles/lantern/"])
def test_landing_on_an_anchor_marks_it_in_the_contents(page: Page, path: str, width: int) -> None:
    """The first and the last ones: a page is long enough below for each to come to the top."""
    page.set_viewport_size({"width": width, "height": 900})
    page.goto(path)
    anchors = page.eval_on_selector_all(
        ".md-nav--secondary a.md-nav__link", "links => links.map(a => a.hash)"
    )
    assert len(anchors) > 3
    for anchor in anchors[:2] + anchors[-3:]:
        page.goto("about:blank")
        page.goto(f"{path}{anchor}")
        page.wait_for_function(
            "anchor => [...document.querySelectorAll('.md-nav--secondary a.md-nav__link--active')].at(-1)?.hash === anchor",
            arg=anchor,
            timeout=3000,
        )


def test_a_long_page_says_what_it_holds_on_a_phone(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto("methods/")
    contents = page.locator(".hb-onpage")
    contents.locator("summary").press("Enter")
    contents.get_by_role("link", name="Conventions").click()
    assert page.url.endswith("#conventions")
    page.set_viewport_size({"width": 1366, "height": 900})
    assert not contents.is_visible()  # the theme's column is there
