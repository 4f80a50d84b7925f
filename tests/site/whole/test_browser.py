"""The pages in headless Chromium: phone and laptop, light and dark.

Accessibility is judged by axe-core (Deque), an outside checker of WCAG 2.2 (``axe``).
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import axe
import pytest
from site_serving import serve

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

PAGES = [
    "",
    "cautions/",
    "exercises/",
    "exercises/crate-curl/",
    "muscles/",
    "muscles/lantern/",
    "sources/",
    "sources/wick2030/",
    "methods/",
    "programme/",
    "gaps/",
    "rules/",
    "find/",
    "compare/",
    "lagging/#parts=lantern/long-head",
    "week/",
]
WIDTHS = {"narrowest": (320, 640), "phone": (390, 844), "laptop": (1366, 900)}


@pytest.fixture(scope="module")
def address(demo_site: Path) -> Iterator[str]:
    """The demo site on a local port."""
    with serve(demo_site) as at:
        yield at


@pytest.fixture(params=["light", "dark"])
def page(request: pytest.FixtureRequest, browser: Browser, address: str) -> Iterator[Page]:
    """A page that fails the test on console errors and on any request to another host."""
    with browser.new_context(base_url=address, color_scheme=request.param) as context:
        page, wrong = context.new_page(), []
        page.on(
            "console",
            lambda message: (
                wrong.append(message.text) if message.type in ("error", "warning") else None
            ),
        )
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on(
            "request",
            lambda asked: (
                None if asked.url.startswith((address, "data:")) else wrong.append(asked.url)
            ),
        )
        page.on(
            "response", lambda answer: wrong.append(answer.url) if answer.status >= 400 else None
        )
        yield page
        assert wrong == []


@pytest.mark.parametrize("width", WIDTHS)
def test_pages_fit_their_window(page: Page, width: str) -> None:
    page.set_viewport_size(dict(zip(("width", "height"), WIDTHS[width], strict=True)))
    for path in PAGES:
        page.goto(path)
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, path


def test_words_in_plots_stay_readable_on_a_phone(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto("muscles/lantern/")
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    texts = page.eval_on_selector_all(
        ".hb-plot text",
        """texts => texts.filter(t => t.getClientRects().length).map(t => {
        const box = t.getBoundingClientRect(), plot = t.closest('.hb-plot').getBoundingClientRect();
        return [parseFloat(getComputedStyle(t).fontSize), box.left - plot.left, plot.right - box.right] })""",
    )
    assert texts
    assert min(size for size, _, _ in texts) >= 12
    assert (
        min(min(left, right) for _, left, right in texts) >= -1
    )  # nothing runs out of the drawing


@pytest.mark.parametrize("width", ["phone", "laptop"])
def test_axe_finds_nothing(page: Page, width: str) -> None:
    page.set_viewport_size(dict(zip(("width", "height"), WIDTHS[width], strict=True)))
    for path in PAGES:
        page.goto(path)
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert axe.violations(page) == [], path


@pytest.mark.parametrize(
    ("query", "wanted"),
    [
        ("seated lamp curl", "exercises/crate-curl/"),  # another name
        ("wooden crate", "exercises/crate-curl/"),  # equipment
        ("short lamper", "exercises/cable-curl/"),  # a part, by its everyday name
        ("lantern muscle long head", "muscles/lantern/"),  # a part
        ("standing cable curl", "exercises/cable-curl/"),  # its name
    ],
)
def test_search_finds_it(page: Page, query: str, wanted: str) -> None:
    page.set_viewport_size({"width": 1366, "height": 900})
    page.goto("")
    page.locator(".md-search__input").click()
    page.locator(".md-search__input").press_sequentially(query)
    for _ in range(50):  # results change while the index loads and the words are typed
        addresses = page.eval_on_selector_all(
            "a.md-search-result__link", "links => links.map(link => link.pathname)"
        )
        # A page stands once, however many of its sections match.
        found = [address.lstrip("/") for address in dict.fromkeys(addresses)]
        if wanted in found[:3]:
            return
        page.wait_for_timeout(100)
    pytest.fail(f"{query} finds {found}")


def test_the_clients_link_lands_on_the_cues(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto("exercises/crate-curl/#how-to-do-it")
    page.wait_for_timeout(200)
    for words in ("Sit tall on the crate.", "Pull your heel under the crate."):
        box = page.locator(".hb-cues").get_by_text(words).bounding_box()
        assert box is not None and 0 < box["y"] < 844
