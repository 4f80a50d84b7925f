"""The body of a posture figure: round-ended pieces around the segments of a frame.

Our own drawing: an outlined figure whose working segment is solid; a second leg
that does something else is a broken outline behind.
"""

from __future__ import annotations

from collections.abc import Sequence

from ...movement.posture.frame import OTHER, Frame
from . import above as figure_above
from .limbs import ARM, HALF, LEG, fist, piece, unit, working_sides
from .shapes import Shape, area, disc, joined, limb

#: Half the thickness of each piece, metres; only the look depends on it.
LOWER_TRUNK, UPPER_TRUNK, NECK, HEAD, SHOULDER, WAIST = (0.1, 0.094), (0.094, 0.1), 0.045, 0.105, 0.055, (0.14, 0.12)


def body(frame: Frame, working: str) -> list[Shape]:
    """The pieces from back to front."""
    if frame.view == "above":
        return figure_above.body(frame, working)
    both = frame.view == "front"
    prefixes = ("", OTHER) if both else ("",)
    shapes = []
    if not both and (far := [OTHER + name for name in (*LEG, *ARM) if OTHER + name in frame.segments]):
        shapes.append(joined("far", (piece(frame, name) for name in far)))
    legs = [piece(frame, prefix + name) for prefix in prefixes for name in LEG]
    shapes.append(joined("body", [*legs, *_trunk(frame), *_head(frame)]))
    arms = [piece(frame, prefix + name) for prefix in prefixes for name in ARM] + [fist(frame, prefix) for prefix in prefixes]
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
    if frame.view == "above":
        return figure_above.pieces(frame)
    prefixes = ("", OTHER) if frame.view == "front" else ("",)
    limbs = [piece(frame, prefix + name) for prefix in prefixes for name in (*LEG, *ARM)]
    return [*limbs, *(fist(frame, prefix) for prefix in prefixes), *_trunk(frame), *_head(frame)]


def _works(frame: Frame, working: str) -> list[Shape]:
    if frame.view == "above":
        return figure_above.works(frame, working)
    if working == "trunk":
        return _trunk(frame)
    return [piece(frame, prefix + working) for prefix in working_sides(frame)]


def _trunk(frame: Frame) -> list[Shape]:
    hip, back, shoulder = (frame.joints[name] for name in ("mid_hip", "mid_back", "mid_shoulder"))
    if frame.view == "front":
        left, right, low_right, low_left = (frame.joints[name] for name in ("shoulder", OTHER + "shoulder", OTHER + "hip", "hip"))
        collar = [limb(shoulder, tip, SHOULDER, SHOULDER) for tip in (left, right)]
        pelvis = limb(low_left, low_right, HALF["thigh"][0], HALF["thigh"][0])
        return [area([left, shoulder, right, back, low_right, hip, low_left, back]), *collar, pelvis, limb(shoulder, hip, *WAIST)]
    return [limb(hip, back, *LOWER_TRUNK), limb(back, shoulder, *UPPER_TRUNK)]


def _head(frame: Frame) -> list[Shape]:
    neck = frame.segments["head"]
    way = unit(neck.start, neck.end)
    centre = (neck.end[0] - HEAD * way[0], neck.end[1] - HEAD * way[1])
    return [limb(neck.start, centre, NECK, NECK), disc(centre, HEAD)]
