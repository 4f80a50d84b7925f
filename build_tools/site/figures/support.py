"""What carries the body in a posture figure: it follows from where the position rests."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin

from ...catalog.entries import Exercise, Movement, Position, Vocabulary
from ...movement.posture.frame import OTHER, Frame, Segment
from .kit.bars import rig
from .kit.props import straps
from .limbs import unit
from .shapes import SLAB, Point, Shape, bench, block, disc, limb, line, post
from .support_facing import pulls

#: A support nearer to the floor than this is the floor.
FLOOR = 0.03
#: Height of a wall and of a bar that straps hang from, metres.
WALL = 2.1
#: Half the depth of a chair behind someone who sits down, metres.
CHAIR = 0.22
#: Cosine of the lean from which on a bench is drawn along the trunk instead of level.
TILTED = 0.15
#: Ankles that bend and stretch by more (degrees) need room for the heels behind the edge.
ROCK = 10.0


def supports(
    exercise: Exercise, vocabulary: Vocabulary, frame: Frame, frames: Sequence[Frame]
) -> list[Shape]:
    """Benches, boxes, pads, a ball or a bar: whatever the body rests on above the floor."""
    movement, position = exercise.movement, vocabulary.positions[exercise.movement.position]
    shapes = _walls(exercise, position.against, frame, frames)
    for point, usual in position.rests_on.items():
        if (top := movement.support.get(point, usual)) < FLOOR:
            continue
        ball = "ball" in {vocabulary.equipment[e].drawn for e in exercise.equipment}
        if ball and point in ("back", "front", "seat"):
            shapes.append(disc((frame.joints["mid_back"][0], top / 2), top / 2, "kit"))
        elif point in ("seat", "back", "front", "hips", "shoulders", "hands", "knees"):
            shapes += _under(point, top, exercise, position, frame, frames)
        else:
            shapes.append(_footing(point, top, movement, position, frame, frames, ball))
    if "chair" in exercise.equipment and "feet" in position.rests_on:
        hip = min((f.joints["hip"] for f in frames), key=lambda point: point[1])
        shapes += bench(hip[0] - CHAIR, hip[0] + CHAIR / 2, hip[1] - 0.1)
    if movement.other and movement.other.toes and movement.other.toes[1] > FLOOR:
        x, top = movement.other.toes
        shapes += bench(x - 0.2, x + 0.2, top)
    return shapes


def _under(
    point: str,
    top: float,
    exercise: Exercise,
    position: Position,
    frame: Frame,
    frames: Sequence[Frame],
) -> list[Shape]:
    """What the trunk, a knee or the hands rest on, at the height ``top``, metres."""
    joints = frame.joints
    if point == "seat":
        return [
            *bench(joints["hip"][0] - 0.16, joints["hip"][0] + 0.3, top),
            *_backrest(exercise, position, frame, frames),
        ]
    if point in ("back", "front"):
        if abs(cos(radians(frame.segments["trunk"].angle))) > TILTED:
            return _on_post(
                _beside(frame.segments["trunk"], -0.05, 1.0, -0.13 if point == "back" else 0.13)
            )
        return bench(*_lying(frames, frame), top)
    if point == "hips":
        return _on_post(_beside(frame.segments["thigh"], -0.05, 0.5, 0.13))
    if point == "shoulders":
        return bench(joints["mid_shoulder"][0] - 0.2, joints["mid_shoulder"][0] + 0.2, top)
    if point == "hands":
        return _grip(exercise, joints["hand"], joints["shoulder"], top)
    return bench(joints["knee"][0] - 0.3, joints["knee"][0] + 0.12, top)


def _backrest(
    exercise: Exercise, position: Position, frame: Frame, frames: Sequence[Frame]
) -> list[Shape]:
    """A pad behind someone who sits and keeps the trunk still against it, or before someone who pulls handles."""
    before = pulls(exercise, frames)
    leans = _still(frames, "trunk") and (
        position.fixes == "trunk" or exercise.movement.load.kind == "machine"
    )
    return [_beside(frame.segments["trunk"], 0.1, 1.0, 0.13 if before else -0.13)] if leans else []


def _footing(
    point: str,
    top: float,
    movement: Movement,
    position: Position,
    frame: Frame,
    frames: Sequence[Frame],
    ball: bool,
) -> Shape:
    """A sled's plate, a ball, or a block under toes or soles, at the height ``top``, metres."""
    if position.against == "sled":
        return plate(frame)
    if ball:
        return disc((frame.joints["ankle"][0], top / 2), top / 2, "kit")
    if point == "toes" and _heels_move(frames):
        return block(frame.joints["toe"][0] - 0.09, frame.joints["toe"][0] + 0.16, 0, top, "kit")
    heel = frames[0].joints[(OTHER if movement.stays == "other" else "") + "heel"][0]
    return block(heel - 0.1, heel + 0.36, 0, top, "kit")


