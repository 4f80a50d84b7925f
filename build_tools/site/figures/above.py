"""The body of a posture figure seen along the trunk from the head: an outlined chest, arms beside it, and the head on top."""

from __future__ import annotations

from math import cos, pi, sin

from ...movement.load.statics import between
from ...movement.posture.frame import OTHER, Frame, turned
from .limbs import ARM, fist, piece
from .muscle_lines import MuscleLines
from .shapes import Shape, area, disc, joined, limb

#: Half the width and half the depth of the chest, the head's radius, the nose's, metres; only the look depends on them.
CHEST_WIDE, CHEST_DEEP, HEAD, NOSE, CAP = 0.19, 0.12, 0.1, 0.026, 0.055
#: Corners of the drawn chest.
CORNERS = 28


def body(frame: Frame, lines: MuscleLines) -> list[Shape]:
    """The pieces from back to front: what lies furthest from the head first."""
    prefixes = ("", OTHER)
    legs = [
        piece(frame, prefix + name)
        for name in ("thigh", "shank")
        for prefix in prefixes
        if prefix + name in frame.segments
    ]
    arms = [piece(frame, prefix + name) for prefix in prefixes for name in ARM] + [
        fist(frame, prefix) for prefix in prefixes
    ]
    return [
        *([joined("body", legs)] if legs else []),
        joined("body", trunk(frame)),
        joined("body", arms),
        *lines.drawn(frame, arm=True),
        joined("body", head(frame)),
    ]


def pieces(frame: Frame) -> list[Shape]:
    """All pieces, for drawings that pass quickly."""
    limbs = [
        piece(frame, prefix + name)
        for prefix in ("", OTHER)
        for name in ("thigh", "shank", *ARM)
        if prefix + name in frame.segments
    ]
    return [*limbs, *(fist(frame, prefix) for prefix in ("", OTHER)), *trunk(frame), *head(frame)]


def trunk(frame: Frame) -> list[Shape]:
    """The chest as an oval turned with the shoulders, and the shoulders' caps."""
    middle, angle = frame.joints["mid_hip"], frame.segments["trunk"].angle
    oval = [
        turned(
            middle,
            angle,
            (CHEST_WIDE * cos(2 * pi * n / CORNERS), CHEST_DEEP * sin(2 * pi * n / CORNERS)),
        )
        for n in range(CORNERS)
    ]
    caps = [
        limb(
            between(middle, frame.joints[prefix + "shoulder"], 0.5),
            frame.joints[prefix + "shoulder"],
            CAP + 0.02,
            CAP,
        )
        for prefix in ("", OTHER)
    ]
    return [area(oval), *caps]


def head(frame: Frame) -> list[Shape]:
    """A circle with a nose that shows where the face looks."""
    middle, nose = frame.segments["head"].start, frame.segments["head"].end
    centre = between(middle, nose, 0.2)
    return [
        limb(between(centre, nose, 0.6), between(centre, nose, 1.1), NOSE * 1.4, NOSE),
        disc(centre, HEAD),
    ]
