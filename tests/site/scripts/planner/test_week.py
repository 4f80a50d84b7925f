"""What a coach does on the page Week, by keyboard, in Chromium; the loads are those of the embedded engine."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING

import axe
import pytest
import shipped_made
from handout_site import visit
from script_rules import loads
from week_links import link_of, week

from build_tools.handout import limits

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page

pytestmark = pytest.mark.browser

THREE_DAYS = {
    0: ["back-squat", "bench-press", "barbell-row", "romanian-deadlift", "dumbbell-lateral-raise"],
    2: ["conventional-deadlift", "overhead-press", "pull-up", "seated-leg-curl", "dumbbell-curl"],
    4: ["front-squat", "incline-bench-press", "dumbbell-row", "leg-extension", "cable-pushdown"],
}


def rows(page: Page) -> list[str]:
    return page.locator(".hb-row__name a").all_inner_texts()


def field(page: Page, name: str, label: str = "Load") -> Locator:
    return page.get_by_label(f"{label}: {name}", exact=True)


def add(page: Page, name: str) -> None:
    box = page.get_by_label("Add an exercise")
    box.fill(name)
    box.press("Enter")


def test_an_empty_week_shows_a_hint_only(page: Page) -> None:
    page.goto("week/")
    page.locator("[data-part=hint]").wait_for()
    assert page.locator("h2:visible").count() == 0
    add(page, "RDL")  # by another name
    assert page.locator("#days").is_visible() and not page.locator("[data-part=hint]").is_visible()
    assert rows(page) == ["Romanian deadlift"]
    counted = page.locator("[data-part=count] li.hb-count").first
    assert "3 sets" in counted.inner_text() and "Mon" in counted.inner_text()
    assert "below 10 to 20" in (counted.text_content() or "")  # in words, beside the line


def test_every_change_can_be_taken_back_and_made_again(page: Page) -> None:
    page.goto(f"week/#{week('back-squat', 'leg-extension')}")
    field(page, "Back squat").fill("60 kg")
    field(page, "Back squat", "Sets").fill("4")
    page.get_by_role("button", name="Remove: Leg extension").press("Enter")
    assert rows(page) == ["Back squat"]
    undo, redo = (page.get_by_role("button", name=name, exact=True) for name in ("Undo", "Redo"))
    undo.press("Enter")
    assert rows(page) == ["Back squat", "Leg extension"]
    assert field(page, "Back squat").input_value() == "60 kg"
    undo.press("Enter")
    undo.press("Enter")  # typing in one field is one step
    assert field(page, "Back squat").input_value() == ""
    assert undo.is_disabled()
    for _ in range(3):
        redo.press("Enter")
    assert rows(page) == ["Back squat"] and redo.is_disabled()
    assert field(page, "Back squat", "Sets").input_value() == "4"


def test_an_exercise_gives_way_to_the_nearest_and_keeps_its_dose(page: Page) -> None:
    page.goto(f"week/#{week('back-squat')}")
    field(page, "Back squat", "Repetitions").fill("5")
    page.get_by_role("button", name="Replace: Back squat").press("Enter")
    offered = page.locator(".hb-replace li")
    swaps = shipped_made.catalog().exercises["back-squat"].data.swaps
    names = [shipped_made.catalog().exercises[id].data.name for id in swaps]
    assert [text for text in offered.locator("button").all_inner_texts()][: len(names)] == names[:6]
    front = shipped_made.catalog().exercises[swaps[0]].data
    assert set(front.equipment) == {"barbell", "rack"}  # as the back squat's
    assert "The same job, with the same kit." in offered.first.inner_text()
    offered.locator("button").first.press("Enter")
    assert rows(page) == names[:1]
    assert field(page, names[0], "Repetitions").input_value() == "5"


def test_a_day_is_copied_and_a_row_moved(page: Page) -> None:
    page.goto(f"week/#{week('back-squat', 'leg-extension')}")
    page.get_by_label("Copy Wednesday to").select_option("Friday")
    days = page.locator(".hb-day h3")
    assert [text.split()[0] for text in days.all_inner_texts()] == ["Wednesday", "Friday"]
    assert rows(page) == ["Back squat", "Leg extension"] * 2
    page.get_by_text("More", exact=False).first.click()
    page.get_by_label("Move to another day: Back squat").first.select_option("Monday")
    assert rows(page) == ["Back squat", "Leg extension", "Back squat", "Leg extension"]
    assert days.first.inner_text().startswith("Monday")


def test_the_coach_says_what_a_main_lift_is(page: Page) -> None:
    page.goto(f"week/#{week('leg-extension', 'back-squat')}")
    remarks = page.locator("[data-part=remarks]")
    assert "stands before the back squat, a main lift" in remarks.inner_text()
    page.locator(".hb-row summary").nth(1).click()
    page.get_by_label("A main lift").nth(1).uncheck()
    assert "stands before" not in page.locator("[data-part=warned]").inner_text()
    page.reload()  # the word stays with the week
    page.locator(".hb-row").first.wait_for()
    assert "stands before" not in page.locator("[data-part=warned]").inner_text()


@pytest.mark.parametrize("unit", ["kg", "lb"])
def test_a_body_weight_lift_counts_the_body(page: Page, unit: str) -> None:
    page.goto(f"week/#{week('pull-up')}")
    page.get_by_role("button", name="Reckon a load: Pull-up").press("Enter")
    page.get_by_label("Unit").select_option(unit)
    for label, value in (
        ("Body mass", "80"),
        ("Load of a recent set", "10"),
        ("Repetitions done", "5"),
        ("Repetitions wanted", "8"),
        ("Repetitions left wanted", "2"),
    ):
        page.get_by_label(label).fill(value)
    answer = page.locator("[data-part=guesses]")
    # 86.4 moved five times, by Brzycki 36 / 32 and 36 / 27, by Lombardi 0.5 to a tenth; the body counts 76.4 of it. Smallest steps of the page.
    at_hand = {"kg": "Body weight or 2.5 kg added.", "lb": "Body weight or 5 lb added."}[unit]
    assert answer.locator("p").first.inner_text() == at_hand
    answer.get_by_text("Why", exact=True).click()
    hung = [86.4 * 27 / 32 - 76.4, 86.4 * 0.5**0.1 - 76.4]
    assert answer.locator("tbody tr td:nth-child(2)").all_inner_texts() == [
        f"{loads.told(abs(one))} {unit}{' help' if one < 0 else ''}" for one in hung
    ]
    page.get_by_label("Load of a recent set").fill("")  # nothing was added
    assert f"0 {unit} added" in answer.inner_text()


def test_the_answer_comes_first_and_its_reasons_lead_on(page: Page) -> None:
    page.goto(f"week/#{week('dumbbell-curl')}")
    page.get_by_role("button", name="Reckon a load: Dumbbell curl").press("Enter")
    answer = page.locator("[data-part=guesses]")
    assert (
        answer.inner_text().strip() == "Fill in the repetitions of a recent set, and those wanted."
    )
    for label, value in (
        ("Load of a recent set", "8"),
        ("Repetitions done", "12"),
        ("Repetitions left then", "2"),
        ("Repetitions wanted", "12"),
        ("Repetitions left wanted", "2"),
    ):
        page.get_by_label(label).fill(value)
    assert answer.inner_text().split("\n")[0] == "8 kg, as before: the dose is the same."
    page.get_by_label("Repetitions wanted").fill("15")
    assert answer.inner_text().startswith("7.5 kg, one step below 8 kg.")
    page.get_by_label("Repetitions done").fill("6")
    page.get_by_label("Repetitions wanted").fill("8")
    table = answer.locator("details")
    assert table.get_attribute("open") is None  # the table is folded behind the line
    table.locator("summary").press("Enter")
    table.get_by_role("link", name="Brzycki").press("Enter")
    page.wait_for_url("**/programme/#equation-brzycki")
    assert page.locator("#equation-brzycki a").first.get_attribute("href")


def test_a_reckoned_load_goes_into_its_row(page: Page) -> None:
    page.goto(f"week/#{week('back-squat', 'dumbbell-curl')}")
    page.get_by_role("button", name="Reckon a load: Dumbbell curl").press("Enter")
    assert page.get_by_label("Repetitions wanted").input_value() == "12"
    for label, value in (
        ("Load of a recent set", "10"),
        ("Repetitions done", "6"),
        ("Repetitions wanted", "8"),
        ("One plate of each pair", "8 10 12"),
    ):
        page.get_by_label(label).fill(value)
    use = page.get_by_role("button", name=re.compile("^Use ")).first
    load = use.inner_text().removeprefix("Use ")
    use.press("Enter")
    assert field(page, "Dumbbell curl").input_value() == load in {"8 kg", "10 kg"}
    assert field(page, "Back squat").input_value() == ""


def test_one_link_holds_the_week_with_its_loads(page: Page) -> None:
    page.goto(f"week/#{link_of(THREE_DAYS, load='20 kg')}")
    page.get_by_label("Your name on the handout").fill("A. Coach")
    links = page.locator("[data-part=handouts] a")
    assert links.all_inner_texts() == [
        "One link for the week",
        *(f"{day} alone" for day in ("Monday", "Wednesday", "Friday")),
    ]
    links.first.press("Enter")
    page.wait_for_url("**/handout/**")
    page.locator("[data-part=exercises] article").nth(14).wait_for(state="attached")
    assert "3 sets of 8 to 12 repetitions, 20\u00a0kg" in (
        page.locator("article").first.text_content() or ""
    )


def test_a_name_with_its_dose_is_one_line(page: Page) -> None:
    page.goto("week/")
    page.locator("[data-part=hint]").wait_for()
    page.get_by_label("Wednesday").check()
    add(page, "hip thruster 4x6-8 90 kg")  # as a coach says it
    assert rows(page) == ["Barbell hip thrust"]
    assert page.locator(".hb-day h3").inner_text().startswith("Wednesday")
    told = [
        field(page, "Barbell hip thrust", label).input_value()
        for label in ("Sets", "Repetitions", "Load")
    ]
    assert told == ["4", "6-8", "90 kg"]
    assert page.evaluate("document.activeElement.id") == "exercise"  # ready for the next
    page.keyboard.press("Control+z")  # nothing is being typed, so it is the change that goes
    assert rows(page) == []


def test_any_other_exercise_takes_the_place(page: Page) -> None:
    page.goto(f"week/#{week('back-squat')}")
    page.get_by_role("button", name="Replace: Back squat").press("Enter")
    other = page.get_by_label("Any other")
    other.fill("leg extension")
    other.press("Enter")
    assert rows(page) == ["Leg extension"]


def test_keys_move_a_row_and_the_browser_undoes_letters(page: Page) -> None:
    page.goto(f"week/#{week('back-squat', 'leg-extension')}")
    page.get_by_role("button", name="Replace: Leg extension").press("Alt+ArrowUp")
    assert rows(page) == ["Leg extension", "Back squat"]
    load = field(page, "Back squat")
    load.press_sequentially("20 kg")
    load.press("Control+z")
    assert load.input_value() != "20 kg" and rows(page) == ["Leg extension", "Back squat"]


def test_the_same_muscle_stands_in_the_same_place_under_one_range(page: Page) -> None:
    """Bands of muscles with the same range begin and end under the same mark of the scale."""
    page.goto(f"week/#{link_of(THREE_DAYS)}")
    bands = page.locator(
        "[data-part=count] .hb-count__line:not(.hb-count__line--open)"
    ).evaluate_all(
        """lines => lines.map((line) => { const band = line.firstElementChild.getBoundingClientRect();
        return [band.left, band.right].map(Math.round).join(); })"""
    )
    assert len(bands) > 5 and len(set(bands)) == 1


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 390, 1366])
def test_a_full_week_fits_and_axe_finds_nothing(
    browser: Browser, shipped_address: str, scheme: str, width: int
) -> None:
    """Judged by axe-core (Deque); 320 px is the width of WCAG 2.2's reflow (1.4.10)."""
    size = {"width": width, "height": 844}
    with visit(browser, base_url=shipped_address, color_scheme=scheme, viewport=size) as page:
        page.goto(f"week/#{link_of(THREE_DAYS, load='20 kg', rest=90)}")
        page.locator(".hb-row").nth(14).wait_for()
        page.evaluate("document.querySelectorAll('details').forEach((one) => one.open = true)")
        page.get_by_role("button", name="Replace: Back squat").press("Enter")
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert axe.violations(page) == []


