"""Catalog text is data: whatever it holds, a page has the elements and attributes its template wrote, and no others."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import markdown
import pytest
from folders import DEMO
from hostile import HOSTILE, poisoned
from hypothesis import given, settings
from site_building import render
from site_reading import Reader

from build_tools.catalog.load import Catalog, load

#: Elements in their order, each with the names of its attributes.
Elements = list[tuple[str, tuple[str, ...]]]
Written = tuple[Elements, dict[str, Elements]]


def elements(text: str) -> Elements:
    """The elements of a page, without the lines of text in a drawing: a longer name takes more of them."""
    body = text.split("\n---\n", 1)[1]
    found = Reader(markdown.markdown(body, extensions=["attr_list", "toc"])).elements
    return [element for element in found if element[0] != "text"]


@pytest.fixture(scope="module")
def expected() -> dict[str, Elements]:
    """Structure of each page when the added text is harmless."""
    return {
        page.uri: elements(page.text)
        for page in render(poisoned(load(DEMO), "a")).pages
        if page.uri != "rules.md"
    }


@settings(max_examples=40)
@given(text=HOSTILE)
def test_no_text_becomes_structure(expected: dict[str, Elements], text: str) -> None:
    for page in render(poisoned(load(DEMO), "a" + text + "a")).pages:
        if page.uri in expected:
            assert elements(page.text) == expected[page.uri]


def written(catalog: Catalog) -> Written:
    """Structure of the Methods page and of every plot's file."""
    made = render(catalog)
    methods = made.fill("methods.md", made.written["methods.md"])
    # An XML parser accepts less than a browser does, so it also proves the files well-formed.
    files = {
        f.uri: [
            (e.tag, tuple(e.keys()))
            for e in ET.fromstring(f.content).iter()
            if not e.tag.endswith("}text")
        ]
        for f in made.files
        if f.uri.endswith(".svg") and f.uri.startswith("figures/")
    }
    return elements(methods), files


@pytest.fixture(scope="module")
def expected_files() -> Written:
    """What is written when the added text is harmless."""
    return written(poisoned(load(DEMO), "a"))


@settings(max_examples=25)
@given(text=HOSTILE)
def test_methods_and_plot_files_hold_their_text(expected_files: Written, text: str) -> None:
    assert written(poisoned(load(DEMO), "a" + text + "a")) == expected_files
