"""What carries the body in a posture figure: it follows from where the position rests."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin

from ..catalog.entries import Exercise, Vocabulary
from ..movement.frame import OTHER, Frame, Segment
from .drawing import Point, Shape, block, disc, limb, line

#: Thickness of a pad or seat, and width of an upright, metres; only the look depends on them.
SLAB, UPRIGHT = 0.06, 0.03
#: A support nearer to the floor than this is the floor.
FLOOR = 0.03


def supports(exercise: Exercise, vocabulary: Vocabulary, frame: Frame, frames: Sequence[Frame]) -> list[Shape]:
    """Benches, boxes, pads, a ball or a bar: whatever the body rests on above the floor."""
    position, ball = vocabulary.positions[exercise.movement.position], "ball" in {vocabulary.equipment[e].drawn for e in exercise.equipment}
    movement, joints, shapes = exercise.movement, frame.joints, []
    for point, usual in position.rests_on.items():
        top = movement.support.get(point, usual)
        if top < FLOOR:
            continue
        if point == "seat":
            shapes += _bench(joints["hip"][0] - 0.16, joints["hip"][0] + 0.3, top)
            if _still(frames, "trunk") and (position.fixes == "trunk" or movement.load.kind == "machine"):
                shapes.append(_beside(frame.segments["trunk"], 0.1, 1.0, -0.13))
        elif point in ("back", "front"):
            shapes += _bench(*_lying(frames, frame), top)
        elif point == "hips":
            pad = _beside(frame.segments["thigh"], -0.05, 0.5, 0.13)
            (left, low), (right, high) = pad.room[0], pad.room[-1]
            shapes += [*post((left + right) / 2, (low + high) / 2), pad]
        elif point == "shoulders":
            x = joints["mid_shoulder"][0]
            shapes += _bench(x - 0.2, x + 0.2, top)
        elif point == "hands":
            shapes += _grip_above(joints["hand"], joints["shoulder"], top)
        elif point == "knees":
            shapes += _bench(joints["knee"][0] - 0.3, joints["knee"][0] + 0.12, top)
        elif ball:
            shapes.append(disc((joints["ankle"][0], top / 2), top / 2, "kit"))
        else:
            heel = frames[0].joints[(OTHER if movement.stays == "other" else "") + "heel"][0]
            shapes.append(block(heel - 0.1, heel + 0.36, 0, top, "kit"))
    if movement.other and movement.other.toes and movement.other.toes[1] > FLOOR:
        x, top = movement.other.toes
        shapes += _bench(x - 0.2, x + 0.2, top)
    return shapes


def _lying(frames: Sequence[Frame], frame: Frame) -> tuple[float, float]:
    """Left and right end of a bench under the trunk, and under thighs that stay on it."""
    shoulder, hip, knee = (frame.joints[j][0] for j in ("mid_shoulder", "hip", "knee"))
    flat = _still(frames, "thigh") and abs(frame.joints["hip"][1] - frame.joints["knee"][1]) < 0.15
    headward = 1 if shoulder > hip else -1
    end = knee + 0.06 * headward if flat else hip - 0.04 * headward
    head = shoulder + 0.12 * headward
    return min(end, head), max(end, head)


def _grip_above(hand: Point, shoulder: Point, top: float) -> list[Shape]:
    if hand[1] > shoulder[1]:
        return [line([hand, (hand[0], hand[1] + 0.14)], "cord"), disc(hand, 0.025, "hub")]
    return _bench(hand[0] - 0.2, hand[0] + 0.2, top)


def _beside(segment: Segment, low: float, high: float, away: float) -> Shape:
    """A pad along a segment from one share of its length to another, before (positive) or behind it."""
    trunk = segment.end[1] > segment.start[1]
    ends = [(segment.start[0] + s * (segment.end[0] - segment.start[0]), segment.start[1] + s * (segment.end[1] - segment.start[1]))
            for s in (low, high)]
    first, last = (off(segment, end, away, trunk) for end in ends)
    return limb(first, last, SLAB / 2, SLAB / 2, "kit")


def off(segment: Segment, at: Point, away: float, trunk: bool = False) -> Point:
    """``at`` moved square to a segment, forward when positive."""
    turn = radians(-segment.angle if trunk else segment.angle)
    return at[0] + away * cos(turn), at[1] + away * sin(turn)


def _still(frames: Sequence[Frame], segment: str) -> bool:
    angles = [frame.segments[segment].angle for frame in frames]
    return max(angles) - min(angles) < 5


def _bench(left: float, right: float, top: float) -> list[Shape]:
    inset = min(0.08, (right - left) / 4)
    legs = [block(x - UPRIGHT / 2, x + UPRIGHT / 2, 0, top - SLAB, "kit") for x in (left + inset, right - inset)]
    return [*legs, block(left, right, top - SLAB, top, "kit")]


def post(x: float, top: float) -> list[Shape]:
    """An upright from the floor."""
    return [block(x - UPRIGHT / 2, x + UPRIGHT / 2, 0, top, "kit")]
