"""Several days, the coach's name, a date and care in the builder. Outside check: what is opened and not touched gives the same link again."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from handout_site import complete, link
from handouts import KNOWN, Day, Handout, Item, decode, encode, single

from build_tools.handout import limits

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser

FULL = Item("crate-curl", 3, "8-12", "20 kg", 2, 120, "3-1-1", "Slowly down.")
WEEK = Handout(
    "Begin",
    "Mara",
    "2026-12-07",
    ("no-such-thing", "operation", "knee"),
    (Day(1, (FULL, Item("cable-curl"))), Day(4, (FULL,)), Day(6, (Item("cable-curl", 2),))),
)


def edit(page: Page, handout_address: str, handout: Handout) -> None:
    complete(page, link(handout_address, handout))
    page.get_by_role("button", name="Edit this handout").click()
    page.get_by_text("In this handout").wait_for()


def written(page: Page) -> str:
    return page.get_by_label("Send this to your client").input_value().partition("#")[2]


@pytest.mark.parametrize("handout", [WEEK, single(None, (FULL,)), single("Mine", (FULL,) * 12)])
def test_a_link_opened_for_editing_loses_nothing(
    phone: Page, handout_address: str, handout: Handout
) -> None:
    edit(phone, handout_address, handout)
    assert written(phone) == encode(handout)


def test_days_are_added_moved_and_removed(phone: Page, handout_address: str) -> None:
    phone.goto(handout_address)
    find = phone.get_by_label("Find an exercise")
    find.fill("crate")
    phone.keyboard.press("Enter")
    assert phone.get_by_label("Put it on").is_hidden()
    phone.get_by_role("button", name="Add a day").click()
    assert "Add an exercise to each day to get a link." in phone.locator("main").inner_text()
    find.fill("cable")
    phone.keyboard.press("Enter")
    assert (
        phone.get_by_role("status").inner_text()
        == "Standing cable curl added as number 1 on Tuesday."
    )
    days = decode(written(phone), KNOWN).days
    assert days == (Day(0, (Item("crate-curl"),)), Day(1, (Item("cable-curl"),)))
    first, second = phone.get_by_label("Day", exact=True).all()
    assert second.locator("option:disabled").all_inner_texts() == ["Any day", "Monday"]
    first.select_option("Sunday")
    assert [day.day for day in decode(written(phone), KNOWN).days] == [1, 6]
    phone.get_by_role("button", name="Remove this day").first.click()
    assert decode(written(phone), KNOWN).days == (Day(6, (Item("crate-curl"),)),)
    phone.get_by_label("Day", exact=True).select_option("Any day")
    assert decode(written(phone), KNOWN) == single(None, (Item("crate-curl"),))


def test_care_name_and_date(phone: Page, handout_address: str) -> None:
    edit(phone, handout_address, single(None, (FULL,)))
    phone.get_by_label("Your name").fill(" Mara  K. ")
    phone.get_by_label("Date").fill("2026-12-07")
    phone.locator("summary").click()
    phone.get_by_role("checkbox", name="Knee").check()
    made = decode(written(phone), KNOWN)
    assert (made.coach, made.date, made.care) == ("Mara K.", "2026-12-07", ("knee",))


def test_a_link_too_long_for_a_code_says_so(phone: Page, handout_address: str) -> None:
    """On both sides of the limit that ``handout/limits.py`` gives."""
    edit(phone, handout_address, single(None, (FULL,) * 12))
    code, told = (
        phone.locator("[data-part=scan] svg"),
        phone.get_by_text("too long for a code on paper"),
    )
    notes = phone.locator("input[name=note]").all()
    assert len(written(phone)) <= limits.MOST_SCANNED and code.is_visible()
    for note in notes[:4]:
        note.fill("x" * 140)
    assert len(written(phone)) > limits.MOST_SCANNED and code.count() == 0 and told.is_visible()
    complete(phone, f"{handout_address}#{written(phone)}")
    phone.emulate_media(media="print")
    assert "It is too long for a code." in phone.locator("main").inner_text()
    assert phone.locator("[data-part=code] svg").count() == 0
