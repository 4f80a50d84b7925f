"""Postures in words: what stands in for a drawing, and which segment a drawing stresses.

What a coach would say of each exercise is the outside check; the sentences were
written by hand from the angles, before they were composed.
"""

from __future__ import annotations

import pytest
from folders import SHIPPED

from build_tools.catalog.entries import Movement, Vocabulary
from build_tools.catalog.load import Catalog, load
from build_tools.movement.load.working import load_path, working_segment
from build_tools.movement.posture.pose import frames, key_angles
from build_tools.movement.posture.words import key_postures, placed


@pytest.fixture(scope="module")
def shipped() -> Catalog:
    return load(SHIPPED)


@pytest.fixture(scope="module")
def vocabulary(shipped: Catalog) -> Vocabulary:
    assert shipped.vocabulary
    return shipped.vocabulary.data


def moved(**changes: object) -> Movement:
    hinge = {
        "position": "standing",
        "from": {"hip": 0},
        "to": {"hip": 90},
        "load": {"kind": "body-weight"},
    }
    return Movement.model_validate(hinge | changes)


def test_start_and_finish_name_the_position_and_every_joint(vocabulary: Vocabulary) -> None:
    movement = moved(
        position="seated", **{"from": {"hip": 90, "knee": 0}, "to": {"hip": 90, "knee": 100}}
    )
    assert placed(movement, vocabulary) == "Seated"
    assert [(told.label, told.words) for told in key_postures(movement, vocabulary)] == [
        ("Start", "hips bent 90°, knees straight"),
        ("Finish", "hips bent 90°, knees bent 100°"),
    ]


def test_what_lies_between_is_told(vocabulary: Vocabulary) -> None:
    one, two = moved(via=[{"hip": 40}]), moved(via=[{"hip": 30}, {"hip": 60}])
    assert [told.label for told in key_postures(one, vocabulary)] == ["Start", "Midway", "Finish"]
    assert [told.words for told in key_postures(two, vocabulary)] == [
        "hips straight",
        "hips bent 30°",
        "hips bent 60°",
        "hips bent 90°",
    ]
    assert len({told.label for told in key_postures(two, vocabulary)}) == 4


def test_past_straight_has_its_own_words(vocabulary: Vocabulary) -> None:
    told = key_postures(
        moved(**{"from": {"hip": -20, "ankle": -10}, "to": {"hip": 0, "ankle": 0}}), vocabulary
    )
    assert [t.words for t in told] == [
        "thigh behind the body 20°, toes pointed 10°",
        "hips straight, ankles square",
    ]


def test_a_joint_named_once_is_told_at_both_ends(vocabulary: Vocabulary) -> None:
    """Left out, a knee follows the position: 90° on a seat."""
    told = key_postures(
        moved(position="seated", **{"from": {"knee": 10, "hip": 80}, "to": {"hip": 80}}), vocabulary
    )
    assert told[1].words == "knees bent 90°, hips bent 80°"


def test_a_second_leg_has_words_of_its_own(vocabulary: Vocabulary) -> None:
    told = key_postures(
        moved(other={"from": {"hip": 0}, "to": {"hip": -20, "knee": 41}}), vocabulary
    )
    assert told[1].words == "hips bent 90°; other leg: thigh behind the body 20°, knees bent 40°"


def test_every_shipped_exercise_names_each_joint_that_moves(
    shipped: Catalog, vocabulary: Vocabulary
) -> None:
    for id, entry in shipped.exercises.items():
        movement = entry.data.movement
        angles = key_angles(movement, vocabulary)
        moving = {joint for joint in angles[0] if len({at[joint] for at in angles}) > 1}
        for told in key_postures(movement, vocabulary):
            for joint in moving:
                names = vocabulary.joints[joint]
                assert any(
                    way in told.words
                    for way in (names.flexed, names.straight, names.extended)
                    if way
                ), (id, joint)


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
