"""Places a body in the front view: what moves sideways, and a body that lies or leans on its right side.

Signs: positive abduction swings a limb away from the middle; a side bend is positive to the left; the elbow bends in the same
plane, the hand upwards, unless the arm turns about itself (``shoulder-rotation``: -90 hand up or out, 0 towards the viewer, 90
down or in). What points at the viewer is seen shorter: thighs and shanks by the angles of hip and knee.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import atan2, cos, degrees, hypot, radians, sin
from typing import ClassVar

from ...catalog.entries import Movement, Position
from .body import HIPS_APART, Body
from .chain import Angles
from .frame import ARM, LEG, OTHER, Frame, Point, along, turned, up
from .side import RESTS, segments
from .view import View

#: Half the width of a foot seen from the front, as a fraction of stature (Winter 2009, figure 4.1: breadth 0.055).
HALF_FOOT = 0.055 / 2
#: A foot that rests higher than this (metres) in a side support is the upper one, on a bench.
RAISED = 0.2
#: Half the breadth of a shoulder that lies on the floor, metres. Our drawing convention.
SHOULDER_DEPTH = 0.06

Placed = tuple[dict[str, Point], dict[str, float]]


def front_frame(
    movement: Movement, position: Position, left: Angles, right: Angles, body: Body, time: float
) -> Frame:
    """One posture in the front view. The left limbs (to the right of the page's middle) have plain names, the right ones ``other_``."""
    lean = _lean(movement, position, left, right, body)
    joints, turns = _body(lean, left, right, position, body)
    dx, dy = _shift(joints, movement, position)
    joints = {name: (x + dx, y + dy) for name, (x, y) in joints.items()}
    seconds = {OTHER + joint: angle for joint, angle in right.items()} if movement.other else {}
    return Frame(time, FRONT, joints, segments(joints, turns), {**left, **seconds})


def _lean(movement: Movement, position: Position, left: Angles, right: Angles, body: Body) -> float:
    """How far the pelvis leans to the person's left, degrees."""
    if position.sideways:
        if position.fixes:
            return position.at if movement.tilt is None else movement.tilt
        return _propped(movement, position, left, right, body)
    if (
        movement.stays == "other"
        and position.fixes == "foot"
        and movement.other
        and movement.other.start
    ):
        return (
            movement.other.start.get("hip-abduction", 0.0) - right["hip-abduction"]
        )  # the standing leg keeps its direction
    return 0.0


def _propped(
    movement: Movement, position: Position, left: Angles, right: Angles, body: Body
) -> float:
    """The lean at which the right elbow and a foot both rest at their heights: halving, since the feet rise as the head sinks."""
    low, high = -150.0, 0.0
    for _ in range(40):
        lean = (low + high) / 2
        joints, _turns = _body(lean, left, right, position, body)
        foot = joints[_foot(movement, position)]
        above = foot[1] - RESTS["side"][1] / 2 - _height(movement, position, "feet")
        elbow = (
            joints[OTHER + "elbow"][1] - RESTS["elbows"][1] - _height(movement, position, "elbows")
        )
        low, high = (lean, high) if above > elbow else (low, lean)
    return (low + high) / 2


def _foot(movement: Movement, position: Position) -> str:
    return "ankle" if _height(movement, position, "feet") > RAISED else OTHER + "ankle"


def _height(movement: Movement, position: Position, point: str) -> float:
    return {**position.rests_on, **movement.support}[point]  # type: ignore[index]


def _shift(joints: dict[str, Point], movement: Movement, position: Position) -> Point:
    """How far to move the body so that it rests in its place."""
    point = next(iter(position.rests_on))
    height = movement.support.get(point, position.rests_on[point])
    if point == "side":
        lowest = min(
            joints[OTHER + "hip"][1] - RESTS["side"][1],
            joints[OTHER + "shoulder"][1] - SHOULDER_DEPTH,
        )
        return -joints["mid_hip"][0], height - lowest
    if point == "elbows" and position.sideways:
        return -joints[OTHER + "elbow"][0], height + RESTS["elbows"][1] - joints[OTHER + "elbow"][1]
    if point == "feet":
        limbs = (OTHER,) if movement.stays == "other" else ("", OTHER)
        lowest = min(joints[limb + "heel"][1] for limb in limbs)
        return (-joints[OTHER + "heel"][0] if movement.stays == "other" else 0.0), height - lowest
    joint, depth = RESTS[point]
    return 0.0, height + depth - joints[joint][1]


def _body(lean: float, left: Angles, right: Angles, position: Position, body: Body) -> Placed:
    upper = lean + left["spine-side-bend"]
    half = body.length("trunk") / 2
    back = up((0.0, 0.0), lean, half)
    shoulders = up(back, upper, half)
    joints: dict[str, Point] = {
        "mid_hip": (0.0, 0.0),
        "mid_back": back,
        "mid_shoulder": shoulders,
        "head": up(shoulders, upper, body.length("head")),
    }
    turns = {"lower_trunk": lean, "upper_trunk": upper, "trunk": (lean + upper) / 2, "head": upper}
    for prefix, side, angles in (("", 1, left), (OTHER, -1, right)):
        arm_angles = _at_rest(angles, upper, position) if prefix else angles
        for placed, angle in (
            _leg(lean, side, angles, position, body),
            _arm(shoulders, upper, side, arm_angles, body),
        ):
            joints.update({prefix + name: point for name, point in placed.items()})
            turns.update({prefix + name: turn for name, turn in angle.items()})
    return joints, turns


def _at_rest(angles: Angles, upper: float, position: Position) -> Angles:
    """The lower arm of someone on the side: upright under the shoulder with the forearm towards the viewer, or along the floor."""
    if not position.sideways:
        return angles
    if "elbows" in position.rests_on:
        return {**angles, "shoulder-abduction": -upper, "elbow": 90.0, "shoulder-rotation": 0.0}
    return {**angles, "shoulder-abduction": 180.0, "elbow": 0.0}


def _leg(lean: float, side: int, angles: Angles, position: Position, body: Body) -> Placed:
    thigh_on, shank_on = cos(radians(angles["hip"])), cos(radians(angles["hip"] - angles["knee"]))
    turn = side * angles["hip-abduction"] - lean
    hip = turned((0.0, 0.0), -lean, (side * body.stature * HIPS_APART / 2, 0.0))
    knee = along(hip, turn, thigh_on * body.length("thigh"))
    ankle = along(knee, turn, shank_on * body.length("shank"))
    sole = turn if position.sideways else 0.0
    heel = along(ankle, sole, body.length("ankle_height"))
    toe = turned(heel, sole, (side * body.stature * HALF_FOOT, 0.0))
    turns = {"thigh": turn, "shank": turn, "foot": sole}
    return dict(zip(LEG, (hip, knee, ankle, heel, toe), strict=True)), turns


def _arm(shoulders: Point, upper: float, side: int, angles: Angles, body: Body) -> Placed:
    lift, half = radians(angles["scapular-elevation"]), body.length("shoulder_width") / 2
    shoulder = turned(shoulders, -upper, (side * half * cos(lift), half * sin(lift)))
    bend, twist = radians(angles["elbow"]), radians(angles.get("shoulder-rotation", -90.0))
    ahead, across = cos(bend), -sin(twist) * sin(bend)
    seen = hypot(ahead, across)
    arm = side * angles["shoulder-abduction"] - upper
    forearm = arm + (side * degrees(atan2(across, ahead)) if seen > 1e-9 else 0.0)
    elbow = along(shoulder, arm, body.length("upper_arm"))
    wrist = along(elbow, forearm, seen * body.length("forearm"))
    hand = along(wrist, forearm, seen * body.length("hand"))
    return dict(zip(ARM, (shoulder, elbow, wrist, hand), strict=True)), {
        "upper_arm": arm,
        "forearm": forearm,
        "hand": forearm,
    }


class FrontView(View):
    """The body facing the viewer, its left limbs to the right of the page's middle."""

    name, apart, upright, across = "front", True, True, "to the side"
    joints = (
        "hip-abduction",
        "shoulder-abduction",
        "elbow",
        "scapular-elevation",
        "spine-side-bend",
        "shoulder-rotation",
        "forearm-rotation",
        "hip",
        "knee",
    )
    #: A knee only shortens what is seen.
    reckoned = frozenset({"hip-abduction", "shoulder-abduction", "elbow", "scapular-elevation"})
    turns: ClassVar[Mapping[str, int]] = {}
    unreckoned_standing = frozenset({"hip-abduction"})
    stands_for = {
        "hip": "hip-abduction",
        "shoulder": "shoulder-abduction",
        "spine": "spine-side-bend",
    }

    def on_page(
        self, pelvis: Point, turn: float, forward: float, left: float | None, height: float
    ) -> Point:
        """Left and up; the author's place forward stands for one to the left where none is given."""
        return (forward if left is None else left), height

    def words(self, position: Position, gravity: float) -> str:
        """From where it is seen."""
        return "seen from the front"


FRONT = FrontView()


def place_front(
    movement: Movement,
    position: Position,
    angles: dict[str, float],
    second: dict[str, float],
    body: Body,
    time: float,
    holds: bool,
) -> Frame:
    """The right limbs do as the left ones unless told; a forearm that turns about itself points at the viewer."""
    if "forearm-rotation" in angles:
        angles = {"shoulder-rotation": 0.0, **angles}
    return front_frame(movement, position, angles, {**angles, **second}, body, time)
