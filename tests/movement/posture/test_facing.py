"""Movements told from above and shown from the front: the same points of the room, seen from another side.

Outside check: plane trigonometry on the segment lengths of Drillis and Contini (1966) as fractions of stature.
"""

from __future__ import annotations

from math import cos, dist, radians, sin

import pytest
import shipped_made

from build_tools.movement.posture.body import REFERENCE
from build_tools.movement.posture.facing import profiles, shown_frames, shown_key_frames
from build_tools.movement.posture.frame import Frame
from build_tools.movement.posture.pose import frames

STATURE = 1.75
THIGH, UPPER_ARM, FOREARM = (share * STATURE for share in (0.245, 0.186, 0.146))
SHOWN = [id for id, e in shipped_made.catalog().exercises.items() if e.data.movement.shown]


def shown(id: str) -> tuple[Frame, Frame]:
    movement = shipped_made.catalog().exercises[id].data.movement
    first, *_, last = shown_key_frames(movement, shipped_made.vocabulary())
    return first, last


def test_those_that_a_client_could_not_read_are_turned() -> None:
    """The list of the review of the figures."""
    assert {
        "clamshell",
        "hip-abduction-machine",
        "hip-adduction-machine",
        "ball-squeeze",
        "side-lying-external-rotation",
        "band-external-rotation",
        "band-internal-rotation",
        "cable-external-rotation",
        "cable-internal-rotation",
        "seated-trunk-rotation",
    } <= set(SHOWN)


def test_what_is_not_turned_stays_as_it_is_reckoned() -> None:
    movement = shipped_made.catalog().exercises["back-squat"].data.movement
    vocabulary = shipped_made.vocabulary()
    assert shown_frames(movement, vocabulary, steps=5) == frames(movement, vocabulary, steps=5)


def test_knees_spread_by_the_thigh_times_the_sine() -> None:
    for id in ("hip-abduction-machine", "hip-adduction-machine"):
        movement = shipped_made.catalog().exercises[id].data.movement
        for frame, told in zip(shown(id), (movement.start, movement.end), strict=True):
            spread = radians(told["hip-abduction"])
            for prefix, side in (("", 1), ("other_", -1)):
                out = frame.joints[prefix + "knee"][0] - frame.joints[prefix + "hip"][0]
                assert side * out == pytest.approx(THIGH * sin(spread))
            # A thigh that points at the viewer is level: knee as high as hip.
            assert frame.joints["knee"][1] == pytest.approx(frame.joints["hip"][1])


def test_a_clamshell_opens_at_the_knee_while_the_heels_stay_together() -> None:
    shut, open_ = shown("clamshell")
    # Hips bent by half a right angle, thigh lifted by 35 degrees about the body's long axis.
    lift = THIGH * sin(radians(45)) * sin(radians(35))
    assert open_.joints["knee"][1] - shut.joints["knee"][1] == pytest.approx(lift)
    assert open_.joints["ankle"] == shut.joints["ankle"]
    assert dist(open_.joints["ankle"], open_.joints["other_ankle"]) < 0.1
    assert open_.joints["other_knee"] == shut.joints["other_knee"]


@pytest.mark.parametrize(
    "id",
    [
        "band-external-rotation",
        "cable-external-rotation",
        "band-internal-rotation",
        "cable-internal-rotation",
    ],
)
def test_a_forearm_that_turns_is_seen_by_its_sine_below_a_hanging_arm(id: str) -> None:
    movement = shipped_made.catalog().exercises[id].data.movement
    for frame, told in zip(shown(id), (movement.start, movement.end), strict=True):
        elbow, wrist, shoulder = (frame.joints[j] for j in ("elbow", "wrist", "shoulder"))
        assert shoulder[1] - elbow[1] == pytest.approx(UPPER_ARM) and shoulder[0] == elbow[0]
        # Turned in, the left forearm points to the middle of the page.
        turned_in = sin(radians(told["shoulder-rotation"]))
        assert elbow[0] - wrist[0] == pytest.approx(FOREARM * turned_in)
        assert wrist[1] == pytest.approx(elbow[1])


def test_on_the_side_the_hand_rises_from_the_belly() -> None:
    down, up = shown("side-lying-external-rotation")
    assert down.joints["hand"][1] < down.joints["elbow"][1] < up.joints["hand"][1]
    assert up.joints["elbow"] == down.joints["elbow"]


def test_a_turned_chest_takes_shoulders_and_hands_along() -> None:
    right, left = shown("seated-trunk-rotation")
    assert right.joints["hand"][0] < -0.2 and left.joints["hand"][0] > 0.2
    half = 0.259 * STATURE / 2
    assert left.joints["shoulder"][0] == pytest.approx(half * cos(radians(40)))
    for joint in ("knee", "ankle", "hip"):
        assert left.joints[joint] == right.joints[joint]


@pytest.mark.parametrize("id", SHOWN)
def test_nothing_is_longer_than_it_is(id: str) -> None:
    for frame in shown(id):
        for name in ("thigh", "shank", "forearm"):
            if id == "clamshell" and name == "shank":
                continue  # its heel is put on the other one
            segment = frame.segments[name]
            assert dist(segment.start, segment.end) <= REFERENCE.length(name) + 1e-9


def test_from_the_side_the_arm_reaches_as_far_forward_as_it_is_told() -> None:
    movement = shipped_made.catalog().exercises["dumbbell-fly"].data.movement
    first, last = profiles(movement, shipped_made.vocabulary())
    ahead = sin(radians(80)) * UPPER_ARM
    assert first.joints["elbow"][1] - first.joints["shoulder"][1] == pytest.approx(ahead)
    assert last.joints["elbow"][1] < last.joints["shoulder"][1]  # drawn back by 5 degrees


def test_someone_propped_on_the_forearm_has_a_hand_on_the_hip() -> None:
    frame, _ = shown("side-plank")
    assert frame.joints["hand"] == frame.joints["hip"]
    upper = dist(frame.joints["shoulder"], frame.joints["elbow"])
    assert upper == pytest.approx(UPPER_ARM)
    assert dist(frame.joints["elbow"], frame.joints["wrist"]) == pytest.approx(FOREARM)
