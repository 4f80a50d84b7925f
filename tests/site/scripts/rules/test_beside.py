"""Postures laid side by side, read back by Python's parser (expat)."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest
from script_rules import beside

SVG = "{http://www.w3.org/2000/svg}"


def cell(says: str, *box: int) -> dict[str, object]:
    return {"drawing": '<path d="M0 0h9"/>', "box": list(box), "says": says}


@pytest.mark.parametrize("count", [1, 2, 3])
@pytest.mark.parametrize("insets", [0, 1, 3])
def test_nothing_overlaps_and_all_lies_within(count: int, insets: int) -> None:
    poses = [cell(f"Pose <{n}>", -95, -362, 155, 374) for n in range(count)]
    small = [
        cell(f"Feet about as wide as the shoulders, toes a little out {n}", 0, 0, 60, 60)
        for n in range(insets)
    ]
    laid = beside.beside(poses, small)
    width, height = laid["size"]
    root = ElementTree.fromstring(
        f'<svg xmlns="http://www.w3.org/2000/svg">{laid["drawing"]}</svg>'
    )
    placed = [
        [float(svg.attrib[key]) for key in ("x", "y", "width", "height")]
        for svg in root.iter(f"{SVG}svg")
        if "x" in svg.attrib
    ]
    assert len(placed) == count + insets
    for n, (x, y, w, h) in enumerate(placed):
        assert 0 <= x and x + w <= width and 0 <= y and y + h <= height
        for x2, y2, w2, h2 in placed[n + 1 :]:
            assert x + w <= x2 or x2 + w2 <= x or y + h <= y2 or y2 + h2 <= y
    texts = list(root.iter(f"{SVG}text"))
    assert [text.text for text in texts[:count]] == [f"Pose <{n}>" for n in range(count)]
    assert all(0 < float(text.attrib["y"]) <= height for text in texts)


def test_both_keep_one_scale() -> None:
    laid = beside.beside([cell("Start", 0, 0, 400, 100), cell("Finish", 0, 0, 400, 100)], [])
    root = ElementTree.fromstring(
        f'<svg xmlns="http://www.w3.org/2000/svg">{laid["drawing"]}</svg>'
    )
    sizes = {
        (svg.attrib["width"], svg.attrib["height"])
        for svg in root.iter(f"{SVG}svg")
        if "x" in svg.attrib
    }
    assert sizes == {("300", "75")}
