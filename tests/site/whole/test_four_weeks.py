"""Four weeks of a client, as a coach lives them: plan, do, go on by the cited rule, swap, an easy week, a phone, a sheet of paper.

Outside sources: the position stand on progression (Ratamess and others 2009, doi 10.1249/MSS.0b013e3181915670: 2 to 10% more once one or two
repetitions above the target are possible), by which the loads below are reckoned by hand; Python's csv module reads the table; pages are
counted in Chromium's PDF.
"""

from __future__ import annotations

import csv
import json
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from handout_site import visit
from week_links import link_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser
PHONE: dict[str, Any] = {
    "viewport": {"width": 390, "height": 844},
    "is_mobile": True,
    "has_touch": True,
}
SQUAT, CURL = "Back squat", "Dumbbell curl"


def opened(page: Page, file: Path) -> None:
    """Last week's file, on a page that knows nothing of it."""
    page.goto("week/")
    page.locator("[data-part=hint]").wait_for()
    page.get_by_label("Open a saved file").set_input_files(file)
    page.locator(".hb-row").first.wait_for()


def saved(page: Page, to: Path) -> dict[str, Any]:
    with page.expect_download() as got:
        page.get_by_role("button", name="Save as a file").click()
    got.value.save_as(to)
    data: dict[str, Any] = json.loads(to.read_text(encoding="utf-8"))
    return data


def wrote(page: Page, name: str, repetitions: int, left: int) -> None:
    """What was done of an exercise, beside what was planned."""
    page.get_by_role("button", name=f"As planned: {name}").click()
    page.get_by_label(f"Fewest repetitions: {name}").fill(str(repetitions))
    page.get_by_label(f"Left then: {name}").fill(str(left))
    page.get_by_label(f"Left then: {name}").press("Tab")


def went_on(page: Page, button: str = "See next week") -> str:
    page.get_by_role("button", name=button).click()
    told = page.locator("[data-part=next-lines]").inner_text()
    page.get_by_role("button", name="Take this week over").click()
    return told


def load(page: Page, name: str) -> str:
    return page.get_by_label(f"Load: {name}", exact=True).input_value()


def test_four_weeks(browser: Browser, shipped_address: str, tmp_path: Path) -> None:
    file = tmp_path / "week.json"
    with visit(browser, base_url=shipped_address, accept_downloads=True) as coach:
        # First week: planned with loads, the file goes home.
        coach.goto(f"week/#{link_of({0: ['back-squat', 'dumbbell-curl']}, left=2)}")
        coach.get_by_label(f"Load: {SQUAT}", exact=True).fill("60 kg")
        coach.get_by_label(f"Load: {CURL}", exact=True).fill("10 kg")
        coach.get_by_label("The week of").fill("2026-12-09")  # a Wednesday
        assert saved(coach, file)["monday"] == "2026-12-07"
    with visit(browser, base_url=shipped_address, accept_downloads=True) as coach:
        # Second week, another day, another browser: 12 with 3 left is one more than 12 with 2 left.
        opened(coach, file)
        coach.get_by_text("Write down what was done").click()
        wrote(coach, SQUAT, 12, 3)
        wrote(coach, CURL, 12, 3)
        told = went_on(coach)
        assert load(coach, SQUAT) == "62.5 kg" and "4.2% more" in told
        # 12.5 kg would be a quarter more: repetitions instead.
        assert load(coach, CURL) == "10 kg" and "25% more" in told
        assert coach.get_by_label(f"Repetitions: {CURL}", exact=True).input_value() == "8-13"
        # The bench is taken on Tuesday nights: another lift in its place.
        coach.get_by_role("button", name=f"Replace: {CURL}").click()
        coach.locator(".hb-replace button").first.click()
        swapped = coach.locator(".hb-row__name a").nth(1).inner_text()
        assert swapped != CURL and load(coach, swapped) == ""
        data = saved(coach, file)
        assert [week["monday"] for week in data["before"]] == ["2026-12-07"]
        coach.get_by_label("Your name on the handout").fill("A. Coach")
        link = coach.get_by_role("link", name="Monday alone").get_attribute("href")
    assert link
    with visit(browser, **PHONE) as phone:
        phone.goto(link)
        phone.get_by_text("Stop, and tell your coach").first.wait_for()
        assert "62.5\u00a0kg" in phone.locator("main").inner_text()
        assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    with visit(browser, base_url=shipped_address, accept_downloads=True) as coach:
        # Third week: the client was away, so the same again; then an easy week, and back to where it was.
        opened(coach, file)
        coach.get_by_text("Write down what was done").click()
        coach.get_by_role("button", name="Day missed: Monday").click()
        assert "Missed: the same again." in went_on(coach)
        assert load(coach, SQUAT) == "62.5 kg"
        told = went_on(coach, "See an easy week")
        assert "Easy week: 2 sets, 4 left in reserve." in told and load(coach, SQUAT) == "62.5 kg"
        assert coach.get_by_label(f"Sets: {SQUAT}", exact=True).input_value() == "2"
        assert "before the easy one" in went_on(coach)
        assert coach.get_by_label(f"Sets: {SQUAT}", exact=True).input_value() == "3"
        data = saved(coach, file)
        assert data["monday"] == "2027-01-04"
        assert [week.get("easy", False) for week in data["before"]] == [False, False, False, True]
        with coach.expect_download() as got:
            coach.get_by_role("button", name="Table (CSV)").click()
        with got.value.path().open(encoding="utf-8", newline="") as table:
            rows = list(csv.DictReader(table, strict=True))
        assert [row["sets done"] for row in rows if row["exercise"] == SQUAT][:2] == ["3", "0"]
        assert len(re.findall(rb"/Type\s*/Page\b", coach.pdf(format="A4"))) == 1
