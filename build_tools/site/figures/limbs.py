"""The limbs of a posture figure: one round-ended piece for each segment."""

from __future__ import annotations

from math import dist, hypot

from ...catalog.entries import SegmentName
from ...movement.posture.body import HEEL, REFERENCE
from ...movement.posture.frame import OTHER, Frame, Point
from .shapes import Shape, limb

#: Half the thickness of each piece at its start and its end, metres; only the look depends on it.
HALF = {
    "thigh": (0.085, 0.06),
    "shank": (0.058, 0.036),
    "upper_arm": (0.052, 0.042),
    "forearm": (0.042, 0.03),
    "foot": (0.036, 0.022),
}
FIST = 0.038
#: Half the thickness of the trunk at the hips, metres.
HIPS = 0.1
#: Pieces from joint to joint, and what their thickness is called.
LIMBS: dict[SegmentName, str] = {
    "thigh": "thigh",
    "shank": "shank",
    "upper-arm": "upper_arm",
    "forearm": "forearm",
}
#: The middle of the round heel.
HEEL_ROUND = (
    REFERENCE.length("ankle_height") - HALF["foot"][0],
    HALF["foot"][0] - HEEL * REFERENCE.length("foot"),
)
#: Piece of the body -> what of it is drawn, metres along and ahead of its joint: where its axis starts, how far along it ends, half its
#: thickness there. On the trunk lines stay within the limb that begins there, at the foot within the heel.
ROOM: dict[SegmentName, tuple[Point, float, tuple[float, float]]] = {
    **{name: ((0.0, 0.0), REFERENCE.length(drawn), HALF[drawn]) for name, drawn in LIMBS.items()},
    "pelvis": ((0.0, 0.0), 0.0, (HIPS,) * 2),
    "shoulder-blade": ((0.0, 0.0), 0.0, (HALF["upper_arm"][0],) * 2),
    "foot": (HEEL_ROUND, HEEL_ROUND[0], (HALF["foot"][0],) * 2),
}
LEG, ARM = ("thigh", "shank", "foot"), ("upper_arm", "forearm")


def piece(frame: Frame, name: str) -> Shape:
    """One segment of a limb."""
    segment, plain = frame.segments[name], name.removeprefix(OTHER)
    start, end = segment.start, segment.end
    if plain == "foot":  # its segment runs along the sole; the piece lies above it
        ankle = frame.joints[(OTHER if name.startswith(OTHER) else "") + "ankle"]
        start, end = _above(start, end, ankle, HALF["foot"])
    return limb(start, end, *HALF[plain])


def fist(frame: Frame, prefix: str) -> Shape:
    """The hand around its grip."""
    return limb(
        frame.joints[prefix + "wrist"], frame.joints[prefix + "hand"], HALF["forearm"][1], FIST
    )


def kept(segment: SegmentName, point: Point, clear: float) -> Point:
    """A point on a piece, along and ahead of its joint, moved to the bone until it lies ``clear`` inside the outline. Metres."""
    start, end, (wide, narrow) = ROOM[segment]
    share = min(1.0, max(0.0, (point[0] - start[0]) / (end - start[0]))) if end > start[0] else 0.0
    axis = (start[0] + share * (end - start[0]), start[1])
    away = dist(point, axis)
    near = min(1.0, (wide + share * (narrow - wide) - clear) / away) if away else 1.0
    return axis[0] + near * (point[0] - axis[0]), axis[1] + near * (point[1] - axis[1])


def working_sides(frame: Frame) -> tuple[str, ...]:
    """Prefixes of the limbs that work: both, or only the left one where the right has angles of its own or the view is from the side."""
    return ("",) if any(joint.startswith(OTHER) for joint in frame.angles) else frame.sides


def _above(heel: Point, toe: Point, ankle: Point, half: tuple[float, float]) -> tuple[Point, Point]:
    """The sole's ends moved inwards and towards the ankle, by half the thickness there."""
    along = unit(heel, toe)
    up = (-along[1], along[0])
    if (ankle[0] - heel[0]) * up[0] + (ankle[1] - heel[1]) * up[1] < 0:
        up = (-up[0], -up[1])
    (back, front) = half
    return (
        (heel[0] + back * (along[0] + up[0]), heel[1] + back * (along[1] + up[1])),
        (toe[0] + front * (up[0] - along[0]), toe[1] + front * (up[1] - along[1])),
    )


def unit(start: Point, end: Point) -> Point:
    """The direction from one point to another, of length 1."""
    length = hypot(end[0] - start[0], end[1] - start[1])
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length
