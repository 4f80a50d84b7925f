"""Forward kinematics in the side view: from joint angles and the lean of the pelvis to joints and segments.

Signs: with the pelvis leaning forward by T, the thigh points H - T from straight down,
the shank K less, the foot is pitched by shank + A; the upper arm points S - T, the forearm E more.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from math import acos, atan2, degrees, hypot, radians, sin

from .body import HEEL, Body
from .frame import Point, along, turned, up

Joints = dict[str, Point]
Angles = Mapping[str, float]

#: Joints that change how an arm is seen, and so have no angle unless they are named.
WHERE_NAMED = {"shoulder-rotation", "shoulder-horizontal", "forearm-rotation"}


def pelvis_lean(fixes: str, at: float, angles: Angles) -> float:
    """Lean of the pelvis that gives the fixed segment the angle ``at`` in space, degrees."""
    if fixes in ("trunk", "chest"):
        return at - (angles["spine"] if fixes == "chest" else 0.0)
    thigh = {
        "thigh": at,
        "shank": at + angles["knee"],
        "foot": at - angles["ankle"] + angles["knee"],
    }[fixes]
    return angles["hip"] - thigh


@lru_cache(maxsize=16)
def foot_offsets(body: Body) -> tuple[Point, Point]:
    """Heel and toe seen from the ankle of a flat foot, metres."""
    length, height = body.length("foot"), body.length("ankle_height")
    return (-HEEL * length, -height), ((1 - HEEL) * length, -height)


def leg(hip: Point, lean: float, angles: Angles, body: Body) -> tuple[Joints, dict[str, float]]:
    """Joints and segment angles of one leg."""
    thigh = angles["hip"] - lean
    shank = thigh - angles["knee"]
    knee = along(hip, thigh, body.length("thigh"))
    ankle = along(knee, shank, body.length("shank"))
    pitch = shank + angles["ankle"]
    heel, toe = (turned(ankle, pitch, offset) for offset in foot_offsets(body))
    return {"hip": hip, "knee": knee, "ankle": ankle, "heel": heel, "toe": toe}, {
        "thigh": thigh,
        "shank": shank,
        "foot": pitch,
    }


def girdle(mid_shoulder: Point, upper: float, angles: Angles, body: Body) -> Point:
    """The shoulder of an upper trunk that leans ``upper``: the shoulder girdle carries it up and forward like a lever of half its width."""
    half = body.length("shoulder_width") / 2
    forward, lift = (
        half * sin(radians(angles.get(joint, 0.0)))
        for joint in ("scapular-protraction", "scapular-elevation")
    )
    return turned(mid_shoulder, -upper, (forward, lift))


def rest_of_body(
    hip: Point, lean: float, angles: Angles, body: Body, palm: float = 1.0
) -> tuple[Joints, dict[str, float]]:
    """Joints and segment angles of trunk, head and arm.

    ``palm``: 1 where the palm faces the way the elbow bends, -1 where it faces away, 0 where the wrist bends out of the plane.
    An arm that turns about itself (``shoulder-rotation``) points straight at the viewer, and only the forearm is seen.
    """
    upper = lean + angles["spine"]
    back = up(hip, lean, body.length("trunk") / 2)
    neck = up(back, upper, body.length("trunk") / 2)
    shoulder = girdle(neck, upper, angles, body)
    arm = angles["shoulder"] - upper
    raised = "shoulder-rotation" in angles
    forearm = 90 - upper - angles["shoulder-rotation"] if raised else arm + angles["elbow"]
    hand = forearm + palm * angles.get("wrist", 0.0)
    elbow = along(shoulder, arm, 0.0 if raised else body.length("upper_arm"))
    wrist = along(elbow, forearm, body.length("forearm"))
    head = max(upper, -90.0)  # on its back, a body whose hips rise keeps its head on the floor
    joints = {
        "mid_hip": hip,
        "mid_back": back,
        "mid_shoulder": neck,
        "head": up(neck, head, body.length("head")),
        "shoulder": shoulder,
        "elbow": elbow,
        "wrist": wrist,
        "hand": along(wrist, hand, body.length("hand")),
    }
    turns = {
        "lower_trunk": lean,
        "upper_trunk": upper,
        "trunk": lean + angles["spine"] / 2,
        "head": head,
        "upper_arm": arm,
        "forearm": forearm,
        "hand": hand,
    }
    return joints, turns


def leg_to(toes: Point, pitch: float, hip: Point, lean: float, body: Body) -> dict[str, float]:
    """Joint angles of a leg whose toes stay at ``toes`` with the foot pitched, knee pointing forward.

    Out of reach the leg is straight and the toes miss their place.
    """
    away = turned((0.0, 0.0), pitch, foot_offsets(body)[1])
    dx, dy = toes[0] - away[0] - hip[0], toes[1] - away[1] - hip[1]
    thigh_length, shank_length = body.length("thigh"), body.length("shank")
    reach = min(hypot(dx, dy), thigh_length + shank_length)
    bend = degrees(
        acos(_within((thigh_length**2 + reach**2 - shank_length**2) / (2 * thigh_length * reach)))
    )
    thigh = degrees(atan2(dx, -dy)) + bend
    knee = 180 - degrees(
        acos(
            _within(
                (thigh_length**2 + shank_length**2 - reach**2) / (2 * thigh_length * shank_length)
            )
        )
    )
    return {"hip": thigh + lean, "knee": knee, "ankle": pitch - (thigh - knee)}


def _within(cosine: float) -> float:
    return max(-1.0, min(1.0, cosine))
