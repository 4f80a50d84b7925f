"""What a coach does on the pages Lagging part and Week, by keyboard, in Chromium; the loads are those of the embedded engine."""

from __future__ import annotations

import json
from base64 import urlsafe_b64encode
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from folders import SHIPPED
from handout_site import visit
from script_rules import loads
from site_serving import serve

from build_tools.catalog.load import load
from build_tools.planning.planner_data import POUND

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser
PART = "hamstrings/semitendinosus"


@pytest.fixture(scope="module")
def address(shipped_site: Path) -> Iterator[str]:
    with serve(shipped_site) as at:
        yield at


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    with visit(browser, base_url=address) as page:
        yield page


def week(*exercises: str) -> str:
    """The fragment of a Wednesday with three sets of each."""
    rows: list[dict[str, Any]] = [
        {"exercise": id, "sets": 3, "repetitions": "8-12", "left": None, "rest": None}
        for id in exercises
    ]
    text = json.dumps(
        {"version": 1, "goal": "growth", "days": [[], [], rows, [], [], [], []]},
        separators=(",", ":"),
    )
    return f"week={urlsafe_b64encode(text.encode()).decode().rstrip('=')}"


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
    assert page.locator("[data-part=days] h3").all_inner_texts() == ["Wednesday", "Friday"]


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
    programme = load(SHIPPED, "catalog").programme
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


@pytest.mark.parametrize(("path", "link"), [("lagging/", "muscles"), ("week/", "exercises")])
def test_without_scripts_the_page_says_what_it_does(
    browser: Browser, address: str, path: str, link: str
) -> None:
    with visit(browser, base_url=address, java_script_enabled=False) as page:
        page.goto(path)
        assert (
            page.locator('[data-part="plain"]').get_by_role("link", name=link).get_attribute("href")
            == f"../{link}/"
        )
        assert not page.locator('[data-part="tool"]').is_visible()
