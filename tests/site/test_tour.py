"""The tour says that everything in it is invented, and shows what the working pages show when its links open them."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from html import unescape
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
import script_rules
from folders import DEMO, SHIPPED
from handout_site import visit
from made import page as page_of
from site_building import render
from site_serving import serve

from build_tools.catalog.entries import Client
from build_tools.catalog.load import Catalog, load
from build_tools.evidence.claims.conclude import conclude
from build_tools.movement.course import Courses
from build_tools.movement.length.length import means
from build_tools.planning.planner_data import planner
from build_tools.site import book
from build_tools.site.pages import tour

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page


@pytest.fixture(scope="module")
def demo() -> Catalog:
    return load(DEMO, "catalog")


@pytest.fixture(scope="module")
def text(demo: Catalog) -> str:
    return page_of(render(demo), tour.URI)


@pytest.fixture(scope="module")
def shipped() -> Catalog:
    return load(SHIPPED, "catalog")


def clients(catalog: Catalog) -> list[tuple[Client, dict[str, Any]]]:
    """Each with what the script reads of them."""
    assert catalog.example and catalog.vocabulary
    words = catalog.vocabulary.data
    return [
        (one, tour.wish(one, list(words.equipment), list(words.concerns)))
        for one in catalog.example.data.clients
    ]


def test_it_says_first_that_everything_is_invented(text: str) -> None:
    assert text.index("are invented.</b>") < text.index("hb-notice") < text.index("{#client-1}")


def test_the_script_is_given_what_the_catalog_says(text: str, demo: Catalog) -> None:
    [given] = [json.loads(unescape(found)) for found in re.findall(r'data-client="([^"]+)"', text)]
    [(client, wish)] = clients(demo)
    assert given == wish
    assert (wish["goal"], wish["parts"]) == (client.goal, client.lagging)
    assert sorted(wish["equipment"]) == sorted(client.equipment) and sorted(
        wish["concerns"]
    ) == sorted(client.avoid)
    # By hand from tests/demo/catalog/example.yaml.
    assert [len(day) for day in wish["days"]] == [1, 0, 0, 1, 0, 0, 0]
    assert wish["days"][0] == [
        {"exercise": "crate-curl", "sets": 2, "repetitions": "8-12", "left": 2, "rest": 90}
    ]


def test_the_weeks_stand_there_without_a_script_too(text: str) -> None:
    assert re.search(r"<li><b>Monday</b>: <a [^>]+>Crate curl</a> 2 × 8-12</li>", text)


@pytest.mark.parametrize("missing", ["example", "programme"])
def test_without_an_example_or_a_programme_the_page_says_so(demo: Catalog, missing: str) -> None:
    made: book.Book = render(replace(demo, **{missing: None}))
    text = page_of(made, tour.URI)
    assert "This catalog has no example to show." in text and "Wickle" not in text


def test_the_weeks_of_the_studio_lack_nothing_but_what_lags(shipped: Catalog) -> None:
    """Compounds stand first, no part is trained directly on two days in a row, and only a lagging muscle is under its range."""
    data = planner(shipped, conclude(shipped, means(shipped)), Courses(shipped))
    known = data["exercises"]
    for client, wish in clients(shipped):
        days = wish["days"]
        found = script_rules.week.warnings(
            days,
            script_rules.week.count(days, known),
            known,
            data["goals"][client.goal]["weekly_sets"],
        )
        assert {one["kind"] for one in found} <= {"below"}, client.name
        assert {part.partition("/")[0] for one in found for part in one["parts"]} <= {
            ref.partition("/")[0] for ref in client.lagging
        }
        assert all(known[day[0]["exercise"]]["main"] for day in days if day), client.name


@pytest.fixture(scope="module")
def address(shipped_site: Path) -> Iterator[str]:
    with serve(shipped_site) as at:
        yield at


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    with visit(browser, base_url=address) as page:
        page.goto("tour/")
        page.locator('[data-tour="handout"]').first.wait_for()
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
        [*lines(one.locator("h3, h4")), *lines(one.locator("p:not(.hb-actions)"))]
        for one in articles.all()
    ]


@pytest.mark.browser
def test_without_scripts_the_tour_says_what_is_missing(browser: Browser, address: str) -> None:
    with visit(browser, base_url=address, java_script_enabled=False) as page:
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
            page.locator("[data-part=count] tbody tr").first.wait_for()
            assert page.url == href
            rows = page.locator("[data-part=count] tbody tr").evaluate_all(
                "rows => rows.map((row) => [row.cells[0].textContent, row.cells[1].textContent])"
            )
            held.append({name.rpartition("(")[2].rstrip(")"): sets for name, sets in rows})
        counted += [
            [part, held[0].get(part, "0"), held[1][part]] for part, *_ in told[2 * n : 2 * n + 2]
        ]
        warned += [
            one.partition(" What the programme says")[0]
            for one in lines(page.locator("[data-part=remarks] li"))
        ]
        handed += [
            one.get_attribute("href") for one in page.locator("[data-part=handouts] a").all()
        ]
    assert counted == told and warned == remarks and handed == given


def hrefs(page: Page, kind: str) -> list[str]:
    """Whole addresses of one kind of link on the tour."""
    return page.eval_on_selector_all(
        f'[data-tour="{kind}"]', "links => links.map((link) => link.href)"
    )
