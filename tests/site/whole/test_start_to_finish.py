"""One way through the planning pages, with the example's first client: from a lagging part to the client's phone.

Outside sources: the icalendar library (RFC 5545) and Python's csv module (RFC 4180) read what the page makes; the predicted
maximum is a row of ``tests/reference/statistics.yaml``; WCAG 2.2 for reflow (1.4.10) and target size (2.5.8).
"""

from __future__ import annotations

import csv
import json
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

import icalendar
import pytest
import yaml
from folders import ROOT
from handout_site import visit

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page

pytestmark = pytest.mark.browser
PHONE: dict[str, Any] = {
    "viewport": {"width": 390, "height": 844},
    "device_scale_factor": 2,
    "is_mobile": True,
    "has_touch": True,
}
PART, ACCESSORY, DAYS = (
    "Semitendinosus",
    "Seated leg curl",
    ["Monday", "Tuesday", "Thursday", "Friday"],
)
#: The day that lies furthest from the Monday on which the part is trained.
DAY = "Thursday"


@pytest.fixture
def coach(browser: Browser, shipped_address: str) -> Iterator[Page]:
    with visit(browser, base_url=shipped_address, accept_downloads=True) as page:
        yield page


def with_the_accessory(coach: Page) -> int:
    """From the tour over What lags to the week that holds one accessory more; how many sets it got."""
    coach.goto("tour/")
    coach.locator('[data-tour="lagging"]').first.click()
    first = coach.locator("[data-part=proposals] article").first
    assert first.get_by_role("heading").inner_text() == ACCESSORY
    assert [day for day in DAYS if first.get_by_label(day).is_checked()] == [DAY]
    sets = int(first.get_by_label("Sets a day").input_value())
    for other in coach.locator("[data-part=proposals] article").all()[1:]:
        for ticked in other.get_by_role("checkbox").all():
            ticked.uncheck()
    coach.get_by_role("link", name="Into the week").click()
    coach.wait_for_url("**/week/**")
    coach.locator("[data-part=count] li.hb-count").first.wait_for()
    return sets


def counted(coach: Page) -> float:
    """The weekly sets of the lagging part."""
    muscle = coach.locator("[data-part=count] > li").filter(
        has=coach.locator("li").filter(has_text=PART)
    )
    told = muscle.locator("li").filter(has_text=PART).text_content() or ""
    return float(told.rpartition(":")[2])


def downloaded(coach: Page, button: str) -> Path:
    with coach.expect_download() as waiting:
        coach.get_by_role("button", name=button).click()
    return Path(waiting.value.path())


def test_from_a_lagging_part_to_the_clients_phone(
    coach: Page, browser: Browser, shipped_address: str
) -> None:
    coach.goto("tour/")
    coach.locator('[data-tour="week"]').first.click()
    coach.locator("[data-part=count] li.hb-count").first.wait_for()
    before = counted(coach)
    more = with_the_accessory(coach)
    assert more > 0 and counted(coach) == before + more
    sets = coach.get_by_label(f"Sets: {ACCESSORY}")
    sets.fill(str(more + 1))
    assert counted(coach) == before + more + 1
    assert coach.locator("[data-part=handouts] a").all_inner_texts() == [
        "One link for the week",
        *(f"{day} alone" for day in DAYS),
    ]
    link = coach.get_by_role("link", name=f"{DAY} alone").get_attribute("href")
    assert link and link.startswith(f"{shipped_address}handout/#2.")
    with visit(browser, **PHONE) as phone:
        phone.goto(link)
        sheet = phone.locator("main")
        sheet.get_by_role("link", name=f"3. {ACCESSORY}").wait_for()
        assert (
            f"{more + 1} sets of 8 to 12 repetitions" in sheet.inner_text()
            and "Stop, and tell your coach, if" in sheet.inner_text()
        )
        sheet.get_by_role("link", name=f"3. {ACCESSORY}").click()
        sheet.get_by_role("heading", name=f"3. {ACCESSORY}").wait_for()
        assert (
            phone.evaluate("document.documentElement.scrollWidth") <= 390
        )  # nothing to push sideways
        assert readable(phone.locator("main p:visible, main li:visible"))
        assert phone.locator("img:visible, svg:visible").count() >= 2  # start and finish


