"""Rooms of templates and stylesheets: small enough to take in, no name twice, every colour in one place."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from build_tools.site import templating

SITE = Path(templating.__file__).parent
FILES = [
    path for room in templating.ROOMS for path in sorted((SITE / room).iterdir()) if path.is_file()
]
#: Written as numbers; white and black are what paper and ink are in print.
COLOUR = re.compile(r"#(?:[0-9a-f]{6}|[0-9a-f]{3})\b", re.IGNORECASE)


def test_a_template_is_known_by_its_name_alone() -> None:
    names = [path.name for path in FILES]
    assert len(names) == len(set(names))


def test_every_template_stands_in_a_room_that_is_searched() -> None:
    assert {path for path in (SITE / "templates").rglob("*") if path.is_file()} <= set(FILES)


@pytest.mark.parametrize("room", templating.ROOMS)
def test_no_room_is_crowded(room: str) -> None:
    assert len(list((SITE / room).iterdir())) <= 12


def test_colours_stand_in_the_palette() -> None:
    found = {
        (path.name, colour)
        for path in FILES
        for colour in COLOUR.findall(path.read_text(encoding="utf-8"))
    }
    assert {(name, colour) for name, colour in found if colour not in ("#fff", "#000")} == set()
