"""The arrow of a figure goes the way of the load."""

from __future__ import annotations

from math import dist

import pytest
from drawn_figures import CATALOGS, made, of

from build_tools.movement.posture.pose import frames


def test_the_arrow_begins_and_ends_like_the_load() -> None:
    """Moved aside, not turned or stretched."""
    catalog = CATALOGS["shipped"]
    assert catalog.vocabulary
    for id in ("seated-leg-curl", "romanian-deadlift", "conventional-deadlift"):
        way = next(
            shape for shape in of("shipped", id).poses[0].shapes if shape.style == "way"
        ).room
        movement = catalog.exercises[id].data.movement
        course = frames(movement, catalog.vocabulary.data, steps=len(way))
        joint = {"ankle": "ankle", "hand": "hand"}[movement.load.at or ""]
        first, last = course[0].joints[joint], course[-1].joints[joint]
        assert (way[-1][0] - way[0][0], way[-1][1] - way[0][1]) == pytest.approx(
            (last[0] - first[0], last[1] - first[1])
        )
        assert dist(way[0], first) > 0.04


def test_what_hardly_moves_gets_no_arrow() -> None:
    drawn = made(
        ["none"],
        position="standing",
        **{"from": {"elbow": 0}, "to": {"elbow": 1}},
        load={"kind": "body-weight"},
    )
    assert "way" not in {shape.style for shape in drawn.poses[0].shapes}