def readable(found: Locator) -> bool:
    """Whether all of it is set in at least 14 CSS pixels, a lower bound for text on a phone that was chosen here."""
    sizes = found.evaluate_all(
        "elements => elements.map((element) => parseFloat(getComputedStyle(element).fontSize))"
    )
    return bool(sizes) and min(sizes) >= 14


def test_the_load_follows_a_recent_set(coach: Page) -> None:
    """100 kg for five repetitions, six wanted, by rows of the reference table of predicted maxima."""
    table = yaml.load(
        (ROOT / "tests" / "reference" / "statistics.yaml").read_text(encoding="utf-8"),
        yaml.CSafeLoader,
    )
    [known] = [row for row in table["entries"] if row["id"] == "rm_brzycki_36_37"]
    maxima = dict(zip(known["inputs"]["reps"], known["expected"]["one_rm_kg"], strict=True))
    with_the_accessory(coach)
    coach.get_by_role("button", name="Reckon a load: ").first.click()
    for label, value in {
        "Load of a recent set": "100",
        "Repetitions done": "5",
        "Repetitions left then": "0",
        "Repetitions wanted": "6",
        "Repetitions left wanted": "0",
        "Bar; leave empty": "20",
        "One plate of each pair": "20 15 5",
    }.items():
        coach.get_by_label(label).fill(value)
    row = coach.locator("[data-part=guesses] tr").filter(
        has=coach.get_by_role("rowheader", name="Brzycki")
    )
    # By hand: 100 x 0.8333 to a tenth is 98.2, the middle 97.5; the bar holds 20, 30, 50, 60, 70, 90 or 100 kg.
    answer = coach.locator("[data-part=guesses]")
    assert answer.locator("p").first.inner_text() == "90 or 100 kg."
    assert answer.get_by_role("button").all_inner_texts() == ["Use 90 kg", "Use 100 kg"]
    answer.get_by_text("Why", exact=True).click()
    cells = row.locator("td").all_inner_texts()
    load = f"{100 * maxima[5] / maxima[6]:.1f} kg"
    assert cells == [load, f"{maxima[5]} kg", "1 to 10"]
    coach.get_by_label("Repetitions wanted").fill("5")  # the same set again: its load comes back
    assert answer.locator("p").first.inner_text() == "100 kg, as before: the dose is the same."


def test_a_saved_week_opens_again_elsewhere(
    coach: Page, browser: Browser, shipped_address: str
) -> None:
    with_the_accessory(coach)
    saved = downloaded(coach, "Save as a file")
    days = json.loads(saved.read_text(encoding="utf-8"))["days"]
    assert [bool(day) for day in days] == [True, True, False, True, True, False, False] and days[3][
        -1
    ]["exercise"] == "seated-leg-curl"
    with visit(browser, base_url=shipped_address) as other:
        other.goto("week/")
        other.locator("[data-part=hint]").wait_for()  # the tool is hidden until it is ready
        other.get_by_label("Open a saved file").set_input_files(saved)
        other.locator("[data-part=days] h3").first.wait_for()
        heads = other.locator("[data-part=days] h3").all_inner_texts()
        assert [head.split()[0] for head in heads] == DAYS
        assert counted(other) == counted(coach)
        assert (
            json.loads(downloaded(other, "Save as a file").read_text(encoding="utf-8"))["days"]
            == days
        )


def test_table_and_calendar_are_read_by_other_programs(coach: Page) -> None:
    sets = with_the_accessory(coach)
    with downloaded(coach, "Table (CSV)").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file, strict=True))
    assert list(dict.fromkeys(row["day"] for row in rows)) == DAYS
    last = [row for row in rows if row["day"] == DAY][-1]
    assert (last["exercise"], last["sets"], last["repetitions"]) == (
        ACCESSORY,
        str(sets),
        "8-12",
    )
    monday = date(2026, 12, 7)
    coach.get_by_label("The week of").fill((monday + timedelta(days=2)).isoformat())
    calendar = icalendar.Calendar.from_ical(downloaded(coach, "Calendar (.ics)").read_bytes())
    events = calendar.walk("VEVENT")
    assert [event.decoded("dtstart") - monday for event in events] == [
        timedelta(days=n) for n in (0, 1, 3, 4)
    ]
    assert str(events[2]["description"]).splitlines()[-1] == f"{ACCESSORY}: {sets} x 8-12"
    assert len({event["uid"] for event in events}) == len(DAYS)
