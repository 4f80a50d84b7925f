"""Where the body's weight acts, and whether it falls on the feet."""

from __future__ import annotations

from .body import REFERENCE, Body
from .frame import OTHER, Frame, Point

#: Segments that a body has twice, and those it has once.
PAIRED = ("thigh", "shank", "foot", "upper_arm", "forearm", "hand")
SINGLE = ("head", "trunk")
#: A foot whose lowest point is nearer than this to what carries it counts as standing on it, metres.
TOUCH = 0.03


def centre_of_mass(frame: Frame, body: Body = REFERENCE) -> Point:
    """Centre of mass of the whole body without any load, metres."""
    total, x, y = 0.0, 0.0, 0.0
    for name in (*SINGLE, *PAIRED):
        twins = (
            [name, OTHER + name]
            if OTHER + name in frame.segments
            else [name] * (2 if name in PAIRED else 1)
        )
        for twin in twins:
            segment, share, mass = frame.segments[twin], body.centres[name], body.mass_of(name)
            x += mass * (segment.start[0] + share * (segment.end[0] - segment.start[0]))
            y += mass * (segment.start[1] + share * (segment.end[1] - segment.start[1]))
            total += mass
    return x / total, y / total


def beyond_feet(frame: Frame, floors: tuple[float, ...], body: Body = REFERENCE) -> float:
    """How far the centre of mass lies in front of the feet (positive) or behind them (negative), metres; 0 above them.

    ``floors``: heights that a foot may stand on. A foot in the air carries nothing.
    """
    reach = [
        frame.joints[limb + point][0]
        for limb in ("", OTHER)
        if limb + "toe" in frame.joints
        and any(
            abs(min(frame.joints[limb + "heel"][1], frame.joints[limb + "toe"][1]) - floor) < TOUCH
            for floor in floors
        )
        for point in ("heel", "toe")
    ]
    x = centre_of_mass(frame, body)[0]
    return x - min(max(x, min(reach)), max(reach)) if reach else 0.0
