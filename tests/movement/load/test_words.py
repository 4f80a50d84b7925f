"""Phrases made from curves whose shape is known in closed form, and what the ends are called."""

from math import cos, radians

import pytest
from known_curves import curve, hanging

from build_tools.movement.load.words import ends, load_phrase


@pytest.mark.parametrize(
    ("law", "start", "end", "called", "phrase"),
    [
        (lambda _: 30, 0, 90, ("the start", "the end"), "about the same throughout"),
        (lambda a: 80 + a / 5, 0, 100, ("the start", "the end"), "about the same throughout"),
        (
            lambda a: 79 + a / 5,
            0,
            100,
            ("the start", "the end"),
            "hardest near the end",
        ),  # falls just below 80 % of its peak
        (lambda a: 100 - a / 2, 0, 100, ("the bottom", "the top"), "hardest near the bottom"),
        (
            hanging,
            0,
            90,
            ("the bottom", "the top"),
            "hardest near the top, with almost none near the bottom",
        ),
        (
            lambda a: hanging(90 - a),
            0,
            90,
            ("the start", "the end"),
            "hardest near the start, with almost none near the end",
        ),
        (
            hanging,
            0,
            180,
            ("the start", "the end"),
            "hardest in the middle, with almost none near the start and near the end",
        ),
        (hanging, 30, 150, ("the start", "the end"), "hardest in the middle"),
        (
            lambda a: abs(a - 40),
            0,
            100,
            ("the start", "the end"),
            "hardest near the end, with almost none on the way",
        ),
        (
            lambda a: 30 * cos(radians(a)),
            0,
            120,
            ("the start", "the end"),
            "hardest near the start, and changes from one side of the knee to the other on the way",
        ),
        (lambda _: 0.0, 0, 90, ("the start", "the end"), "almost no load about the knee"),
    ],
)
def test_phrases(law, start, end, called, phrase):
    assert load_phrase(curve(law, start, end).summary(), "knee", called) == phrase


@pytest.mark.parametrize(
    ("start", "end", "expected"),
    [
        (0.2, 1.1, ("the bottom", "the top")),
        (1.1, 0.2, ("the top", "the bottom")),
        (1.0, 1.05, ("the start", "the end")),
    ],
)
def test_ends_are_called_by_height_where_the_load_travels(start, end, expected):
    assert ends(start, end) == expected
