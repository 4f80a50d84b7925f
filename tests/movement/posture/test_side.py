"""Bodies seen from the side, with wrists, shoulder girdle and a leg lifted while the other knee carries: places and moments worked by hand."""

from __future__ import annotations

from math import radians, sin

import pytest
from seen_bodies import DUMBBELLS, GRIP, HALF, MASS, VOCABULARY, G, ends, made, posture, reckoned

from build_tools.catalog.entries import Movement
from build_tools.movement.load.moments import Unknown
from build_tools.movement.posture.body import REFERENCE
from build_tools.movement.posture.limits import impossible
from build_tools.movement.posture.pose import frames

# --- wrist, girdle and plane in the side view ---------------------------------------------


@pytest.mark.parametrize(("grip", "sign"), [("underhand", 1), ("overhand", -1)])
def test_a_wrist_curl(grip: str, sign: int) -> None:
    """A level forearm: the weight hangs a grip's length beyond the wrist, and on the back of an overhand one."""
    curl = made(
        "seated",
        {"shoulder": 0, "elbow": 90, "wrist": 0},
        {"shoulder": 0, "elbow": 90, "wrist": 60},
        DUMBBELLS,
        grip=grip,
    )
    first, last = ends(curl, "wrist")
    assert first == pytest.approx(sign * MASS * G * GRIP) and last == pytest.approx(
        sign * MASS * G * GRIP / 2
    )
    low, high = frames(curl, VOCABULARY, steps=2)
    assert (high.joints["hand"][1] > low.joints["hand"][1]) == (sign > 0)


def test_the_girdle_carries_the_arm_forward() -> None:
    punch = made(
        "supine",
        {"scapular-protraction": 0, "shoulder": 90},
        {"scapular-protraction": 20, "shoulder": 90},
    )
    back, ahead = frames(punch, VOCABULARY, steps=2)
    assert ahead.joints["hand"][1] - back.joints["hand"][1] == pytest.approx(
        HALF * sin(radians(20))
    ), "up, for someone on the back"
    assert ahead.joints["mid_shoulder"] == pytest.approx(back.joints["mid_shoulder"])


def test_joints_that_leave_the_plane_have_no_curve() -> None:
    press = made(
        "on-flat-bench",
        {"shoulder": 90, "elbow": 0},
        {"shoulder": -10, "elbow": 100},
        DUMBBELLS,
        out_of_plane=["shoulder", "elbow"],
    )
    assert reckoned(press) == Unknown("the arms also move out of the drawn plane")
    half = reckoned(press.model_copy(update={"out_of_plane": ["shoulder"]}))
    assert not isinstance(half, Unknown) and set(half) == {"elbow"}


def test_feet_stand_on_the_floor_beside_every_bench() -> None:
    for position in (
        "on-flat-bench",
        "inclined-bench",
        "chest-on-bench",
        "seated-upright",
        "hands-behind-on-bench",
    ):
        for tilt in (None, VOCABULARY.positions[position].at - 10):
            frame = posture(position, {"shoulder": 0}, tilt=tilt)
            assert frame.joints["heel"][1] == pytest.approx(0, abs=0.01) and frame.joints["toe"][
                1
            ] == pytest.approx(0, abs=0.01)


# --- a leg lifted while the other knee carries ---------------------------------


KNEELS = {"hip": 90.0, "knee": 108.0, "ankle": -70.0, "shoulder": 88.0, "elbow": 10.0}


LIFTED = {"hip": -2.0, "knee": 2.0, "ankle": -10.0, "shoulder": 88.0, "elbow": 10.0}


def on_hand_and_knee(stays: str) -> Movement:
    """One leg is lifted into line with the trunk; the other leg kneels and the arm of the lifted side stands."""
    return made(
        "one-hand-and-knee",
        KNEELS,
        LIFTED,
        other={"from": KNEELS, "to": KNEELS},
        stays=stays,
        via=[{**KNEELS, "hip": 42.0, "knee": 95.0, "ankle": -55.0}],
    )


def test_the_hip_of_a_lifted_leg_holds_that_leg_and_no_more() -> None:
    # By hand with de Leva's table 4 (men, 75 kg, 1.75 m): thigh 10.62 kg with its centre at 0.410 of 0.429 m, shank 3.25 kg at
    # 0.440 of 0.431 m, foot 1.03 kg beyond the ankle, all nearly level: 9.81 x (1.87 + 2.01 + about 0.95) = 47 N m.
    found = reckoned(on_hand_and_knee("other"), REFERENCE, one_side=True)
    assert isinstance(found, dict)
    assert abs(found["hip"].samples[-1].moment) == pytest.approx(47, abs=3)


def test_a_rest_on_hand_and_knee_is_judged_by_the_leg_that_stays() -> None:
    assert list(impossible(on_hand_and_knee("other"), VOCABULARY)) == []
    assert any(
        "knees miss" in trouble.message or "below the floor" in trouble.message
        for trouble in impossible(on_hand_and_knee("this"), VOCABULARY)
    )
