"""Bodies seen from the head: places and moments worked by hand, with the lengths of Winter's figure 4.1 (`seen_bodies`)."""

from __future__ import annotations

from math import asin, cos, degrees, radians, sin

import pytest
from seen_bodies import (
    ARM,
    DUMBBELLS,
    FOREARM,
    HALF,
    MASS,
    VOCABULARY,
    G,
    ends,
    made,
    posture,
    reckoned,
)

from build_tools.movement.load.moments import Unknown
from build_tools.movement.posture.frame import OTHER
from build_tools.movement.posture.pose import frames


def test_arms_straight_out_and_straight_ahead() -> None:
    out, ahead = frames(
        made("standing", {"shoulder-horizontal": 0}, {"shoulder-horizontal": 90}, view="above"),
        VOCABULARY,
        steps=2,
    )
    assert out.joints["hand"] == pytest.approx((-HALF - ARM, 0)), (
        "the left hand to the left of the page, the face up"
    )
    assert ahead.joints["hand"] == pytest.approx((-HALF, ARM)) and ahead.joints[
        OTHER + "hand"
    ] == pytest.approx((HALF, ARM))


def test_hands_meet_in_the_middle() -> None:
    frame = posture(
        "standing", {"shoulder-horizontal": 90 + degrees(asin(HALF / ARM))}, view="above"
    )
    assert frame.joints["hand"][0] == pytest.approx(0) and frame.joints[
        OTHER + "hand"
    ] == pytest.approx(frame.joints["hand"])


def test_elbow_and_rotation_bring_the_hand_to_the_middle() -> None:
    assert (
        posture("standing", {"shoulder-horizontal": 0, "elbow": 90}, view="above").joints["hand"][1]
        > 0.2
    ), "to the front"
    inward, ahead, outward = (
        posture("standing", {"shoulder-rotation": r}, view="above").joints["hand"]
        for r in (50, 0, -50)
    )
    assert abs(inward[0]) < abs(ahead[0]) < abs(outward[0]) and ahead == pytest.approx(
        (-HALF, FOREARM)
    )


def test_a_turn_to_the_left_takes_the_left_shoulder_back() -> None:
    frame = posture("standing", {"spine-rotation": 30}, view="above")
    assert frame.joints["shoulder"] == pytest.approx(
        (-HALF * cos(radians(30)), -HALF * sin(radians(30)))
    )
    assert frame.joints["hip"][1] == pytest.approx(0), "the pelvis stays"


@pytest.mark.parametrize(
    ("position", "gravity", "turn"),
    [
        ("seated-upright", 0.0, 0),
        ("on-flat-bench", 1.0, 0),
        ("inclined-bench", sin(radians(45)), 0),
        ("prone", 1.0, 180),
        ("side-lying", 1.0, -90),
    ],
)
def test_gravity_lies_in_the_plane_as_far_as_the_trunk_lies_down(
    position: str, gravity: float, turn: float
) -> None:
    frame = posture(position, {"shoulder-horizontal": 0}, view="above")
    assert (frame.gravity, frame.turn) == pytest.approx((gravity, turn))


def test_a_fly_is_heaviest_with_the_arms_out_and_nothing_with_the_arms_up() -> None:
    fly = made(
        "on-flat-bench",
        {"shoulder-horizontal": 0},
        {"shoulder-horizontal": 90},
        DUMBBELLS,
        view="above",
    )
    assert ends(fly, "shoulder-horizontal") == pytest.approx((MASS / 2 * G * ARM, 0)), (
        "one of two dumbbells at arm's length"
    )
    inclined = fly.model_copy(update={"position": "inclined-bench"})
    assert ends(inclined, "shoulder-horizontal")[0] == pytest.approx(
        MASS / 2 * G * ARM * sin(radians(45))
    )


def test_a_reverse_fly_asks_the_other_side() -> None:
    fly = made(
        "prone", {"shoulder-horizontal": 90}, {"shoulder-horizontal": 0}, DUMBBELLS, view="above"
    )
    assert ends(fly, "shoulder-horizontal") == pytest.approx((0, -MASS / 2 * G * ARM))


def test_turning_out_on_the_side_is_heaviest_with_the_forearm_level() -> None:
    turn = made(
        "side-lying",
        {"shoulder-rotation": 0},
        {"shoulder-rotation": -90},
        DUMBBELLS,
        view="above",
        other={"from": {"shoulder-rotation": 0}, "to": {"shoulder-rotation": 0}},
    )
    assert ends(turn, "shoulder-rotation", one_side=True) == pytest.approx((-MASS * G * FOREARM, 0))


def test_a_cable_from_the_right_loads_the_outward_turn_of_the_left_arm() -> None:
    """Level with the hand, the line pulls square to a forearm that points ahead."""
    cable = {"kind": "cable", "at": "hand", "from": {"x": FOREARM, "left": -2.0, "height": "mid"}}
    turn = made(
        "standing",
        {"shoulder-rotation": 0},
        {"shoulder-rotation": -40},
        cable,
        view="above",
        other={"from": {"shoulder-rotation": 0}, "to": {"shoulder-rotation": 0}},
    )
    assert ends(turn, "shoulder-rotation", one_side=True)[0] == pytest.approx(-MASS * G * FOREARM)


def test_a_band_between_the_hands_pulls_them_together() -> None:
    band = {"kind": "band", "at": "hand", "from": "other-hand"}
    apart = made(
        "standing", {"shoulder-horizontal": 90}, {"shoulder-horizontal": 0}, band, view="above"
    )
    first, last = ends(apart, "shoulder-horizontal")
    assert first < 0 and last == pytest.approx(0), (
        "no lever once both arms and the band are one line"
    )


@pytest.mark.parametrize("load", [DUMBBELLS, {"kind": "body-weight"}])
def test_a_weight_that_pulls_along_the_body_is_not_reckoned(load: object) -> None:
    turned = made(
        "standing", {"shoulder-horizontal": 0}, {"shoulder-horizontal": 90}, load, view="above"
    )
    assert reckoned(turned) == Unknown("the weight pulls along the body, not in the drawn plane")
