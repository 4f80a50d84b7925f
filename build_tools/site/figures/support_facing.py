"""What carries the body in figures seen from the front or from the head."""

from __future__ import annotations

from ...catalog.entries import Exercise, Vocabulary
from ...movement.posture.above import lies
from ...movement.posture.frame import OTHER, Frame
from .shapes import SLAB, Shape, bench, block, disc, limb, line

#: A support nearer to the floor than this is the floor.
FLOOR = 0.03
#: Half the width of a bench, and how far a pad lies from the middle of the trunk, metres.
BENCH, PAD = 0.15, 0.15


def supports(exercise: Exercise, vocabulary: Vocabulary, frame: Frame) -> list[Shape]:
    """A bench, a box, a backrest or a bar, where the body rests on one."""
    movement, joints, shapes = exercise.movement, frame.joints, []
    position = vocabulary.positions[movement.position]
    if frame.view == "above":
        point, usual = next(iter(position.rests_on.items()))
        top = movement.support.get(point, usual)
        if lies(position, frame.gravity):
            return bench(-BENCH, BENCH, top) if top > FLOOR else []
        rests = point in ("back", "front") or point == "seat" and (position.fixes == "trunk" or movement.load.kind == "machine")
        if not rests or top < FLOOR:
            return []
        (x, y) = joints["mid_hip"]
        return [limb((x - BENCH, y - PAD), (x + BENCH, y - PAD), SLAB / 2, SLAB / 2, "kit")]
    for point, usual in position.rests_on.items():
        top, x = movement.support.get(point, usual), joints["mid_hip"][0]
        if top < FLOOR:
            continue
        if point == "hands" and joints["hand"][1] > joints["shoulder"][1]:
            ends = [joints["hand"], joints[OTHER + "hand"]]
            reach = max(end[0] for end in ends) + 0.15
            shapes += [line([(-reach, top), (reach, top)], "cord"), *(disc(end, 0.025, "hub") for end in ends)]
        elif point == "feet" and position.sideways:
            shapes += bench(joints["heel"][0] - 0.1, joints["knee"][0], top)
        elif point in ("feet", "toes"):
            feet = [joints[prefix + joint][0] for prefix in ("", OTHER) for joint in ("heel", "toe")]
            standing = feet[2:] if movement.stays == "other" else feet
            shapes.append(block(min(standing) - 0.08, max(standing) + 0.08, 0, top, "kit"))
        elif point == "side":
            shapes += bench(joints["mid_shoulder"][0] - 0.3, joints["ankle"][0], top)
        else:
            shapes += bench(x - 0.25, x + 0.25, top)
    return shapes
