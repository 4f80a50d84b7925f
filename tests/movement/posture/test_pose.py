"""Postures that can be worked out by hand, and what holds in every posture."""

from __future__ import annotations

from math import cos, dist, radians

import pytest
import shipped_made
from hypothesis import given
from hypothesis import strategies as st

from build_tools.catalog.entries import Movement
from build_tools.movement.posture.body import REFERENCE
from build_tools.movement.posture.frame import ARM, LEG, OTHER, SEGMENTS, Frame
from build_tools.movement.posture.pose import frames, key_frames

VOCABULARY = shipped_made.vocabulary()


THIGH, SHANK, TRUNK, ARM_LENGTH = (
    REFERENCE.length(name) for name in ("thigh", "shank", "trunk", "upper_arm")
)


SOLE = REFERENCE.length("ankle_height")


def movement(
    position: str, start: dict[str, float], end: dict[str, float] | None = None, **more: object
) -> Movement:
    load_ = more.pop("load", {"kind": "body-weight"})
    return Movement.model_validate(
        {"position": position, "from": start, "to": end or start, "load": load_, **more}
    )


def posture(position: str, start: dict[str, float], **more: object) -> Frame:
    return frames(movement(position, start, **more), VOCABULARY, steps=2)[0]


def test_upright_standing() -> None:
    frame = posture("standing", {"hip": 0})
    assert frame.joints["head"] == pytest.approx((0, 1.75)), "the lengths add up to the stature"
    assert (
        frame.joints["toe"][1] == pytest.approx(0)
        and frame.joints["heel"][0] < 0 < frame.joints["toe"][0]
    )
    assert all(frame.segments[name].angle == 0 for name in SEGMENTS)
    assert frame.joints["hand"][1] < frame.joints["hip"][1]


def test_hinge_with_straight_knees_lays_the_trunk_level() -> None:
    frame = posture("standing", {"hip": 90, "knee": 0, "shoulder": 90})
    assert frame.segments["trunk"].angle == pytest.approx(90)
    assert frame.joints["shoulder"] == pytest.approx((TRUNK, SOLE + THIGH + SHANK)), (
        "forward, at the height of the hips"
    )
    assert frame.segments["upper_arm"].angle == pytest.approx(0), (
        "arms hang when the shoulder angle equals the lean"
    )


def test_squat_keeps_the_sole_flat_and_takes_the_knee_forward() -> None:
    frame = posture("standing", {"hip": 100, "knee": 110, "ankle": 30})
    assert frame.segments["foot"].angle == pytest.approx(0)
    assert frame.joints["knee"][0] > frame.joints["ankle"][0] > frame.joints["hip"][0]
    assert frame.segments["trunk"].angle == pytest.approx(20)


def test_sitting_with_bent_knees() -> None:
    frame = posture("seated", {"hip": 90, "knee": 90})
    assert frame.segments["trunk"].angle == pytest.approx(0) and frame.segments[
        "shank"
    ].angle == pytest.approx(0)
    assert frame.joints["knee"] == pytest.approx(
        (frame.joints["hip"][0] + THIGH, frame.joints["hip"][1])
    )


def test_lying_curl_lifts_the_shank_upright() -> None:
    frame = posture("prone", {"hip": 0, "knee": 90})
    assert frame.joints["head"][0] > frame.joints["hip"][0] > frame.joints["knee"][0], (
        "face down, head in front"
    )
    assert frame.joints["ankle"] == pytest.approx(
        (frame.joints["knee"][0], frame.joints["knee"][1] + SHANK)
    )


def test_kneeling_fall_in_one_line() -> None:
    upright, low = key_frames(
        movement("kneeling", {"hip": 0, "knee": 90}, {"hip": 0, "knee": 30}), VOCABULARY
    )
    assert upright.segments["trunk"].angle == pytest.approx(0)
    assert low.segments["trunk"].angle == pytest.approx(60) and low.segments[
        "thigh"
    ].angle == pytest.approx(-60)
    assert low.joints["shoulder"][1] - low.joints["knee"][1] == pytest.approx(
        (THIGH + TRUNK) * cos(radians(60))
    )


def test_arm_overhead_and_bent_elbow() -> None:
    frame = posture("standing-tall", {"shoulder": 180, "elbow": 90})
    assert frame.joints["elbow"] == pytest.approx((0, frame.joints["shoulder"][1] + ARM_LENGTH))
    assert frame.joints["hand"][0] < 0 and frame.joints["hand"][1] == pytest.approx(
        frame.joints["elbow"][1]
    )


def test_curl_brings_the_hand_forward_and_extension_takes_it_back() -> None:
    assert posture("standing-tall", {"elbow": 90}).joints["hand"][0] > 0.2
    assert posture("standing-tall", {"shoulder": -40}).joints["hand"][0] < -0.2
    behind = posture("standing-tall", {"hip": -20}).joints
    assert behind["knee"][0] < behind["hip"][0], "the thigh goes behind the body"


def test_rounded_back_bends_forward() -> None:
    frame = posture("standing", {"spine": 40})
    assert frame.segments["lower_trunk"].angle == 0 and frame.segments["upper_trunk"].angle == 40


