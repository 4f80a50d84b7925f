"""What carries the body in figures seen from the front or from the head."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist

from ...catalog.entries import Exercise, Movement, Position, Vocabulary
from ...movement.posture.above import lies
from ...movement.posture.frame import OTHER, Frame
from .kit.machines import backrest
from .shapes import SLAB, Shape, bench, block, disc, limb, line

#: A support nearer to the floor than this is the floor.
FLOOR = 0.03
#: Half the width of a bench, and how far a pad lies from the middle of the trunk, metres.
BENCH, PAD = 0.15, 0.15
#: How far a seat reaches before the hips, metres.
SEAT = 0.34


def from_head(
    exercise: Exercise, vocabulary: Vocabulary, frame: Frame, frames: Sequence[Frame]
) -> list[Shape]:
    """A bench under someone who lies, or a backrest, seen from the head."""
    movement, position = exercise.movement, vocabulary.positions[exercise.movement.position]
    point, usual = next(iter(position.rests_on.items()))
    top = movement.support.get(point, usual)
    if lies(position, frame.gravity):
        return bench(-BENCH, BENCH, top) if top > FLOOR else []
    rests = (
        point in ("back", "front")
        or point == "seat"
        and (position.fixes == "trunk" or movement.load.kind == "machine")
    )
    if not rests or top < FLOOR:
        return []
    (x, y) = frame.joints["mid_hip"]
    before = pulls(exercise, frames)
    pad = y + PAD if before else y - PAD
    seat = block(x - BENCH - 0.03, x + BENCH + 0.03, y - 0.1, y + SEAT, "kit")
    return [
        *([seat] if point == "seat" else []),
        limb((x - BENCH, pad), (x + BENCH, pad), SLAB / 2, SLAB / 2, "kit"),
    ]


def pulls(exercise: Exercise, frames: Sequence[Frame]) -> bool:
    """Whether a machine's handles are drawn towards the body: its pad is before the chest then."""
    load = exercise.movement.load
    if load.kind != "machine" or load.at != "hand":
        return False
    first, last = (
        dist(frame.joints["hand"], frame.joints["mid_shoulder"])
        for frame in (frames[0], frames[-1])
    )
    ahead = frames[0].joints["hand"][1] > frames[-1].joints["hand"][1]
    return ahead if not frames[0].view.upright else last < first


def from_front(
    exercise: Exercise, vocabulary: Vocabulary, frame: Frame, frames: Sequence[Frame]
) -> list[Shape]:
    """A bench, a box or a bar, where the body rests on one, seen from the front."""
    movement, position = exercise.movement, vocabulary.positions[exercise.movement.position]
    heights = {
        point: movement.support.get(point, usual) for point, usual in position.rests_on.items()
    }
    return [
        shape
        for point, top in heights.items()
        if top >= FLOOR
        for shape in _under(point, top, movement, position, frame)
    ]


def _under(
    point: str, top: float, movement: Movement, position: Position, frame: Frame
) -> list[Shape]:
    """What one carrying point rests on, at the height ``top``, metres."""
    joints = frame.joints
    if point == "hands" and joints["hand"][1] > joints["shoulder"][1]:
        ends = [joints["hand"], joints[OTHER + "hand"]]
        reach = max(end[0] for end in ends) + 0.15
        return [
            line([(-reach, top), (reach, top)], "cord"),
            *(disc(end, 0.025, "hub") for end in ends),
        ]
    if point == "feet" and position.sideways:
        return bench(joints["heel"][0] - 0.1, joints["knee"][0], top)
    if point in ("feet", "toes"):
        feet = [joints[prefix + joint][0] for prefix in ("", OTHER) for joint in ("heel", "toe")]
        standing = feet[2:] if movement.stays == "other" else feet
        return [block(min(standing) - 0.08, max(standing) + 0.08, 0, top, "kit")]
    if point == "side":
        return bench(joints["mid_shoulder"][0] - 0.3, joints["ankle"][0], top)
    x = joints["mid_hip"][0]
    back = backrest(frame) if movement.load.kind == "machine" else []
    return [*back, *bench(x - 0.25, x + 0.25, top)]
