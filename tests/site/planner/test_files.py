"""What Find and Compare fetch, of the invented catalog and of the shipped one: true to the map, drawn as XML, with ways that lead somewhere.

Outside check: the XML of drawings is judged by expat.
"""

from __future__ import annotations

import json
import xml.etree.ElementTree as ET
from typing import Any

import pytest
import shipped_made

from build_tools.evidence_map.marks import LEGEND
from build_tools.site import book
from build_tools.site.map import mark as marks


@pytest.fixture(scope="module", params=["demo", "shipped"])
def made(request: pytest.FixtureRequest, demo_book: book.Book) -> tuple[book.Book, dict[str, Any]]:
    """A book, and its data by uri."""
    known = demo_book if request.param == "demo" else shipped_made.book()
    data = {
        file.uri: json.loads(file.content)
        for file in known.files
        if file.uri.startswith("data/") and file.uri.endswith(".json")
    }
    return known, data


def of(data: dict[str, Any], folder: str) -> dict[str, Any]:
    """Files of a folder by their stems."""
    return {
        uri.removeprefix(folder).removesuffix(".json"): value
        for uri, value in data.items()
        if uri.startswith(folder) and "/" not in uri.removeprefix(folder)
    }


def test_cells_are_those_of_the_map(made: tuple[book.Book, dict[str, Any]]) -> None:
    known, data = made
    signs = {marks.symbol(mark) for mark in LEGEND}
    for id, one in of(data, "data/compare/").items():
        strip = known.shelf.evidence_map.strip(id)
        assert list(one["cells"]) == [cell.part for cell in strip]
        for cell in strip:
            shown = one["cells"][cell.part]
            assert shown.get("counts") == cell.counts
            assert shown.get("sign") == (marks.symbol(cell.mark) if cell.mark else None)
            assert "sign" not in shown or shown["sign"] in signs


def test_every_pair_is_known_to_both_and_to_nobody_else(
    made: tuple[book.Book, dict[str, Any]],
) -> None:
    _, data = made
    there = {frozenset(name.split("--")) for name in of(data, "data/compare/pairs/")}
    told = {
        frozenset((id, other))
        for id, one in of(data, "data/compare/").items()
        for other in one["pairs"]
    }
    assert told == there and there


def test_drawings_are_xml_with_ids_of_their_own(made: tuple[book.Book, dict[str, Any]]) -> None:
    _, data = made
    drawn = [one["drawing"] for one in of(data, "data/compare/").values()]
    drawn += [
        told["bars"]
        for pair in of(data, "data/compare/pairs/").values()
        for told in pair["told"]
        if "bars" in told
    ]
    seen: set[str] = set()
    for text in drawn:
        root = ET.fromstring(text)
        ids = {one.get("id") for one in root.iter()} - {None}
        assert root.tag == "{http://www.w3.org/2000/svg}svg" and ids and not ids & seen
        seen |= ids  # type: ignore[arg-type]
        assert not {one.tag.rpartition("}")[2] for one in root.iter()} & {"script", "style", "a"}


def test_bars_of_growth_and_activation_are_of_their_own_kind(
    made: tuple[book.Book, dict[str, Any]],
) -> None:
    _, data = made
    for pair in of(data, "data/compare/pairs/").values():
        for told in pair["told"]:
            if "bars" in told:
                assert ("hb-bars--activation" in told["bars"]) == (told["outcome"] == "activation")


def test_results_of_find_have_a_statement_behind_each_mark(
    made: tuple[book.Book, dict[str, Any]],
) -> None:
    known, data = made
    behind = of(data, "data/find/")
    addresses = known.shelf.addresses
    for id, one in data["data/find.json"]["exercises"].items():
        assert set(one["marks"]) <= set(one["credits"])
        for part, (sign, *ahead) in one["marks"].items():
            sentence, address = behind[part.partition("/")[0]][id][part]
            assert sentence and LEGEND[sign].more == bool(LEGEND[sign].kind in ahead)
            path, _, anchor = address.partition("#")
            addresses.href("find.md", f"{path.rstrip('/')}.md", anchor or None)  # else it raises


def test_care_is_that_of_the_cautions(made: tuple[book.Book, dict[str, Any]]) -> None:
    known, data = made
    for concern, found in of(data, "data/care/").items():
        assert set(found) == {
            id
            for id, entry in known.shelf.catalog.exercises.items()
            if any(concern in caution.concerns for caution in entry.data.cautions)
        }
        assert found == {
            id: [
                [*filter(None, (c.who, c.instead, c.stop_if, c.ask, c.afterwards))]
                for c in known.shelf.catalog.exercises[id].data.cautions
                if concern in c.concerns
            ]
            for id in found
        }


def test_every_name_is_there_once(made: tuple[book.Book, dict[str, Any]]) -> None:
    known, data = made
    names = data["data/names.json"]
    assert set(names["exercises"]) == set(known.shelf.catalog.exercises)
    assert (
        set(names["places"])
        == set(names["addresses"])
        == {
            *known.shelf.catalog.muscles,
            *known.shelf.evidence_map.parts,
        }
    )
    for called in (*names["places"].values(), *names["exercises"].values()):
        folded = [name.casefold() for name in called if name]
        assert len(set(folded)) == len(folded)
