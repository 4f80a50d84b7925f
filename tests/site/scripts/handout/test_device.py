"""Ticks and the size of type, which stay on the device. Outside source: WCAG 2.2, 1.4.4 (text at 200 % without loss)."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from handout_site import WEEK, complete, link, visit
from handouts import encode
from script_rules import ticks

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser


def ticked(page: Page) -> list[bool]:
    """The list's boxes, then all sets' boxes."""
    found: list[bool] = page.locator("input[type=checkbox]").evaluate_all(
        "all => all.filter((each) => each.closest('[data-part=view]')).map((each) => each.checked)"
    )
    return found


def test_ticks_come_back_and_begin_anew(phone: Page, handout_address: str) -> None:
    """The week has three sets, and an exercise without a number of them."""
    complete(phone, link(handout_address))
    assert ticked(phone) == [False] * 6
    phone.get_by_label("Done: Standing cable curl").check()
    phone.get_by_role("button", name="Start", exact=True).click()
    for n in (1, 2):
        phone.get_by_label(f"Set {n}").check()
    complete(phone, None)
    assert ticked(phone) == [False, True, True, True, False, True]
    phone.get_by_label("Set 3").check()
    assert ticked(phone) == [True] * 6
    assert phone.evaluate("Object.entries(localStorage)") == [
        [f"handout {ticks.hashed(encode(WEEK))}", "111.1"]
    ]
    phone.get_by_role("button", name="Back").click()
    phone.get_by_role("button", name="Start anew").click()
    assert ticked(phone) == [False] * 6
    assert phone.evaluate("localStorage.length") == 0
    assert phone.get_by_role("status").inner_text() == "All ticks are gone."


def test_all_works_where_nothing_may_be_kept(phone: Page, handout_address: str) -> None:
    phone.add_init_script(
        "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } })"
    )
    complete(phone, link(handout_address))
    phone.get_by_label("Done: Crate curl").check()
    assert ticked(phone) == [True, False, True, True, True, False]
    phone.get_by_role("button", name="Larger type").click()


def test_larger_type_stays(phone: Page, handout_address: str) -> None:
    complete(phone, link(handout_address))
    size = "parseFloat(getComputedStyle(document.querySelector('.list a')).fontSize)"
    before = phone.evaluate(size)
    phone.get_by_role("button", name="Larger type").click()
    complete(phone, None)
    assert phone.get_by_role("button", name="Larger type", pressed=True).is_visible()
    assert phone.evaluate(size) > 1.3 * before
    assert phone.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0


@pytest.mark.parametrize("large", [False, True])
def test_the_readers_own_size_of_200_per_cent_fits(
    browser: Browser, handout_address: str, large: bool
) -> None:
    # A style of the reader's, which the page's own policy would refuse.
    with visit(browser, viewport={"width": 320, "height": 640}, bypass_csp=True) as page:
        complete(page, link(handout_address))
        if large:
            page.get_by_role("button", name="Larger type").click()
        now = page.evaluate("parseFloat(getComputedStyle(document.documentElement).fontSize)")
        page.add_style_tag(content=f"html {{ font-size: {2 * now}px !important; }}")
        for name in ("Start", "It hurts"):
            assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
            page.get_by_role("button", name=name, exact=True).click()
        assert page.get_by_role("dialog").evaluate("e => e.scrollWidth - e.clientWidth") <= 0
