"""What the checks on postures find, and that no shipped exercise has any of it."""

from __future__ import annotations

import pytest
import shipped_made

from build_tools.catalog.entries import Movement, Vocabulary
from build_tools.movement.posture.balance import beyond_feet
from build_tools.movement.posture.limits import impossible, not_shown, out_of_range, unbalanced
from build_tools.movement.posture.pose import frames, key_frames

CATALOG = shipped_made.catalog()
VOCABULARY: Vocabulary = CATALOG.vocabulary.data
MOVEMENTS = {id: exercise.data.movement for id, exercise in CATALOG.exercises.items()}


def movement(
    position: str, start: dict[str, float], end: dict[str, float] | None = None, **more: object
) -> Movement:
    load_ = more.pop("load", {"kind": "free-weight", "at": "hand"})
    return Movement.model_validate(
        {"position": position, "from": start, "to": end or start, "load": load_, **more}
    )


@pytest.mark.parametrize("id", MOVEMENTS)
def test_shipped_postures_are_sound(id: str) -> None:
    shown = MOVEMENTS[id]
    troubles = [
        *out_of_range(shown),
        *not_shown(shown),
        *impossible(shown, VOCABULARY),
        *unbalanced(shown, VOCABULARY),
    ]
    assert not troubles


@pytest.mark.parametrize(
    "id",
    [
        id
        for id, shown in MOVEMENTS.items()
        if shown.load.kind == "free-weight"
        and shown.load.at == "hand"
        and shown.view == "side"
        and shown.position in ("standing", "standing-tall")
    ],
)
def test_weights_in_the_hand_stay_over_or_near_the_feet(id: str) -> None:
    """Where straight arms hang; a weight held further out is balanced by leaning back a little, which nobody writes down."""
    for frame in key_frames(MOVEMENTS[id], VOCABULARY):
        if abs(frame.segments["upper_arm"].angle) > 20 or frame.angles["elbow"] > 20:
            continue
        xs = [x for joint, (x, _) in frame.joints.items() if joint.endswith(("heel", "toe"))]
        assert min(xs) - 0.1 <= frame.joints["hand"][0] <= max(xs) + 0.1


@pytest.mark.parametrize(
    ("joint", "angle", "sound"),
    [("knee", -25, False), ("knee", 150, True), ("hip", 200, False), ("ankle", 39, True)],
)
def test_joint_ranges(joint: str, angle: float, sound: bool) -> None:
    assert (not list(out_of_range(movement("standing", {joint: angle})))) == sound


def test_ranges_of_the_second_leg_and_of_frames_on_the_way() -> None:
    wrong = movement(
        "standing", {"knee": 0}, via=[{"knee": -90}], other={"from": {"hip": 0}, "to": {"hip": 300}}
    )
    assert [trouble.path for trouble in out_of_range(wrong)] == [
        ("via", 0, "knee"),
        ("other", "to", "hip"),
    ]


def test_foot_through_the_floor() -> None:
    [trouble] = impossible(
        movement("seated", {"hip": 90, "knee": 90}, support={"seat": 0.2}), VOCABULARY
    )
    assert trouble.path == ("position",) and "below the floor" in trouble.message


def test_hand_beside_its_bar() -> None:
    bar = {"kind": "free-weight", "at": "hand", "height": 0.225}
    [trouble] = impossible(movement("standing", {"hip": 60, "shoulder": 60}, load=bar), VOCABULARY)
    assert trouble.path == ("load", "height") and "miss the load at 0.225 m" in trouble.message


def test_second_leg_that_cannot_reach() -> None:
    [trouble] = impossible(movement("standing", {"hip": 0}, other={"toes": [-1.5, 0]}), VOCABULARY)
    assert trouble.path == ("other", "toes")


def test_two_points_too_far_apart() -> None:
    troubles = list(
        impossible(
            movement("shoulders-and-heels", {"hip": 0, "knee": 0}, support={"heels": 2.0}),
            VOCABULARY,
        )
    )
    assert any("miss what carries them" in trouble.message for trouble in troubles)


def test_leaning_back_without_hold() -> None:
    [trouble] = unbalanced(movement("standing", {"knee": 40}), VOCABULARY)
    assert "behind the feet" in trouble.message
    assert not list(
        unbalanced(
            movement("standing", {"knee": 40}, load={"kind": "cable", "at": "hand"}), VOCABULARY
        )
    )


def test_weight_between_two_feet_is_carried() -> None:
    split = movement(
        "standing", {"hip": 95, "knee": 90, "ankle": 5}, other={"toes": [-0.85, 0.0], "pitch": -75}
    )
    assert beyond_feet(frames(split, VOCABULARY, steps=2)[0], (0.0,)) == 0


def test_side_and_front_do_not_mix() -> None:
    sideways = movement("standing-tall", {"shoulder-abduction": 0}, {"shoulder-abduction": 90})
    assert [trouble.path for trouble in not_shown(sideways)] == [
        ("from", "shoulder-abduction"),
        ("to", "shoulder-abduction"),
    ]
    assert not list(not_shown(sideways.model_copy(update={"view": "front"})))
