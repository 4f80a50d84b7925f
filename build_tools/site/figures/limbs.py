"""The limbs of a posture figure: one round-ended piece for each segment."""

from __future__ import annotations

from math import hypot

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
