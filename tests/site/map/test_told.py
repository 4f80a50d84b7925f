"""Panels tell the statements of the map as they are, and each leads to a place that is there."""

from __future__ import annotations

import json

import pytest
import shipped_made
from site_reading import Reader

from build_tools.evidence.terms import LEVELS
from build_tools.site.addresses import Addresses
from build_tools.site.map.mark import symbol
from build_tools.site.map.told import EXERCISES, muscle_data, uri

MUSCLES = list(shipped_made.catalog().muscles)


@pytest.mark.parametrize("muscle", MUSCLES)
def test_every_mark_has_its_statement_and_no_other_cell_has_one(muscle: str) -> None:
    shelf = shipped_made.book().shelf
    data = muscle_data(shelf, muscle)
    for row in shelf.evidence_map.block(muscle).rows:
        for cell, reasons in zip(row.cells, data["exercises"][row.exercise], strict=True):
            assert bool(reasons) == (cell.mark is not None)
            if cell.mark:
                best = cell.reasons[0]
                assert reasons[0]["mark"] == symbol(cell.mark)
                told = data["sentences"][reasons[0]["sentence"]]
                assert told == best.sentence or (cell.mark.kind == "length" and "%" in told)
            for reason in reasons:
                studied = data["marks"][reason["mark"]][0] in ("growth", "activation")
                assert ("people" in reason["sure"] or "person" in reason["sure"]) == studied
                if "Certainty: " in reason["sure"]:
                    level = reason["sure"].removeprefix("Certainty: ").partition(".")[0]
                    assert level in LEVELS  # the four words of GRADE
    assert len(set(data["sentences"])) == len(data["sentences"])


def test_every_place_is_there() -> None:
    """As pages declare them; that they keep to it is tested with the links of the whole site."""
    shelf = shipped_made.book().shelf
    addresses: Addresses = shelf.addresses
    for muscle in MUSCLES:
        data = muscle_data(shelf, muscle)
        for cells in data["exercises"].values():
            for reason in (reason for cell in cells for reason in cell):
                page, _, anchor = reason["address"].partition("#")
                assert addresses.href("index.md", f"{page.rstrip('/')}.md", anchor or None)


def test_the_files_are_the_data_and_small() -> None:
    """At most 80 kB before packing, as a coach opens one on a weak signal."""
    files = {file.uri: file.content for file in shipped_made.book().files}
    for muscle in MUSCLES:
        assert json.loads(files[uri(muscle)]) == muscle_data(shipped_made.book().shelf, muscle)
        assert len(files[uri(muscle)]) < 80_000
    facts = json.loads(files[EXERCISES])
    planner = json.loads(files["data/planner.json"])["exercises"]
    assert facts.keys() == planner.keys()
    for id, one in facts.items():
        assert sorted(one["equipment"]) == planner[id]["equipment"]
        assert one["concerns"] == planner[id]["concerns"]


def test_no_statement_brings_markup() -> None:
    for muscle in MUSCLES:
        for sentence in muscle_data(shipped_made.book().shelf, muscle)["sentences"]:
            assert Reader(sentence).elements == []
