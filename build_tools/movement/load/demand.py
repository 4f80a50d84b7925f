"""What the muscles of one joint must supply so that the body stands still: the free side of a cut through the joint.

Cutting the body at a joint leaves two sides. On the side that touches nothing, the muscles of the joint must balance the
weights and the pulls: the far side in a curl, the near side (the rest of the body) in a squat or a Nordic curl. Where both
sides are supported (a bridge, a push-up) the supports' shares come first, from the balance of the whole body.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from .statics import Force, Point, moment, reactions

#: Segments beyond each joint, away from the trunk.
BEYOND = {
    "hip": {"thigh", "shank", "foot"},
    "knee": {"shank", "foot"},
    "ankle": {"foot"},
    "shoulder": {"upper_arm", "forearm", "hand"},
    "elbow": {"forearm", "hand"},
    "wrist": {"hand"},
    "scapular-elevation": {"upper_arm", "forearm", "hand"},
}

#: Turn of the far segment that bends the joint: +1 anticlockwise, -1 clockwise (a standing person faces +x).
BENDS = {
    "hip": 1,
    "knee": -1,
    "ankle": 1,
    "shoulder": 1,
    "elbow": 1,
    "wrist": 1,
    "scapular-elevation": 1,
}

#: Feet that stand no farther apart than this, seen from the side (metres), share the weight alike.
SIDE_BY_SIDE = 0.05


class Applied(NamedTuple):
    """A weight or a pull, and the segment that it acts on."""

    segment: str
    force: Force


class Support(NamedTuple):
    """Where the body rests on something that does not move, and with which segment.

    ``pivot``: the body can turn about it (toes, a grip on a bar), so whoever holds still has the whole weight in line with it.
    """

    segment: str
    at: Point
    pivot: bool = False


def asked(
    joint: str,
    at: Point,
    applied: Sequence[Applied],
    supports: Sequence[Support],
    bends: int | None = None,
) -> float:
    """Moment (N·m) that the muscles of the joint must supply; positive asks its flexors (for the ankle: of the foot upwards).

    ``bends``: the turn that counts as flexion where it is not the one of ``BENDS``.

    Held still, both limbs together when both carry. Raises ValueError where statics alone gives no answer: supports on both
    sides of the joint that are more than two, one above the other, or under a sideways pull.
    """
    beyond, bends = BEYOND[joint], bends or BENDS[joint]
    far = [s for s in supports if s.segment in beyond]
    near = [s for s in supports if s.segment not in beyond]
    on_far = [a.force for a in applied if a.segment in beyond]
    if not far:
        return -bends * moment(at, on_far)
    if not near and all(s.pivot for s in far):
        # The drawn posture keeps its balance only roughly; the force through the pivot does not depend on that.
        whole = Force(far[0].at, 0.0, -sum(a.force.y for a in applied))
        return -bends * moment(at, [*on_far, whole])
    if not near:
        return bends * moment(at, [a.force for a in applied if a.segment not in beyond])
    if len(supports) > 2:
        raise ValueError(
            f"more than two supports, on both sides of the {joint}: statics cannot say which of them carries how much"
        )
    carried = _carried(far[0], near[0], [a.force for a in applied])
    return -bends * moment(at, [*on_far, carried])


def _carried(support: Support, other: Support, forces: Sequence[Force]) -> Force:
    """What one of two supports carries; two feet side by side share alike."""
    if {support.segment, other.segment} == {"foot", "other_foot"} and abs(
        support.at[0] - other.at[0]
    ) < SIDE_BY_SIDE:
        return Force(support.at, 0.0, -sum(f.y for f in forces) / 2)
    return reactions(other.at, support.at, forces)[1]
