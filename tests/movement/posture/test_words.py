"""Postures in words: what stands in for a drawing.

What a coach would say of each exercise is the outside check; the sentences were
written by hand from the angles, before they were composed.
"""

from __future__ import annotations

import pytest
import shipped_made
from hinge import moved

from build_tools.catalog.entries import Vocabulary
from build_tools.catalog.load import Catalog
from build_tools.movement.posture.pose import key_angles
from build_tools.movement.posture.words import key_postures, placed


@pytest.fixture(scope="module")
def shipped() -> Catalog:
    return shipped_made.catalog()


@pytest.fixture(scope="module")
def vocabulary(shipped: Catalog) -> Vocabulary:
    assert shipped.vocabulary
    return shipped.vocabulary.data


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
    assert [told.label for told in key_postures(one, vocabulary)] == ["Top", "Midway", "Bottom"]
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
