"""The tour says that everything in it is invented, and its weeks stand there without a script too."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from html import unescape
from typing import Any

import pytest
import script_rules
import shipped_made
from folders import DEMO
from made import page as page_of
from site_building import render

from build_tools.catalog.entries import Client
from build_tools.catalog.load import Catalog, load
from build_tools.site import book
from build_tools.site.pages import tour


@pytest.fixture(scope="module")
def demo() -> Catalog:
    return load(DEMO, "catalog")


@pytest.fixture(scope="module")
def text(demo: Catalog) -> str:
    return page_of(render(demo), tour.URI)


@pytest.fixture(scope="module")
def shipped() -> Catalog:
    return shipped_made.catalog()


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
    """Compounds stand first, no muscle is trained hard on two days in a row, and only a lagging muscle is far under its range."""
    data = shipped_made.planner_data()
    known = data["exercises"]
    for client, wish in clients(shipped):
        days = wish["days"]
        found = script_rules.week.warnings(
            days,
            script_rules.week.countMuscles(days, known, data["muscles"]),
            known,
            data["goals"][client.goal],
        )
        assert {one["kind"] for one in found} <= {"below"}, client.name
        assert {muscle for one in found for muscle in one["muscles"]} <= {
            ref.partition("/")[0] for ref in client.lagging
        }
        assert all(known[day[0]["exercise"]]["main"] for day in days if day), client.name
