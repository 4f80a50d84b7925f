"""The tour in Chromium shows what the working pages show when its links open them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from handout_site import Watched, once_more, visit

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page


@pytest.fixture
def page(opened: Watched) -> Iterator[Page]:
    with once_more(opened) as page:
        page.goto("tour/")
        for days in page.locator('[data-part^="days-"]').all():  # a client's are there last
            days.locator('[data-tour="handout"]').first.wait_for()
        yield page


def lines(found: Locator) -> list[str]:
    """Texts without the layout's line breaks."""
    return [" ".join(text.split()) for text in found.all_inner_texts()]


@pytest.mark.browser
def test_lagging_part_answers_as_the_tour_does(page: Page) -> None:
    """The same proposals, sentences, differences and costs once the link has carried week and wish to the page."""
    told = answers(page.locator("article.hb-claim"))
    assert len(told) == 6
    answered = []
    for href in hrefs(page, "lagging"):
        page.goto("about:blank")
        page.goto(href)
        page.locator("[data-part=proposals] article").first.wait_for()
        assert page.url == href  # the page writes the same state
        answered += answers(page.locator("[data-part=proposals] article"))
    assert answered == told


def answers(articles: Locator) -> list[list[str]]:
    """What each says under its name, without the buttons."""
    return [
        [*lines(one.locator("h3, h4")), *lines(one.locator("p:not(.hb-actions, .hb-dose p)"))]
        for one in articles.all()
    ]


@pytest.mark.browser
def test_without_scripts_the_tour_says_what_is_missing(
    browser: Browser, shipped_address: str
) -> None:
    with visit(browser, base_url=shipped_address, java_script_enabled=False) as page:
        page.goto("tour/")
        assert (
            page.get_by_text("which needs JavaScript").is_visible()
            and not page.locator("[data-tour]").first.is_visible()
        )
        assert page.locator("main ul li:has(b)").count() >= 9


@pytest.mark.browser
def test_week_counts_as_the_tour_does(page: Page) -> None:
    """Count, remarks and handout links of the week with the accessories."""
    told = [lines(row.locator("th, td")) for row in page.locator("table.hb-numbers tbody tr").all()]
    remarks = [
        one.partition(" What the programme says")[0]
        for one in lines(page.locator("li:has(a:text-is('What the programme says'))"))
    ]
    given = hrefs(page, "handout")
    counted, warned, handed = [], [], []
    for n, (before, after) in enumerate(
        zip(hrefs(page, "week"), hrefs(page, "added"), strict=True)
    ):
        held = []
        for href in (before, after):
            page.goto("about:blank")
            page.goto(href)
            page.locator("[data-part=count] > li").first.wait_for()
            assert page.url == href
            parts = page.locator("ul.hb-counts > li li").all_text_contents()
            told_parts = (text.rpartition(": ") for text in parts)
            held.append({name.rpartition("(")[2].rstrip(")"): sets for name, _, sets in told_parts})
        counted += [
            [part, held[0].get(part, "0"), held[1][part]] for part, *_ in told[2 * n : 2 * n + 2]
        ]
        warned += [
            one.partition(" What the programme says")[0]
            for one in page.locator(
                "[data-part=remarks] li, [data-part=remarks-more] li"
            ).all_text_contents()
        ]
        handed += [
            one.get_attribute("href") for one in page.locator("[data-part=handouts] a").all()[1:]
        ]
    assert counted == told and warned == remarks and handed == given


def hrefs(page: Page, kind: str) -> list[str]:
    """Whole addresses of one kind of link on the tour."""
    return page.eval_on_selector_all(
        f'[data-tour="{kind}"]', "links => links.map((link) => link.href)"
    )
