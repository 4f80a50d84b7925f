"""The pages in headless Chromium: phone and laptop, light and dark.

Accessibility is judged by axe-core (Deque), an outside checker of WCAG 2.2 (``axe``).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import axe
import pytest
from handout_site import link
from week_links import week

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
    "muscles/lantern/long-head/",
    "sources/",
    "sources/wick2030/",
    "methods/",
    "programme/",
    "taught/",
    "gaps/",
    "changes/",
    "data/",
    "rules/",
    "find/",
    "compare/",
    "lagging/",
    "lagging/#parts=lantern/long-head",
    "week/",
    "tour/",
    "lessons/",
    "404.html",
]
#: Beside these, the states and pages that have frames of their own, for media that change how all of them look.
MORE = [
    f"week/#{week('crate-curl', 'cable-curl')}",
    "cues/crate-curl/",
    "handout/#add=crate-curl",
    link("handout/"),
    "keep/",
]
MEDIA: dict[str, dict[str, Any]] = {
    "paper": {"media": "print"},
    "forced colours, light": {"forced_colors": "active", "color_scheme": "light"},
    "forced colours, dark": {"forced_colors": "active", "color_scheme": "dark"},
}
WIDTHS = {
    "narrowest": {"width": 320, "height": 640},
    "phone": {"width": 390, "height": 844},
    "laptop": {"width": 1366, "height": 900},
}


@pytest.fixture(scope="module", params=["light", "dark"])
def opened(
    request: pytest.FixtureRequest, browser: Browser, demo_address: str
) -> Iterator[tuple[Page, list[str]]]:
    """One page for all tests of a scheme, since a new one costs more than what they do on it, and what goes wrong on it."""
    with browser.new_context(base_url=demo_address, color_scheme=request.param) as context:
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
                None if asked.url.startswith((demo_address, "data:")) else wrong.append(asked.url)
            ),
        )
        page.on(
            "response", lambda answer: wrong.append(answer.url) if answer.status >= 400 else None
        )
        yield page, wrong


@pytest.fixture
def page(opened: tuple[Page, list[str]]) -> Iterator[Page]:
    """A page that fails the test on console errors and on any request to another host."""
    page, wrong = opened
    yield page
    page.goto("about:blank")
    found, wrong[:] = list(wrong), []
    assert found == []


def runs_over(page: Page) -> int:
    """By how many pixels a page is wider than its window."""
    return page.evaluate("document.documentElement.scrollWidth - innerWidth")


@pytest.mark.parametrize("width", ["phone", "laptop"])
@pytest.mark.parametrize("path", PAGES)
def test_a_page_fits_its_window_and_axe_finds_nothing(page: Page, path: str, width: str) -> None:
    page.set_viewport_size(WIDTHS[width])
    page.goto(path)
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    assert runs_over(page) <= 0
    assert axe.violations(page) == []
    if width == "phone":  # the same page on the narrowest, which saves opening it anew
        page.set_viewport_size(WIDTHS["narrowest"])
        assert runs_over(page) <= 0


@pytest.mark.parametrize("media", MEDIA)
def test_axe_finds_nothing_on_paper_and_in_forced_colours(
    browser: Browser, demo_address: str, media: str
) -> None:
    """What a medium hides is not judged; forced colours are those that Chromium shows in the place of a system's."""
    with browser.new_context(
        base_url=demo_address, bypass_csp=True, service_workers="block"
    ) as context:
        page = context.new_page()
        page.emulate_media(**MEDIA[media])
        for path in [*PAGES, *MORE]:
            page.goto("about:blank")
            page.goto(path)
            page.wait_for_load_state("networkidle")
            page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
            assert axe.violations(page) == [], path


def test_in_forced_colours_focus_and_what_is_chosen_are_seen(
    browser: Browser, demo_address: str
) -> None:
    """WCAG 2.2, 2.4.7 and 1.4.11, by Chromium's computed styles: an outline at every stop; a chosen day and the page at hand differ."""
    outline = """() => { const at = document.activeElement, shown = at.matches('input[type=radio], input[type=checkbox]')
        && getComputedStyle(at).opacity === '0' || at.matches('.md-option') ? at.nextElementSibling : at, style = getComputedStyle(shown);
        return [at.outerHTML.slice(0, 120), style.outlineStyle !== 'none' && style.outlineWidth !== '0px']; }"""
    style = "(one) => { const { backgroundColor, borderBottomColor } = getComputedStyle(one); return [backgroundColor, borderBottomColor]; }"
    with browser.new_context(
        base_url=demo_address,
        forced_colors="active",
        color_scheme="dark",
        viewport=WIDTHS["laptop"],
    ) as context:
        page = context.new_page()
        page.goto(f"week/#{week('crate-curl')}")
        page.locator(".hb-row").wait_for()
        for _ in range(40):
            page.keyboard.press("Tab")
            stop, is_seen = page.evaluate(outline)
            assert is_seen, stop
        days = page.locator(".hb-day-of")
        chosen = days.locator(":checked + span").evaluate(style)
        assert chosen[0] != days.locator(":not(:checked) + span").first.evaluate(style)[0]
        doors = page.locator(".hb-doors a")
        here = page.locator(".hb-doors a[aria-current]").evaluate(style)
        assert here[1] != doors.first.evaluate(style)[1]


@pytest.mark.parametrize("path", ["lagging/", "week/", "compare/", "find/"])
def test_an_empty_page_of_planning_prints_its_title_on_one_sheet(
    browser: Browser, demo_address: str, path: str
) -> None:
    """Sheets are counted in the PDF itself (ISO 32000: page objects)."""
    with browser.new_context(base_url=demo_address) as context:
        page = context.new_page()
        page.goto(path)
        page.wait_for_load_state("networkidle")
        assert len(re.findall(rb"/Type\s*/Page[^s]", page.pdf(format="A4"))) == 1
        page.emulate_media(media="print")
        assert page.get_by_role("heading", level=1).is_visible()
        assert page.locator(".hb-notice").is_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_page_that_only_this_catalog_has_fits_too(
    browser: Browser, shipped_address: str, scheme: str
) -> None:
    with browser.new_context(base_url=shipped_address, color_scheme=scheme) as context:
        page = context.new_page()
        for width in ("laptop", "phone"):
            test_a_page_fits_its_window_and_axe_finds_nothing(page, "audits/", width)


def test_words_in_plots_stay_readable_on_a_phone(page: Page) -> None:
    page.set_viewport_size(WIDTHS["phone"])
    page.goto("exercises/crate-curl/")
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


def test_the_clients_link_lands_on_the_cues(page: Page) -> None:
    page.set_viewport_size(WIDTHS["phone"])
    page.goto("exercises/crate-curl/#how-to-do-it")
    page.wait_for_timeout(200)
    for words in ("Sit tall on the crate.", "Pull your heel under the crate."):
        box = page.locator(".hb-cues").get_by_text(words).bounding_box()
        assert box is not None and 0 < box["y"] < 844
