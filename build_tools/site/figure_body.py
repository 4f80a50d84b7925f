"""The body of a posture figure: round-ended pieces around the segments of a frame.

Our own drawing: an outlined figure whose working segment is solid; a second leg
that does something else is a broken outline behind.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from ..movement.frame import OTHER, Frame, Point
from .drawing import Shape, area, disc, joined, limb

#: Half the thickness of each piece at its start and its end, metres; only the look depends on it.
HALF = {"thigh": (0.085, 0.06), "shank": (0.058, 0.036), "upper_arm": (0.052, 0.042), "forearm": (0.042, 0.03), "foot": (0.036, 0.022)}
LOWER_TRUNK, UPPER_TRUNK, NECK, HEAD, FIST = (0.1, 0.094), (0.094, 0.1), 0.045, 0.105, 0.038
LEG, ARM = ("thigh", "shank", "foot"), ("upper_arm", "forearm")


def body(frame: Frame, working: str) -> list[Shape]:
    """The pieces from back to front."""
    both = frame.view == "front"
    prefixes = ("", OTHER) if both else ("",)
    shapes = []
    if frame.has_other_leg and not both:
        shapes.append(joined("far", (piece(frame, OTHER + name) for name in LEG)))
    legs = [piece(frame, prefix + name) for prefix in prefixes for name in LEG]
    shapes.append(joined("body", [*legs, *_trunk(frame), *_head(frame)]))
    arms = [piece(frame, prefix + name) for prefix in prefixes for name in ARM] + [_fist(frame, prefix) for prefix in prefixes]
    if working not in ARM:
        shapes.append(joined("work", _works(frame, working)))
    shapes.append(joined("body", arms))
    if working in ARM:
        shapes.append(joined("work", _works(frame, working)))
    return shapes


def loop(frames: Sequence[Frame], working: str) -> tuple[Shape, list[list[Shape]]]:
    """The body without overlaps, for drawings that pass quickly: what stays in its place, and what moves in each frame."""
    every = [_pieces(frame) for frame in frames]
    still = {d for d in (shape.d for shape in every[0]) if all(d in {shape.d for shape in pieces} for pieces in every)}
    return (joined("body", (shape for shape in every[0] if shape.d in still)),
            [[joined("body", (shape for shape in pieces if shape.d not in still)), joined("work", _works(frame, working))]
             for frame, pieces in zip(frames, every, strict=True)])


def _pieces(frame: Frame) -> list[Shape]:
    prefixes = ("", OTHER) if frame.view == "front" else ("",)
    limbs = [piece(frame, prefix + name) for prefix in prefixes for name in (*LEG, *ARM)]
    return [*limbs, *(_fist(frame, prefix) for prefix in prefixes), *_trunk(frame), *_head(frame)]


def piece(frame: Frame, name: str) -> Shape:
    """One segment of a limb."""
    segment, plain = frame.segments[name], name.removeprefix(OTHER)
    start, end = segment.start, segment.end
    if plain == "foot":  # its segment runs along the sole; the piece lies above it
        ankle = frame.joints[(OTHER if name.startswith(OTHER) else "") + "ankle"]
        start, end = _above(start, end, ankle, HALF["foot"])
    return limb(start, end, *HALF[plain])


def _works(frame: Frame, working: str) -> list[Shape]:
    if working == "trunk":
        return _trunk(frame)
    return [piece(frame, prefix + working) for prefix in (("", OTHER) if frame.view == "front" else ("",))]


def _trunk(frame: Frame) -> list[Shape]:
    hip, back, shoulder = (frame.joints[name] for name in ("mid_hip", "mid_back", "mid_shoulder"))
    if frame.view == "front":
        corners = [frame.joints[name] for name in ("shoulder", OTHER + "shoulder", OTHER + "hip", "hip")]
        return [area(corners), limb(corners[0], corners[1], 0.055, 0.055), limb(corners[3], corners[2], 0.085, 0.085)]
    return [limb(hip, back, *LOWER_TRUNK), limb(back, shoulder, *UPPER_TRUNK)]


def _head(frame: Frame) -> list[Shape]:
    neck = frame.segments["head"]
    way = _unit(neck.start, neck.end)
    centre = (neck.end[0] - HEAD * way[0], neck.end[1] - HEAD * way[1])
    return [limb(neck.start, centre, NECK, NECK), disc(centre, HEAD)]


def _fist(frame: Frame, prefix: str) -> Shape:
    return limb(frame.joints[prefix + "wrist"], frame.joints[prefix + "hand"], HALF["forearm"][1], FIST)


def _above(heel: Point, toe: Point, ankle: Point, half: tuple[float, float]) -> tuple[Point, Point]:
    """The sole's ends moved inwards and towards the ankle, by half the thickness there."""
    along = _unit(heel, toe)
    up = (-along[1], along[0])
    if (ankle[0] - heel[0]) * up[0] + (ankle[1] - heel[1]) * up[1] < 0:
        up = (-up[0], -up[1])
    (back, front) = half
    return ((heel[0] + back * (along[0] + up[0]), heel[1] + back * (along[1] + up[1])),
            (toe[0] + front * (up[0] - along[0]), toe[1] + front * (up[1] - along[1])))


def _unit(start: Point, end: Point) -> Point:
    length = hypot(end[0] - start[0], end[1] - start[1])
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length
