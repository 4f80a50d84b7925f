"""The map's files of drawings: well-formed, with what a reader needs to credit them."""

from __future__ import annotations

from dataclasses import replace
from xml.etree import ElementTree

import pytest
import shipped_made

from build_tools.site.map.block import picture
from build_tools.site.map.figure import WHOLE, file, whole
from build_tools.site.publication import Publication

SVG = "{http://www.w3.org/2000/svg}"
FILES = {one.uri: one.content for one in shipped_made.book().files}
MUSCLES = list(shipped_made.catalog().muscles)


def texts(content: bytes) -> list[str]:
    return ["".join(text.itertext()) for text in ElementTree.fromstring(content).iter(f"{SVG}text")]


@pytest.mark.parametrize("muscle", MUSCLES)
def test_a_block_is_drawn_as_the_table_has_it(muscle: str) -> None:
    block = shipped_made.book().shelf.evidence_map.block(muscle)
    drawn = ElementTree.fromstring(FILES[picture(muscle)])  # the XML standard's own parser
    marks = sum(cell.mark is not None for row in block.rows for cell in row.cells)
    tints = sum(cell.counts is not None for row in block.rows for cell in row.cells)
    legend = len({cell.mark for row in block.rows for cell in row.cells if cell.mark})
    assert len(drawn.findall(f".//{SVG}use")) == marks + legend
    tinted = [one.get("d", "") for one in drawn.iter(f"{SVG}path") if one.get("class") == "on"]
    assert "".join(tinted).count("M") == tints  # one figure of a path for each cell
    ids = {one.get("id") for one in drawn.iter()}
    assert {one.get("href", "")[1:] for one in drawn.iter(f"{SVG}use")} <= ids


@pytest.mark.parametrize("muscle", [*MUSCLES, WHOLE])
def test_nothing_runs_out_of_the_drawing(muscle: str) -> None:
    drawn = ElementTree.fromstring(FILES[picture(muscle)])
    width, height = int(drawn.get("width", 0)), int(drawn.get("height", 0))
    for group in drawn.findall(f"{SVG}g"):
        left, top = map(int, group.get("transform", "")[10:-1].split())
        for use in group.iter(f"{SVG}use"):
            assert left + int(use.get("x", 0)) + 16 <= width
            assert top + int(use.get("y", 0)) + 16 <= height
    for text in drawn.findall(f"{SVG}text"):
        assert float(text.get("y", 0)) < height


def test_credit_licence_and_address_stand_in_each_file() -> None:
    shelf = shipped_made.book().shelf
    handbook = shelf.handbook
    for content in (FILES[picture("quadriceps")], FILES[picture(WHOLE)]):
        said = " ".join(texts(content))
        assert handbook.title in said and handbook.licence in said and handbook.owner.name in said
        assert "https://" not in said
    there = replace(shelf, site=Publication("https://example.org/book/"))
    assert "https://example.org/book/#map-quadriceps" in texts(file(there, "quadriceps"))
    assert "https://example.org/book/" in texts(whole(there))