def test_pointed_toes_lift_a_standing_body() -> None:
    flat, raised = key_frames(movement("standing-tall", {"ankle": 0}, {"ankle": -40}), VOCABULARY)
    assert (
        raised.joints["head"][1] > flat.joints["head"][1]
        and raised.joints["heel"][1] > raised.joints["toe"][1]
    )
    assert raised.joints["toe"] == pytest.approx(flat.joints["toe"]), "on the spot"


@pytest.mark.parametrize(
    ("position", "angles", "resting"),
    [
        ("shoulders-on-floor", {"hip": 0, "knee": 95}, {"shoulder": 0.1, "ankle": SOLE}),
        ("shoulders-on-bench", {"hip": 60, "knee": 75}, {"shoulder": 0.5, "ankle": SOLE}),
        ("shoulders-and-heels", {"hip": 0, "knee": 20}, {"shoulder": 0.1, "heel": 0}),
        ("hands-on-floor", {"hip": 0}, {"hand": 0, "toe": 0}),
    ],
)
def test_a_body_on_two_points_rests_on_both(
    position: str, angles: dict[str, float], resting: dict[str, float]
) -> None:
    frame = posture(position, angles)
    assert {joint: frame.joints[joint][1] for joint in resting} == pytest.approx(resting, abs=1e-9)
    assert (frame.segments["trunk"].angle < 0) == (position != "hands-on-floor"), (
        "face up but for hands on the floor"
    )


def test_hanging_body_rises_past_still_hands() -> None:
    low, high = key_frames(
        movement("hanging", {"shoulder": 180, "elbow": 0}, {"shoulder": 60, "elbow": 120}),
        VOCABULARY,
    )
    assert (
        low.joints["hand"] == pytest.approx(high.joints["hand"])
        and high.joints["head"][1] > low.joints["head"][1] + 0.3
    )


def test_second_leg_keeps_its_toes_in_place() -> None:
    split = movement(
        "standing",
        {"hip": 10, "knee": 10, "ankle": 5},
        {"hip": 100, "knee": 95, "ankle": 10},
        other={"toes": [-0.8, 0.4], "pitch": -160},
    )
    for frame in frames(split, VOCABULARY):
        assert frame.joints[OTHER + "toe"] == pytest.approx((-0.8, 0.4))
        assert frame.angles[OTHER + "knee"] > 0, "the knee bends the human way"


def test_front_view_is_a_mirror_image() -> None:
    frame = posture("standing-tall", {"shoulder-abduction": 90, "hip-abduction": 20}, view="front")
    for joint in (*LEG, *ARM):
        x, y = frame.joints[joint]
        assert frame.joints[OTHER + joint] == pytest.approx((-x, y))
    assert (
        frame.joints["hand"][1] == pytest.approx(frame.joints["shoulder"][1])
        and frame.joints["hand"][0] > 0.7
    )
    assert frame.joints["ankle"][0] > frame.joints["hip"][0] and frame.joints["heel"][
        1
    ] == pytest.approx(0)


def test_key_frames_on_the_way_are_passed_at_even_times() -> None:
    moved = movement("standing", {"hip": 0}, {"hip": 20}, via=[{"hip": 90}])
    shown = frames(moved, VOCABULARY, steps=5)
    assert [frame.angles["hip"] for frame in shown] == pytest.approx([0, 45, 90, 55, 20])
    assert [frame.time for frame in shown] == pytest.approx([0, 0.25, 0.5, 0.75, 1])


SIDE = st.fixed_dictionaries(
    {
        joint: st.floats(low, high)
        for joint, (low, high) in {
            "hip": (-30, 140),
            "knee": (0, 150),
            "ankle": (-50, 40),
            "spine": (-20, 60),
            "shoulder": (-60, 180),
            "elbow": (0, 150),
        }.items()
    }
)


@given(st.sampled_from([p for p in VOCABULARY.positions]), SIDE, SIDE, st.booleans())
def test_every_bone_keeps_its_length(
    position: str, start: dict[str, float], end: dict[str, float], second: bool
) -> None:
    other = (
        {"other": {"from": {"hip": 0, "knee": 30}, "to": {"hip": 60, "knee": 10}}} if second else {}
    )
    for frame in frames(movement(position, start, end, **other), VOCABULARY, steps=3):
        for name, segment in frame.segments.items():
            plain = name.removeprefix(OTHER)
            if plain != "trunk":  # the chord of a bent spine is shorter
                length = TRUNK / 2 if plain.endswith("_trunk") else REFERENCE.length(plain)
                assert dist(segment.start, segment.end) == pytest.approx(length)
        assert frame.segments["thigh"].angle - frame.segments["shank"].angle == pytest.approx(
            frame.angles["knee"]
        )
        assert frame.segments["foot"].angle - frame.segments["shank"].angle == pytest.approx(
            frame.angles["ankle"]
        )
        assert frame.segments["thigh"].angle + frame.segments["lower_trunk"].angle == pytest.approx(
            frame.angles["hip"]
        )