def test_nothing_moves_while_the_page_opens(page: Page) -> None:
    """Cumulative layout shift of at most 0.1 (web.dev's bound for good)."""
    page.add_init_script(
        """window.moved = 0; new PerformanceObserver((list) => { for (const one of list.getEntries())
        if (!one.hadRecentInput) window.moved += one.value; }).observe({ type: "layout-shift", buffered: true });"""
    )
    page.goto(f"week/#{link_of(THREE_DAYS)}")
    page.locator(".hb-row").nth(14).wait_for()
    page.wait_for_timeout(500)
    assert page.evaluate("window.moved") <= 0.1


def test_too_much_care_for_a_link_is_said_and_never_cut(page: Page) -> None:
    concerns = sorted(shipped_made.catalog().vocabulary.data.concerns)[: limits.MOST_CONCERNS + 1]
    page.goto(f"week/#avoid={','.join(concerns)}&{week('back-squat')}")
    told = page.locator("[data-part=handouts]")
    told.get_by_text(f"at most {limits.MOST_CONCERNS} kinds of care").wait_for()
    assert told.locator("a").count() == 0


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_week_is_printed_on_one_page(page: Page, paper: str) -> None:
    """Five days of six exercises, with loads; pages are counted in Chromium's PDF."""
    day = [*THREE_DAYS[0], "standing-calf-raise"]
    page.goto(f"week/#{link_of(dict.fromkeys(range(5), day), load='20 kg')}")
    page.locator(".hb-row").nth(29).wait_for()
    pdf = page.pdf(format=paper, tagged=True)
    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) == 1
    assert len(re.findall(rb"/S\s*/H1\b", pdf)) == 1  # tagged PDF, ISO 32000-1, 14.8.4: a heading


