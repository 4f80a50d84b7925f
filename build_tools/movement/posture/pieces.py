"""Where the pieces of the body hang in a posture, for what is fixed to them."""

from __future__ import annotations

from math import dist
from typing import NamedTuple

from ...catalog.entries import SegmentName
from .frame import Frame, Point

#: Pieces that run from joint to joint.
SPANS: dict[SegmentName, tuple[str, str]] = {
    "thigh": ("hip", "knee"),
    "shank": ("knee", "ankle"),
    "upper-arm": ("shoulder", "elbow"),
    "forearm": ("elbow", "wrist"),
}
#: Pieces of the trunk: the joint that limbs hang on there, and the part of the trunk that gives the direction.
ON_TRUNK: dict[SegmentName, tuple[str, str]] = {
    "pelvis": ("hip", "lower_trunk"),
    "shoulder-blade": ("shoulder", "upper_trunk"),
}


class BodyPiece(NamedTuple):
    """A piece of the body on the page: the joint it hangs on, and its direction away from there, of length 1."""

    joint: Point
    down: Point

    def at(self, along: float, ahead: float) -> Point:
        """The point so many metres down the piece, and to the side that a limb flexes to."""
        (x, y), (u, v) = self.joint, self.down
        return x + along * u - ahead * v, y + along * v + ahead * u

    def of(self, point: Point) -> Point:
        """How far along and ahead a point of the page lies, metres."""
        (x, y), (u, v) = self.joint, self.down
        x, y = point[0] - x, point[1] - y
        return x * u + y * v, y * u - x * v


def hung(frame: Frame, prefix: str, segment: SegmentName) -> BodyPiece | None:
    """A piece as it is seen; None where it points at the viewer. ``prefix``: ``other_`` for the second limb."""
    joints = frame.joints
    if segment in SPANS:
        start, end = (joints[prefix + name] for name in SPANS[segment])
    elif segment == "foot":
        # Across the sole: the ankle lies above the line from heel to toe.
        heel, toe = joints[prefix + "heel"], joints[prefix + "toe"]
        start = joints[prefix + "ankle"]
        end = (start[0] + toe[1] - heel[1], start[1] - toe[0] + heel[0])
    else:
        joint, trunk = ON_TRUNK[segment]
        start, spine = joints[prefix + joint], frame.segments[trunk]
        end = (
            start[0] + spine.start[0] - spine.end[0],
            start[1] + spine.start[1] - spine.end[1],
        )
    long = dist(start, end)
    return (
        BodyPiece(start, ((end[0] - start[0]) / long, (end[1] - start[1]) / long)) if long else None
    )
