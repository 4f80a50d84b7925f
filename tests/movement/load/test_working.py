"""Which segment works and which way the load goes: what a coach would point at is the outside check."""

from __future__ import annotations

import pytest
import shipped_made
from hinge import moved

from build_tools.catalog.entries import Vocabulary
from build_tools.catalog.load import Catalog
from build_tools.movement.load.working import load_path, working_segment
from build_tools.movement.posture.pose import frames


@pytest.fixture(scope="module")
def shipped() -> Catalog:
    return shipped_made.catalog()


@pytest.fixture(scope="module")
def vocabulary(shipped: Catalog) -> Vocabulary:
    assert shipped.vocabulary
    return shipped.vocabulary.data


@pytest.mark.parametrize(
    ("id", "segment"),
    [
        ("romanian-deadlift", "trunk"),
        ("good-morning", "trunk"),
        ("hip-extension-45", "trunk"),  # a hinge moves the trunk
        ("back-squat", "thigh"),
        ("forward-lunge", "thigh"),
        ("reverse-hyperextension", "thigh"),
        ("bent-knee-bridge", "thigh"),
        ("seated-leg-curl", "shank"),
        ("prone-leg-curl", "shank"),
        ("standing-leg-curl", "shank"),
        ("nordic-curl", "thigh"),
        (
            "glute-ham-raise",
            "thigh",
        ),  # the knee bends, the shank is held: trunk and arms are carried along
    ],
)
def test_the_working_segment_is_the_one_a_coach_would_point_at(
    shipped: Catalog, vocabulary: Vocabulary, id: str, segment: str
) -> None:
    assert working_segment(frames(shipped.exercises[id].data.movement, vocabulary)) == segment


@pytest.mark.parametrize(
    ("start", "end", "segment"),
    [
        ({"elbow": 5}, {"elbow": 140}, "forearm"),  # a curl
        ({"shoulder": 0}, {"shoulder": 90}, "upper_arm"),  # a front raise
    ],
)
def test_arms_work_too(
    vocabulary: Vocabulary, start: dict[str, float], end: dict[str, float], segment: str
) -> None:
    assert working_segment(frames(moved(**{"from": start, "to": end}), vocabulary)) == segment


def test_sideways_raises_work_in_the_front_view(vocabulary: Vocabulary) -> None:
    movement = moved(
        view="front", **{"from": {"shoulder-abduction": 5}, "to": {"shoulder-abduction": 90}}
    )
    assert working_segment(frames(movement, vocabulary)) == "upper_arm"


def test_the_way_is_the_loads_or_that_of_what_travels_furthest(
    shipped: Catalog, vocabulary: Vocabulary
) -> None:
    squat, nordic = (shipped.exercises[id].data.movement for id in ("back-squat", "nordic-curl"))
    for movement, joint in ((squat, "mid_shoulder"), (nordic, "mid_shoulder")):
        course = frames(movement, vocabulary)
        assert load_path(movement.load, course) == [frame.joints[joint] for frame in course]
        assert (
            load_path(movement.load, course)[0][1] > load_path(movement.load, course)[-1][1]
        )  # both go down
