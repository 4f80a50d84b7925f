"""Places a body in the front view: arms and legs spread sideways, trunk upright, both sides alike.

Signs: positive abduction swings a limb away from the middle; the elbow bends in the same plane, the hand upwards.
"""

from __future__ import annotations

from ..catalog.entries import Movement, Position
from .body import Body
from .chain import Angles
from .frame import ARM, LEG, OTHER, Frame, Point, along
from .side import RESTS, segments

#: Half the width of a foot seen from the front, as a fraction of stature (Winter 2009, figure 4.1: breadth 0.055).
HALF_FOOT = 0.055 / 2


def front_frame(movement: Movement, position: Position, angles: Angles, body: Body, time: float) -> Frame:
    """One posture in the front view. The left limbs (to the right of the page's middle) have plain names, the right ones ``other_``."""
    trunk = body.length("trunk")
    middle: dict[str, Point] = {"mid_hip": (0.0, 0.0), "mid_back": (0.0, trunk / 2), "mid_shoulder": (0.0, trunk),
                                "head": (0.0, trunk + body.length("head"))}
    left, turns = _limbs(angles, trunk, body)
    right = {OTHER + name: (-x, y) for name, (x, y) in left.items()}
    joints = {**middle, **left, **right}
    point = next(iter(position.rests_on))
    joint, depth = RESTS.get(point, ("heel", 0.0))
    rise = movement.support.get(point, position.rests_on[point]) + depth - joints[joint][1]
    joints = {name: (x, y + rise) for name, (x, y) in joints.items()}
    turns = {**dict.fromkeys(("trunk", "lower_trunk", "upper_trunk", "head"), 0.0), **turns,
             **{OTHER + name: -angle for name, angle in turns.items()}}
    return Frame(time, "front", joints, segments(joints, turns), dict(angles))


def _limbs(angles: Angles, shoulder_height: float, body: Body) -> tuple[dict[str, Point], dict[str, float]]:
    leg, arm = angles["hip-abduction"], angles["shoulder-abduction"]
    forearm = arm + angles["elbow"]
    hip = (body.length("hip_width") / 2, 0.0)
    knee = along(hip, leg, body.length("thigh"))
    ankle = along(knee, leg, body.length("shank"))
    heel = (ankle[0], ankle[1] - body.length("ankle_height"))
    shoulder = (body.length("shoulder_width") / 2, shoulder_height)
    elbow = along(shoulder, arm, body.length("upper_arm"))
    wrist = along(elbow, forearm, body.length("forearm"))
    points = (hip, knee, ankle, heel, (heel[0] + body.stature * HALF_FOOT, heel[1]))
    arms = (shoulder, elbow, wrist, along(wrist, forearm, body.length("hand")))
    turns = {"thigh": leg, "shank": leg, "foot": 0.0, "upper_arm": arm, "forearm": forearm, "hand": forearm}
    return {**dict(zip(LEG, points, strict=True)), **dict(zip(ARM, arms, strict=True))}, turns
