"""The page of dose rules says each range with its basis and its doubts, and stands without a programme too."""

from __future__ import annotations

from dataclasses import replace

import pytest
import shipped_made
from folders import DEMO
from made import page
from site_building import render

from build_tools.catalog.entries import Citation
from build_tools.catalog.load import load
from build_tools.site import book
from build_tools.site.pages import programme


@pytest.fixture(scope="module")
def shipped() -> str:
    """The page of the shipped programme, over the demo catalog's exercises."""
    whole, demo = shipped_made.catalog(), load(DEMO)
    return page(
        render(
            replace(
                demo, programme=whole.programme, references={**whole.references, **demo.references}
            )
        ),
        programme.URI,
    )


def test_the_answer_comes_first(shipped: str) -> None:
    """Under each goal the table of ranges stands before anything else, and the cautions before both."""
    order = [
        shipped.index(text)
        for text in (
            'class="hb-notice"',
            "{#growth}",
            "<table",
            'id="growth-weekly-sets"',
            "{#strength}",
            "{#careful}",
            "{#advice}",
            "{#prediction}",
        )
    ]
    assert order == sorted(order)


def test_every_range_tells_what_is_not_known_and_what_it_rests_on(shipped: str) -> None:
    catalog = shipped_made.catalog()
    assert catalog.programme
    for goal, doses in catalog.programme.data.goals.items():
        for key, dose in doses.items():
            anchor = programme.anchor_of(("goals", goal, key))
            told = shipped.partition(f'<div id="{anchor}">')[2].partition("</div>")[0]
            assert dose.unsure.replace("'", "&#39;") in told, anchor
            assert "Common practice:" in told or all(
                f"../sources/{c.key}/" in told for c in dose.cites
            ), anchor


def test_every_equation_links_to_what_was_read_of_it(shipped: str) -> None:
    catalog = shipped_made.catalog()
    assert catalog.programme
    given = catalog.programme.data.load_prediction
    for id, equation in given.equations.items():
        told = shipped.partition(f'<li id="equation-{id}">')[2].partition("</li>")[0]
        assert f'href="#equation-{id}"' in shipped and equation.error.replace("'", "&#39;") in told
        assert all(f"../sources/{c.key}/" in told for c in equation.cites), id
    for rule in (given.beyond, given.band):
        assert rule.do.replace("'", "&#39;") in shipped


def test_every_careful_group_names_whom_to_ask(shipped: str) -> None:
    catalog = shipped_made.catalog()
    assert catalog.programme
    groups = catalog.programme.data.careful
    assert shipped.count('class="hb-ask"') == len(groups)
    assert all(f"{{#careful-{id}}}" in shipped for id in groups)


def test_sources_lead_back_to_it() -> None:
    demo = load(DEMO)
    assert demo.programme
    doses = demo.programme.data.goals["growth"]
    cited = doses.rest_seconds.model_copy(
        update={"common_practice": None, "cites": [Citation(key="wick2030", at="abstract")]}
    )
    goals = {
        **demo.programme.data.goals,
        "growth": doses.model_copy(update={"rest_seconds": cited}),
    }
    object.__setattr__(
        demo.programme, "data", demo.programme.data.model_copy(update={"goals": goals})
    )
    assert "../../programme/#growth-rest-seconds" in page(render(demo), "sources/wick2030.md")


def test_a_catalog_without_a_programme_has_a_page_that_says_so() -> None:
    made: book.Book = render(replace(load(DEMO), programme=None))
    assert "no programme yet" in page(made, programme.URI)
    assert made.shelf.addresses.anchors(programme.URI) == {"top"}


@pytest.mark.parametrize(
    ("low", "high", "told"),
    [
        (10, 20, "10 to 20"),
        (0.5, 8, "0.5 to 8"),
        (2, None, "2 or more"),
        (None, 3, "up to 3"),
        (5, 5, "5"),
    ],
)
def test_a_range_in_words(low: float | None, high: float | None, told: str) -> None:
    assert programme.span(low, high) == told
