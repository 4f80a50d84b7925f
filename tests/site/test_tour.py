"""The tour says that everything in it is invented, and shows what the working pages show: Python's answers against the pages'."""

from __future__ import annotations

import re
from base64 import urlsafe_b64decode
from collections.abc import Iterator
from dataclasses import replace
from html import unescape
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import parse_qs, urlsplit

import pytest
from handout_site import visit
from made import page as page_of
from site_building import DEMO, ROOT, render
from site_serving import serve

from build_tools.catalog.load import Catalog, load
from build_tools.handout.fragment import decode
from build_tools.movement.course import Courses
from build_tools.planning import plan_file
from build_tools.planning.facts import facts
from build_tools.planning.warnings import warnings
from build_tools.planning.week import Entry, Week, count
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
    return load(ROOT / "catalog", "catalog")


def links(text: str, kind: str) -> list[str]:
    """Addresses of one kind of link on the page, in order."""
    return [unescape(href) for href in re.findall(rf'href="([^"]+)" data-tour="{kind}"', text)]


def plan(link: str, catalog: Catalog) -> plan_file.Plan:
    """The plan in a link to the page Week or Lagging part, read by the reader of saved files."""
    packed = parse_qs(urlsplit(link).fragment)["week"][0]
    return plan_file.read(urlsafe_b64decode(packed + "=" * (-len(packed) % 4)).decode(), catalog.exercises)


def test_it_says_first_that_everything_is_invented(text: str) -> None:
    assert text.index("are invented.</b>") < text.index("hb-notice") < text.index("{#client-1}")


def test_the_links_carry_what_the_catalog_says(text: str, demo: Catalog) -> None:
    [week], [added], [lagging] = (links(text, kind) for kind in ("week", "added", "lagging"))
    assert demo.example
    [client] = demo.example.data.clients
    assert plan(week, demo) == plan(lagging, demo) == plan_file.Plan("growth", tour.planned(client))
    assert parse_qs(urlsplit(lagging).fragment)["parts"] == client.lagging
    assert parse_qs(urlsplit(lagging).fragment)["equipment"] == [",".join(client.equipment)]
    # The only other exercise joins the last training day.
    assert plan(added, demo).week.days[3] == (Entry("crate-curl", 1, "30s"), Entry("cable-curl", 1, "8-12"))


def test_handouts_hold_the_days(text: str, demo: Catalog) -> None:
    monday, thursday = (decode(urlsplit(link).fragment, {id: id for id in demo.exercises}) for link in links(text, "handout"))
    assert (monday.title, thursday.title) == ("Monday", "Thursday")
    assert [(item.id, item.sets, item.repetitions, item.left, item.rest) for item in monday.items] == [("crate-curl", 2, "8-12", 2, 90)]
    assert [item.id for item in thursday.items] == ["crate-curl", "cable-curl"]


@pytest.mark.parametrize("missing", ["example", "programme"])
def test_without_an_example_or_a_programme_the_page_says_so(demo: Catalog, missing: str) -> None:
    made: book.Book = render(replace(demo, **{missing: None}))
    text = page_of(made, tour.URI)
    assert "This catalog has no example to show." in text and "Wickle" not in text


def test_the_weeks_of_the_studio_lack_nothing_but_what_lags(shipped: Catalog) -> None:
    """Compounds stand first, no part is trained directly on two days in a row, and only a lagging muscle is under its range."""
    assert shipped.example and shipped.programme
    known = facts(shipped, Courses(shipped))
    for client in shipped.example.data.clients:
        week: Week = tour.planned(client)
        found = warnings(week, count(week, known), known, shipped.programme.data.goals[client.goal])
        assert {one.kind for one in found} <= {"below"}, client.name
        assert {part.partition("/")[0] for one in found for part in one.parts} <= {ref.partition("/")[0] for ref in client.lagging}
        assert all(known[day[0].exercise].main for day in week.days if day), client.name


@pytest.fixture(scope="module")
def address(shipped_site: Path) -> Iterator[str]:
    with serve(shipped_site) as at:
        yield at


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    with visit(browser, base_url=address) as page:
        page.goto("tour/")
        yield page


def lines(found: Locator) -> list[str]:
    """Texts without the layout's line breaks."""
    return [" ".join(text.split()) for text in found.all_inner_texts()]


@pytest.mark.browser
def test_lagging_part_answers_as_the_tour_does(page: Page) -> None:
    """Computed by Python on the tour and by the page's script from its data: the same proposals, sentences, differences and costs."""
    told = [(lines(one.locator(".hb-subhead a").first), lines(one.locator(".hb-sentence")), lines(one.locator("p").last))
            for one in page.locator("article.hb-claim").all()]
    assert len(told) == 6
    answered = []
    for href in hrefs(page, "lagging"):
        page.goto("about:blank")
        page.goto(href)
        page.locator("[data-part=proposals] article").first.wait_for()
        assert page.url == href  # the page writes the same state
        answered += [(lines(one.locator("h3")), lines(one.locator(".hb-sentence")), lines(one.locator("p:not(.hb-actions)").last))
                     for one in page.locator("[data-part=proposals] article").all()]
    assert answered == told


@pytest.mark.browser
def test_week_counts_as_the_tour_does(page: Page) -> None:
    """Count, remarks and handout links of the week with the accessories."""
    told = [lines(row.locator("th, td")) for row in page.locator("table.hb-numbers tbody tr").all()]
    remarks = [one.partition(" What the programme says")[0] for one in lines(page.locator("li:has(a:text-is('What the programme says'))"))]
    given = hrefs(page, "handout")
    counted, warned, handed = [], [], []
    for n, (before, after) in enumerate(zip(hrefs(page, "week"), hrefs(page, "added"), strict=True)):
        held = []
        for href in (before, after):
            page.goto("about:blank")
            page.goto(href)
            page.locator("[data-part=count] tbody tr").first.wait_for()
            assert page.url == href
            rows = page.locator("[data-part=count] tbody tr").evaluate_all(
                "rows => rows.map((row) => [row.cells[0].textContent, row.cells[1].textContent])")
            held.append({name.rpartition("(")[2].rstrip(")"): sets for name, sets in rows})
        counted += [[part, held[0].get(part, "0"), held[1][part]] for part, *_ in told[2 * n:2 * n + 2]]
        warned += [one.partition(" What the programme says")[0] for one in lines(page.locator("[data-part=remarks] li"))]
        handed += [one.get_attribute("href") for one in page.locator("[data-part=handouts] a").all()]
    assert counted == told and warned == remarks and handed == given


def hrefs(page: Page, kind: str) -> list[str]:
    """Whole addresses of one kind of link on the tour."""
    return page.eval_on_selector_all(f'[data-tour="{kind}"]', "links => links.map((link) => link.href)")
