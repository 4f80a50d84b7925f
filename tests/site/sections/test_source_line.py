"""A source in a list: what was measured in it, and what it is narrowed by."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
import shipped_made

from build_tools.catalog.load import load
from build_tools.site.addresses import Addresses
from build_tools.site.book import PAGES, Book
from build_tools.site.context import RenderContext
from build_tools.site.sections import source_line
from build_tools.site.sections.source_line import SourceLine


def view(book: Book, key: str) -> SourceLine:
    return source_line.view(book.shelf.at("sources/index.md"), key)


def test_a_study_tells_what_was_measured_in_whom(demo_book: Book) -> None:
    line = view(demo_book, "wick2030")
    assert line.measured == "Growth of the lantern muscle; 18 people, 12 weeks"
    assert line.words == "Wick Ember Taper" and line.group == "W"
    assert line.values == {
        "muscle": ["lantern"],
        "outcome": ["growth"],
        "design": ["within-participant"],
        "read": ["abstract"],
    }


def test_a_source_without_numbers_is_told_apart(demo_book: Book) -> None:
    """It is narrowed to by the muscles that it is cited for, and by no outcome."""
    line = view(demo_book, "snuffed2029")
    assert (line.measured, line.group, line.values["design"]) == ("", "without-numbers", ["none"])
    assert line.values["outcome"] == [] and line.values["muscle"] == ["lantern"]


@pytest.fixture(scope="module")
def shipped() -> dict[str, SourceLine]:
    """Every line of the shipped catalog; its pages are declared, not made."""
    shelf = RenderContext(shipped_made.catalog(), shipped_made.conclusions(), Addresses())
    for room in PAGES:
        for resource in room.resources(shelf):
            shelf.addresses.add(resource.uri, list(resource.anchors))
    desk = shelf.at("sources/index.md")
    return {key: source_line.view(desk, key) for key in shelf.catalog.references}


def test_every_shipped_source_stands_in_one_group(shipped: dict[str, SourceLine]) -> None:
    """Held against the files themselves: those without a study file have no numbers."""
    catalog = shipped_made.catalog()
    groups = Counter(line.group for line in shipped.values())
    assert groups["without-numbers"] == len(set(catalog.references) - set(catalog.studies)) > 50
    synthesis = {"systematic-review", "meta-analysis", "narrative-review", "position-stand"}
    assert groups["reviews"] == sum(s.data.design in synthesis for s in catalog.studies.values())
    for key, line in shipped.items():
        assert bool(line.measured) == (key in catalog.studies)
        assert "; ;" not in line.measured and not line.measured.startswith(";")


@pytest.mark.parametrize(
    ("authors", "letter"), [("Öz, B", "O"), ("van Dieën, J", "V"), ("Østerås, H", "Z")]
)
def test_letters_are_those_of_the_list(demo: Path, authors: str, letter: str) -> None:
    from site_building import render

    file = demo / "references.bib"
    text = file.read_text(encoding="utf-8")
    start = text.index("author", text.index("{wick2030,"))
    file.write_text(
        text[:start] + f"author = {{{authors}}}" + text[text.index("}", start) + 1 :], "utf-8"
    )
    assert view(render(load(demo, "catalog")), "wick2030").group == letter