def test_the_printed_sheet_begins_with_its_heading(page: Page) -> None:
    page.goto(f"week/#{week('back-squat')}")
    page.locator(".hb-row").wait_for()
    assert page.locator("h1:visible").all_inner_texts() == ["Week"]
    page.emulate_media(media="print")
    [heading] = page.get_by_role("heading", level=1).all_inner_texts()
    assert heading.startswith("Week of ")
    assert page.locator(".md-content").inner_text().startswith(heading)


def test_past_weeks_outlast_a_reload(page: Page) -> None:
    page.goto(f"week/#{link_of({0: ['back-squat']}, load='60 kg')}")
    page.get_by_text("Write down what was done").click()
    page.get_by_role("button", name="As planned: Back squat").press("Enter")
    page.get_by_role("button", name="See next week").press("Enter")
    page.get_by_role("button", name="Take this week over").press("Enter")
    page.reload()
    page.locator(".hb-row").first.wait_for()
    with page.expect_download() as got:
        page.get_by_role("button", name="Save as a file").press("Enter")
    saved = json.loads(got.value.path().read_text(encoding="utf-8"))
    assert [week["days"][0][0]["done"]["sets"] for week in saved["before"]] == [3]


def test_another_clients_week_gets_none_of_the_past_weeks(page: Page) -> None:
    """Two clients in one tab: the second one's link opens without the first one's history, and going back finds it again."""
    page.goto(f"week/#{link_of({0: ['back-squat']}, load='60 kg')}")
    page.get_by_text("Write down what was done").click()
    page.get_by_role("button", name="As planned: Back squat").press("Enter")
    page.get_by_role("button", name="See next week").press("Enter")
    page.get_by_role("button", name="Take this week over").press("Enter")
    first = page.url

    def past() -> int:
        page.locator(".hb-row").first.wait_for()
        with page.expect_download() as got:
            page.get_by_role("button", name="Save as a file").press("Enter")
        return len(json.loads(got.value.path().read_text(encoding="utf-8")).get("before", []))

    page.goto("about:blank")
    page.goto(f"week/#{link_of({1: ['dumbbell-curl']}, load='10 kg')}")
    assert past() == 0
    page.goto("about:blank")
    page.goto(first)
    assert past() == 1
    page.get_by_role("link", name="What lags?").press("Enter")
    page.wait_for_url("**/lagging/**")
    page.go_back()
    assert past() == 1


def test_without_scripts_the_page_says_what_it_does(browser: Browser, shipped_address: str) -> None:
    with visit(browser, base_url=shipped_address, java_script_enabled=False) as page:
        page.goto("week/")
        assert (
            page.locator('[data-part="plain"]')
            .get_by_role("link", name="exercises")
            .get_attribute("href")
            == "../exercises/"
        )
        assert not page.locator('[data-part="tool"]').is_visible()
