"""Marks are told apart by their drawing alone, in one colour, and by their words."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from build_tools.evidence_map.marks import LEGEND, Mark
from build_tools.site.map import mark as marks


def test_no_two_marks_are_drawn_or_called_alike() -> None:
    for told in (marks.paths, marks.words, marks.symbol):
        assert len({str(told(mark)) for mark in LEGEND}) == len(LEGEND)


@pytest.mark.parametrize("mark", LEGEND, ids=marks.symbol)
def test_a_drawing_is_well_formed_and_silent(mark: Mark) -> None:
    drawn = ElementTree.fromstring(str(marks.drawing(mark)))  # the XML standard's own parser
    assert drawn.get("aria-hidden") == "true"


def test_no_mark_of_activation_speaks_of_growth() -> None:
    assert all("gr" not in marks.words(mark) for mark in LEGEND if mark.kind != "growth")
