"""The files of the search: whole, the same each time, and weighed as Okapi BM25 weighs (Robertson and Zaragoza 2009, from memory)."""

from __future__ import annotations

import json
import math

import pytest
import shipped_made
from folders import DEMO
from site_building import render

from build_tools.catalog.load import load
from build_tools.site.search.files import SearchableSection, name_files, text_files
from build_tools.site.search.named import NamedPlace
from build_tools.site.search.texts import words


def test_the_same_catalog_gives_the_same_bytes() -> None:
    first, second = (
        {
            file.uri: file.content
            for file in render(load(DEMO, "catalog")).files
            if file.uri.startswith("search/")
        }
        for _ in range(2)
    )
    assert first == second and "search/names.json" in first


def test_every_listed_word_stands_in_the_file_it_is_listed_for() -> None:
    files = {
        file.uri: json.loads(file.content)
        for file in shipped_made.book().files
        if file.uri.startswith("search/")
    }
    for number, held in enumerate(files["search/names.json"]["words"]):
        rows = files[f"search/names-{number}.json"]
        called = [set(words(" ".join([row[3], *row[6]]))) for row in rows]
        for word, count in zip(held[::2], held[1::2], strict=True):
            assert sum(word in names for names in called) == count
    for number, line in enumerate(files["search/texts.json"]["words"]):
        assert line.split(" ") == list(files[f"search/texts-{number}.json"])
    known = files["search/names.json"]["nameless"]
    assert known == ["al", "et"] and not [
        w for held in files["search/names.json"]["words"] for w in held if w in known
    ]
    sections = sum(len(held) for uri, held in files.items() if uri.startswith("search/sections-"))
    asked = {
        n
        for uri, held in files.items()
        if uri.startswith("search/texts-")
        for row in held.values()
        for n in row[::2]
    }
    assert asked == set(range(sections))


def test_catalog_text_stays_text() -> None:
    """Places carry names as they are, and JSON alone carries them: nothing is built into markup."""
    place = NamedPlace(0, 0, "Row & <b>", "exercises/row/", "", ['"pull"'])
    made = dict(name_files([place], []))
    assert json.loads(made["search/names-0.json"])[0][3] == "Row & <b>"


def test_weights_are_those_of_bm25() -> None:
    sections = [
        SearchableSection("A", "", "a/", ("lamp", "lamp", "wick", "oil")),
        SearchableSection("B", "", "b/", ("lamp", "oil")),
        SearchableSection("C", "", "c/", ("oil", "oil", "oil")),
    ]
    made = {uri: json.loads(content) for uri, content in text_files(sections)}
    found = made["search/texts-0.json"]["lamp"]
    rare = math.log(1 + (3 - 2 + 0.5) / (2 + 0.5))
    expected = [
        rare * times * 2.2 / (times + 1.2 * (0.25 + 0.75 * length / 3))
        for times, length in ((2, 4), (1, 2))
    ]
    assert found[1::2] == [pytest.approx(10 * value, abs=0.5) for value in expected]


def test_hand_written_pages_are_read() -> None:
    assert {"index.md", "methods.md", "cautions.md"} <= set(shipped_made.book().written)
    texts = [
        file.content
        for file in shipped_made.book().files
        if file.uri.startswith("search/sections-")
    ]
    assert any(b"methods/#certainty" in content for content in texts)