def _heels_move(frames: Sequence[Frame]) -> bool:
    """Whether the ankles bend and stretch, so that the heels need room behind the edge."""
    angles = [frame.angles.get("ankle", 0.0) for frame in frames]
    return max(angles) - min(angles) > ROCK


def _lying(frames: Sequence[Frame], frame: Frame) -> tuple[float, float]:
    """Left and right end of a bench under the trunk, and under thighs that stay on it."""
    shoulder, hip, knee = (frame.joints[j][0] for j in ("mid_shoulder", "hip", "knee"))
    flat = _still(frames, "thigh") and abs(frame.joints["hip"][1] - frame.joints["knee"][1]) < 0.15
    headward = 1 if shoulder > hip else -1
    end = knee + 0.06 * headward if flat else hip - 0.04 * headward
    head = shoulder + 0.12 * headward
    return min(end, head), max(end, head)


def _walls(
    exercise: Exercise, against: str | None, frame: Frame, frames: Sequence[Frame]
) -> list[Shape]:
    """A wall behind the back or before the hands, a sloping pad for the upper arms, and the pad of a sled."""
    shapes, trunk = [], frame.segments["trunk"]
    if against == "wall":
        shapes.append(block(trunk.end[0] - 0.2, trunk.end[0] - 0.12, 0, WALL, "kit"))
    elif "wall" in exercise.equipment:
        reach = max(f.joints[joint][0] for f in frames for joint in ("hand", "elbow", "toe")) + 0.04
        shapes.append(block(reach, reach + 0.08, 0, WALL, "kit"))
    if "preacher-bench" in exercise.equipment:
        pad = _beside(frame.segments["upper_arm"], 0.15, 1.0, -0.09)
        shapes += _on_post(pad)
    if against == "sled":
        shapes.append(_beside(trunk, 0.0, 1.1, -0.13))
    return shapes


def _grip(exercise: Exercise, hand: Point, shoulder: Point, top: float) -> list[Shape]:
    """What the hands hold or stand on: straps, a wheel, a pair of bars, a bar above, or a bench."""
    if "suspension-straps" in exercise.equipment:
        return straps(hand, WALL)
    if "ab-wheel" in exercise.equipment:
        return [disc((hand[0], top), max(top, 0.06), "kit")]
    if "dip-bars" in exercise.equipment:
        return [
            *post(hand[0] - 0.2, top),
            *post(hand[0] + 0.2, top),
            line([(hand[0] - 0.3, top), (hand[0] + 0.3, top)], "cord"),
        ]
    stands_on_it = "toes" in exercise.movement.support
    if "box" in exercise.equipment and not stands_on_it:
        return [block(hand[0] - 0.15, hand[0] + 0.35, 0, top, "kit")]
    if hand[1] > shoulder[1]:
        return rig(hand, top)
    return bench(hand[0] - 0.2, hand[0] + 0.2, top)


def _beside(segment: Segment, low: float, high: float, away: float) -> Shape:
    """A pad along a segment from one share of its length to another, before (positive) or behind it."""
    trunk = segment.end[1] > segment.start[1]
    ends = [
        (
            segment.start[0] + s * (segment.end[0] - segment.start[0]),
            segment.start[1] + s * (segment.end[1] - segment.start[1]),
        )
        for s in (low, high)
    ]
    first, last = (off(segment, end, away, trunk) for end in ends)
    return limb(first, last, SLAB / 2, SLAB / 2, "kit")


def plate(frame: Frame) -> Shape:
    """A plate that the soles press against."""
    heel, toe = frame.segments["foot"].start, frame.segments["foot"].end
    along = unit(heel, toe)
    down = (along[1] * 0.03, -along[0] * 0.03)
    ends = [
        (heel[0] - 0.12 * along[0] + down[0], heel[1] - 0.12 * along[1] + down[1]),
        (toe[0] + 0.12 * along[0] + down[0], toe[1] + 0.12 * along[1] + down[1]),
    ]
    return limb(ends[0], ends[1], 0.025, 0.025, "kit")


def _on_post(pad: Shape) -> list[Shape]:
    """A pad with the post that carries its middle."""
    (left, low), (right, high) = pad.room[0], pad.room[-1]
    return [*post((left + right) / 2, (low + high) / 2), pad]


def off(segment: Segment, at: Point, away: float, trunk: bool = False) -> Point:
    """``at`` moved square to a segment, forward when positive."""
    turn = radians(-segment.angle if trunk else segment.angle)
    return at[0] + away * cos(turn), at[1] + away * sin(turn)


def _still(frames: Sequence[Frame], segment: str) -> bool:
    angles = [frame.segments[segment].angle for frame in frames]
    return max(angles) - min(angles) < 5
