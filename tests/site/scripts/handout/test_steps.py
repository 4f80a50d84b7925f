"""One exercise at a time on a phone.

Outside sources: WCAG 2.2, 2.4.3 (the focus goes where the reader is) and 2.1.1 (all by keyboard); the History API (HTML standard).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from handout_site import complete, link

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser


def seen(page: Page) -> list[str]:
    """The headings in sight, the stop rules left out."""
    found: list[str] = page.locator("h1:visible, article h2:visible").evaluate_all(
        "all => all.filter((each) => each.offsetWidth > 1).map((each) => each.innerText)"
    )
    return found


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def focused(page: Page) -> str:
    said: str = page.evaluate("document.activeElement.innerText")
    return said


def test_next_and_back(phone: Page, handout_address: str) -> None:
    complete(phone, link(handout_address))
    assert seen(phone) == ["Week 1"]
    assert phone.get_by_role("button", name="Back").is_disabled()
    press(phone, "Start")
    assert seen(phone) == [focused(phone)] == ["1. Crate curl"]
    press(phone, "Next")
    assert seen(phone) == [focused(phone)] == ["2. Standing cable curl"]
    press(phone, "Back")
    assert seen(phone) == [focused(phone)] == ["1. Crate curl"]
    press(phone, "Next")
    press(phone, "List")
    assert seen(phone) == [focused(phone)] == ["Week 1"]


def test_the_phones_own_way_back_goes_a_step_back_and_a_reload_stays(
    phone: Page, handout_address: str
) -> None:
    complete(phone, link(handout_address))
    phone.get_by_role("link", name="2. Standing cable curl").click()
    assert seen(phone) == [focused(phone)] == ["2. Standing cable curl"]
    assert phone.url == link(handout_address)
    complete(phone, None)
    assert seen(phone) == ["2. Standing cable curl"]
    phone.go_back()
    assert seen(phone) == ["Week 1"]


def test_it_hurts_shows_this_exercises_signs_and_everybodys(
    phone: Page, handout_address: str
) -> None:
    complete(phone, link(handout_address))
    press(phone, "It hurts")
    dialog = phone.get_by_role("dialog")
    assert dialog.get_by_role("heading").all_inner_texts() == [
        "Stop now",
        "Call for emergency help if",
        "Stop, and tell your coach, if",
    ]
    assert focused(phone) == "Stop now"
    phone.keyboard.press("Escape")
    press(phone, "Start")
    press(phone, "It hurts")
    own = phone.locator("article:visible .stop").all_inner_texts()
    assert len(own) >= 2
    assert dialog.locator(".stop:visible").all_inner_texts()[: len(own)] == own
    assert "Stop, and tell your coach, if" in dialog.inner_text()
    press(phone, "Close")
    assert seen(phone) == ["1. Crate curl"]


def test_without_the_buttons_all_stands_below_each_other(phone: Page, handout_address: str) -> None:
    phone.route(
        "**/steps.js",
        lambda route: route.fulfill(
            body="export const begin = () => { throw 0; };", content_type="text/javascript"
        ),
    )
    complete(phone, link(handout_address))
    assert seen(phone) == ["Week 1", "1. Crate curl", "2. Standing cable curl"]


def test_a_wide_window_shows_all_and_a_link_leads_down(phone: Page, handout_address: str) -> None:
    phone.set_viewport_size({"width": 1366, "height": 600})
    complete(phone, link(handout_address))
    assert seen(phone) == ["Week 1", "1. Crate curl", "2. Standing cable curl"]
    phone.get_by_role("link", name="2. Standing cable curl").click()
    assert focused(phone) == "2. Standing cable curl"
    assert 0 <= phone.evaluate("document.activeElement.getBoundingClientRect().top") < 600
    assert phone.get_by_role("button", name="Next").is_hidden()
    assert phone.get_by_role("button", name="It hurts").is_visible()
