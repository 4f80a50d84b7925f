"""Bodies seen from the front: places and moments worked by hand, with the lengths of Winter's figure 4.1 (`seen_bodies`)."""

from __future__ import annotations

from math import cos, radians

import pytest
from seen_bodies import DUMBBELLS, FOREARM, HALF, MASS, VOCABULARY, G, ends, made, posture, reckoned

from build_tools.movement.load.moments import Unknown
from build_tools.movement.posture.body import REFERENCE
from build_tools.movement.posture.frame import OTHER, Frame
from build_tools.movement.posture.pose import frames


def test_someone_on_the_side_keeps_the_left_up() -> None:
    frame = posture("side-lying", {"hip-abduction": 0}, view="front")
    assert (
        frame.joints["head"][0] < 0 < frame.joints["ankle"][0]
        and frame.joints["hip"][1] > frame.joints[OTHER + "hip"][1]
    )
    assert frame.joints["hip"][1] == pytest.approx(frame.joints["ankle"][1])


def test_a_leg_lifted_on_the_side_weighs_most_when_level() -> None:
    lift = made(
        "side-lying",
        {"hip-abduction": 0},
        {"hip-abduction": 40},
        view="front",
        other={"from": {"hip-abduction": 0}, "to": {"hip-abduction": 0}},
    )
    found = reckoned(lift, REFERENCE, one_side=True)
    assert not isinstance(found, Unknown)
    thigh, shank = (REFERENCE.length(name) for name in ("thigh", "shank"))
    # de Leva 1996: shares of mass and distances of the centres; the foot hangs on the ankle, its centre a sole's height further.
    by_hand = (
        75
        * G
        * (
            0.1416 * 0.4095 * thigh
            + 0.0433 * (thigh + 0.4395 * shank)
            + 0.0137 * (thigh + shank + 0.039 * 1.75)
        )
    )
    assert found["hip-abduction"].samples[0].moment == pytest.approx(by_hand, rel=1e-3)
    assert found["hip-abduction"].samples[-1].moment == pytest.approx(
        by_hand * cos(radians(40)), rel=0.01
    )


def test_a_side_support_rests_on_elbow_and_foot() -> None:
    frame = posture("side-support", {"hip-abduction": 0}, view="front")
    elbow, shoulder = frame.joints[OTHER + "elbow"], frame.joints[OTHER + "shoulder"]
    assert elbow == pytest.approx((0, 0.04)) and shoulder[0] == pytest.approx(0, abs=1e-6), (
        "the arm is upright"
    )
    assert frame.joints[OTHER + "ankle"][1] == pytest.approx(0.05, abs=1e-3)


def test_a_shrug_lifts_the_shoulders_by_a_lever_of_half_their_width() -> None:
    shrug = made(
        "standing-tall",
        {"scapular-elevation": 0},
        {"scapular-elevation": 30},
        DUMBBELLS,
        view="front",
    )
    low, high = frames(shrug, VOCABULARY, steps=2)
    assert high.joints["shoulder"][1] - low.joints["shoulder"][1] == pytest.approx(HALF / 2)
    assert ends(shrug, "scapular-elevation") == pytest.approx(
        (MASS / 2 * G * HALF, MASS / 2 * G * HALF * cos(radians(30)))
    )


def test_forearms_up_ahead_and_down() -> None:
    """An upper arm level to the side: turned out the hand is above it, turned in below; towards the viewer only the elbow is seen."""

    def arm(rotation: float) -> Frame:
        return posture(
            "standing",
            {"shoulder-abduction": 90, "elbow": 90, "shoulder-rotation": rotation},
            view="front",
        )

    level = arm(0).joints["elbow"][1]
    assert arm(-90).joints["hand"][1] == pytest.approx(level + FOREARM) and arm(90).joints["hand"][
        1
    ] == pytest.approx(level - FOREARM)
    assert arm(0).joints["hand"] == pytest.approx(arm(0).joints["elbow"])


def test_a_pelvis_drops_about_the_standing_leg() -> None:
    drop = made(
        "standing",
        {"hip-abduction": 0},
        {"hip-abduction": 0},
        view="front",
        stays="other",
        other={"from": {"hip-abduction": 0}, "to": {"hip-abduction": -10}},
    )
    level, dropped = frames(drop, VOCABULARY, steps=2)
    assert (
        dropped.joints["hip"][1]
        < dropped.joints[OTHER + "hip"][1]
        == pytest.approx(level.joints[OTHER + "hip"][1])
    )
    assert dropped.segments[OTHER + "thigh"].angle == pytest.approx(0)
