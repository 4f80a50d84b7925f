"""What stands on top: who sent it, the days, the lines of care, the list, and when to stop, before anything is fetched.

Outside sources: Python's ``datetime`` for days and dates; the Layout Instability draft (W3C) for what shifts: 0.1 is its reports' usual
limit for a good page (from memory).
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from handout_site import complete, link
from handouts import Day, Handout, Item

if TYPE_CHECKING:
    from playwright.sync_api import Page, Route

pytestmark = pytest.mark.browser

ITEMS = (Item("crate-curl", 3, "8-12"), Item("cable-curl"))
DAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]


def handout(*care: str, days: tuple[Day, ...] = (Day(None, ITEMS),)) -> Handout:
    return Handout("Begin", "Mara", "2026-12-07", care, days)


def care(page: Page) -> str:
    return page.locator(".first-care").inner_text()


def test_the_top_needs_nothing_but_the_link(phone: Page, handout_address: str) -> None:
    """The list and the stop rules stand while no figure has come; then nothing of it moves."""
    held: list[Route] = []
    phone.route("**/cues/**", lambda route: held.append(route))
    phone.add_init_script(
        """window.shifted = 0;
        new PerformanceObserver((list) => { for (const each of list.getEntries()) window.shifted += each.value; })
          .observe({ type: "layout-shift", buffered: true });"""
    )
    phone.goto(link(handout_address, handout()))
    phone.get_by_role("link", name="2. Standing cable curl").wait_for()
    top = phone.locator("main").inner_text()
    said = [
        top.index(each)
        for each in (
            "Begin",
            "From Mara, 7 December 2026",
            "1. Crate curl",
            "3 sets of 8 to 12 repetitions",
            "Call for emergency help if",
            "Stop, and tell your coach, if",
        )
    ]
    assert said == sorted(said)
    assert len(top[: said[-2]].split()) < 60
    for route in held:
        route.continue_()
    phone.locator("html[data-print]").wait_for(state="attached")
    assert phone.evaluate("window.shifted") <= 0.1


@pytest.mark.parametrize("today", range(7))
def test_todays_day_comes_first(phone: Page, handout_address: str, today: int) -> None:
    week = handout(days=tuple(Day(day, ITEMS[n : n + 1]) for n, day in enumerate((0, 3))))
    phone.clock.set_fixed_time(f"2026-12-{7 + today:02}T12:00:00")
    assert date(2026, 12, 7 + today).weekday() == today
    complete(phone, link(handout_address, week))
    first, other = (DAYS[0], DAYS[3]) if today in (0, 4, 5, 6) else (DAYS[3], DAYS[0])
    buttons = phone.get_by_role("navigation", name="Days").get_by_role("button")
    assert buttons.all_inner_texts() == [f"Today, {first}" if today in (0, 3) else first, other]
    listed = phone.locator(".list a:visible b")
    assert listed.all_inner_texts() == [
        f"1. {'Crate' if first == 'Monday' else 'Standing cable'} curl"
    ]
    buttons.nth(1).click()
    assert listed.all_inner_texts() == [
        f"1. {'Crate' if other == 'Monday' else 'Standing cable'} curl"
    ]
    phone.emulate_media(media="print")
    assert phone.locator(".list a:visible b").count() == 2
    assert phone.locator("article:visible").count() == 2
    assert phone.get_by_role("heading", name="Thursday").count() == 2


def test_the_lines_of_care_stand_on_top(phone: Page, handout_address: str) -> None:
    complete(phone, link(handout_address, handout("knee", "operation")))
    said = care(phone)
    for each in (
        "Knee",
        "Crate curl",
        "Instead: ",
        "Stop if: ",
        "The whole leg turns cold and white.",
        "After an operation, wait for a go-ahead.",
    ):
        assert each in said, each
    assert (
        "The handbook has no line on this for Standing cable curl. That does not make it safe"
        in said
    )
    assert (
        "no line on this for Crate curl, Standing cable curl. That does not make them safe" in said
    )
    assert (
        phone.locator(".first-care").bounding_box()["y"]
        < phone.locator(".list").bounding_box()["y"]
    )  # type: ignore[index]


def test_care_for_what_is_gone_or_cannot_be_had_is_never_silent(
    phone: Page, handout_address: str
) -> None:
    phone.route("**/data/care/**", lambda route: route.fulfill(body="no", content_type="text/html"))
    complete(phone, link(handout_address, handout("no-such-thing", "knee")))
    assert (
        "care with something that this handbook no longer names. Ask your coach before you begin."
        in care(phone)
    )
    assert "What to do instead could not be loaded. Ask your coach before you begin." in care(phone)
    assert "no-such-thing" not in phone.locator("body").inner_text()


def test_lines_of_care_that_are_late_are_announced(phone: Page, handout_address: str) -> None:
    phone.route("**/data/care/**", lambda route: None)
    complete(phone, link(handout_address, handout("knee")))
    assert "still on their way: ask your coach before you begin." in care(phone)
    phone.unroute_all()


def test_a_handout_without_care_has_no_box(phone: Page, handout_address: str) -> None:
    complete(phone, link(handout_address))
    assert phone.locator(".first-care").is_hidden()
