"""The body of a posture figure seen from the side or from the front: round-ended pieces around the segments of a frame.

Our own drawing: an outlined figure with the lines of muscles on it; a second leg
that does something else is a broken outline behind.
"""

from __future__ import annotations

from math import dist

from ...movement.posture.frame import OTHER, Frame
from .limbs import ARM, HALF, HIPS, LEG, fist, piece, unit
from .muscle_lines import MuscleLines
from .shapes import Shape, area, disc, joined, limb

#: Half the thickness of each piece, metres; only the look depends on it.
LOWER_TRUNK, UPPER_TRUNK, NECK, HEAD, SHOULDER, WAIST = (
    (HIPS, 0.094),
    (0.094, 0.1),
    0.045,
    0.105,
    0.055,
    (0.14, 0.12),
)

#: A trunk that leans more, seen from the front, is that of someone on the side, degrees.
ON_SIDE = 45.0
#: A thigh that is seen shorter than this points at the viewer, metres.
SHORT = 0.36


def body(frame: Frame, lines: MuscleLines) -> list[Shape]:
    """The pieces from back to front."""
    sides, shapes = frame.sides, []
    if not frame.view.apart and (
        far := [OTHER + name for name in (*LEG, *ARM) if OTHER + name in frame.segments]
    ):
        shapes.append(joined("far", (piece(frame, name) for name in far)))
    nearer = [side for side in sides if _is_before(frame, side)]
    legs = [piece(frame, side + name) for side in sides if side not in nearer for name in LEG]
    shapes.append(joined("body", [*legs, *_trunk(frame), *_head(frame)]))
    shapes += [
        joined("body", (piece(frame, side + name) for name in LEG)) for side in reversed(nearer)
    ]
    arms = [piece(frame, side + name) for side in sides for name in ARM] + [
        fist(frame, side) for side in sides
    ]
    return [
        *shapes,
        *lines.drawn(frame, arm=False),
        joined("body", arms),
        *lines.drawn(frame, arm=True),
    ]


def _is_before(frame: Frame, side: str) -> bool:
    """Whether a leg is drawn before the trunk: the upper one of someone on the side, and one whose thigh points at the viewer."""
    if frame.view.apart and not side and abs(frame.segments["trunk"].angle) > ON_SIDE:
        return True
    return (
        frame.view.apart and dist(frame.joints[side + "hip"], frame.joints[side + "knee"]) < SHORT
    )


def pieces(frame: Frame) -> list[Shape]:
    """All pieces, for drawings that pass quickly."""
    sides = frame.sides
    limbs = [piece(frame, side + name) for side in sides for name in (*LEG, *ARM)]
    return [*limbs, *(fist(frame, side) for side in sides), *_trunk(frame), *_head(frame)]


def _trunk(frame: Frame) -> list[Shape]:
    hip, back, shoulder = (frame.joints[name] for name in ("mid_hip", "mid_back", "mid_shoulder"))
    if frame.view.apart:
        left, right, low_right, low_left = (
            frame.joints[name] for name in ("shoulder", OTHER + "shoulder", OTHER + "hip", "hip")
        )
        collar = [limb(shoulder, tip, SHOULDER, SHOULDER) for tip in (left, right)]
        pelvis = limb(low_left, low_right, HALF["thigh"][0], HALF["thigh"][0])
        return [
            area([left, shoulder, right, back, low_right, hip, low_left, back]),
            *collar,
            pelvis,
            limb(shoulder, hip, *WAIST),
        ]
    return [limb(hip, back, *LOWER_TRUNK), limb(back, shoulder, *UPPER_TRUNK)]


def _head(frame: Frame) -> list[Shape]:
    neck = frame.segments["head"]
    way = unit(neck.start, neck.end)
    centre = (neck.end[0] - HEAD * way[0], neck.end[1] - HEAD * way[1])
    return [limb(neck.start, centre, NECK, NECK), disc(centre, HEAD)]
