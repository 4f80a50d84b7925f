"""The equipment of a posture figure, hinted with a few lines: what carries the body, and what loads it.

Supports follow from where the position rests, the load from its kind; free
weights and other loose things are drawn as the vocabulary says (``drawn:``).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, hypot, radians, sin

from ..catalog.entries import Exercise, Position, Vocabulary
from ..movement.applied import load_point
from ..movement.frame import OTHER, Frame, Segment
from ..movement.resistance import anchor_point
from .drawing import Point, Shape, block, disc, limb, line

#: Sizes in metres; only the look depends on them, except the disc's: a full barbell plate measures 0.45 m across.
DISC, PAD, SLAB, LEG_OF_BENCH, PULLEY, BALL = 0.225, 0.05, 0.06, 0.03, 0.05, 0.3
#: A support nearer to the floor than this is the floor.
FLOOR = 0.03
#: Turns of a band's zigzag, and how far they swing.
TURNS, SWING = 9, 0.035
#: The joint about which a machine's lever turns, by the segment that works.
PIVOT = {"shank": "knee", "foot": "ankle", "thigh": "hip", "trunk": "mid_hip", "upper_arm": "shoulder", "forearm": "elbow"}


def equipment(exercise: Exercise, vocabulary: Vocabulary, frame: Frame, frames: Sequence[Frame],
              working: str) -> tuple[list[Shape], list[Shape]]:
    """What stands behind the body and what lies before it."""
    position = vocabulary.positions[exercise.movement.position]
    drawn = {vocabulary.equipment[id].drawn for id in exercise.equipment} - {None}
    behind = _supports(exercise, position, frame, frames, "ball" in drawn)
    behind += _pulls(exercise, frame)
    return behind, _loads(exercise, frame, frames, working, drawn)


def load_radius(exercise: Exercise, vocabulary: Vocabulary) -> float:
    """How far the drawn load reaches around its point, metres."""
    return DISC if "disc" in {vocabulary.equipment[id].drawn for id in exercise.equipment} else PAD


def _supports(exercise: Exercise, position: Position, frame: Frame, frames: Sequence[Frame], ball: bool) -> list[Shape]:
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
            shapes += [*_post((left + right) / 2, (low + high) / 2), pad]
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


def _pulls(exercise: Exercise, frame: Frame) -> list[Shape]:
    load = exercise.movement.load
    anchor = anchor_point(load)
    if anchor is None or load.at is None or load.kind not in ("cable", "band"):
        return []
    held = load_point(frame, load.at)
    if load.kind == "band":
        return [*_post(anchor[0], anchor[1] + 0.08), _zigzag(anchor, held)]
    return [*_post(anchor[0] + (PULLEY if anchor[0] > held[0] else -PULLEY), max(anchor[1] + 0.15, 1.2)),
            line([anchor, held], "cord"), disc(anchor, PULLEY, "kit"), disc(anchor, 0.012, "hub")]


def _loads(exercise: Exercise, frame: Frame, frames: Sequence[Frame], working: str, drawn: set[str | None]) -> list[Shape]:
    load, shapes = exercise.movement.load, []
    if "roller" in drawn:
        shapes.append(_roller(frame, -1))
    if "slider" in drawn:
        shapes.append(limb((frame.joints["heel"][0] - 0.1, 0.0), (frame.joints["heel"][0] + 0.1, 0.0), 0.015, 0.015, "hub"))
    if load.at is None:
        return shapes
    points = [load_point(frame, load.at)]
    if frame.view == "front" and load.at in ("hand", "ankle"):
        points.append(frame.joints[OTHER + load.at])
    for at in points:
        if load.kind == "machine":
            shapes += _lever(frame, frames, working, at, load.at)
        elif load.kind == "free-weight":
            shapes += _weight(frame, at, load.at, drawn)
        elif load.kind in ("cable", "band"):
            shapes.append(disc(at, 0.022, "hub"))
    return shapes


def _weight(frame: Frame, at: Point, where: str, drawn: set[str | None]) -> list[Shape]:
    if "disc" in drawn:
        at = _carried(frame, at, where)
        return [disc(at, DISC, "ring"), disc(at, 0.02, "hub")]
    if "kettlebell" in drawn:
        return [disc((at[0], at[1] - 0.13), 0.1, "kit"), disc(at, 0.02, "hub")]
    if "plate" in drawn:
        return [disc(at, DISC * 0.7, "ring")]
    forearm = frame.segments["forearm"].angle
    across = (cos(radians(forearm)), sin(radians(forearm)))
    ends = [(at[0] + side * 0.13 * across[0], at[1] + side * 0.13 * across[1]) for side in (-1, 1)]
    inner = [(at[0] + side * 0.07 * across[0], at[1] + side * 0.07 * across[1]) for side in (-1, 1)]
    return [limb(ends[0], inner[0], 0.05, 0.05, "hub"), limb(ends[1], inner[1], 0.05, 0.05, "hub"), line(ends, "cord")]


def _carried(frame: Frame, at: Point, where: str) -> Point:
    """A bar beside the joint that carries it: behind the shoulders, or before chest and hips."""
    away = {"shoulders": -0.1, "chest": 0.13, "hips": 0.12}.get(where)
    return at if away is None else _off(frame.segments["trunk"], at, away, trunk=True)


def _lever(frame: Frame, frames: Sequence[Frame], working: str, at: Point, where: str) -> list[Shape]:
    pivot = frame.joints[PIVOT[working]]
    if where not in ("ankle", "heel"):
        return [line([pivot, at], "cord"), disc(at, 0.028, "kit")]
    before, after = (load_point(frames[n], where) for n in (0, 1))
    forward = (cos(radians(frames[0].segments["shank"].angle)), sin(radians(frames[0].segments["shank"].angle)))
    roller = _roller(frame, 1 if (after[0] - before[0]) * forward[0] + (after[1] - before[1]) * forward[1] > 0 else -1)
    (x, y), (u, v) = roller.room[0], roller.room[1]
    return [line([pivot, ((x + u) / 2, (y + v) / 2)], "cord"), roller]


def _roller(frame: Frame, side: int) -> Shape:
    """A padded roller at the ankle, before (1) or behind (-1) the shank."""
    shank = frame.segments["shank"]
    length = hypot(shank.end[0] - shank.start[0], shank.end[1] - shank.start[1])
    share = 1 - 0.05 / length
    near = (shank.start[0] + share * (shank.end[0] - shank.start[0]), shank.start[1] + share * (shank.end[1] - shank.start[1]))
    return disc(_off(shank, near, side * (0.04 + PAD)), PAD, "kit")


def _beside(segment: Segment, low: float, high: float, away: float) -> Shape:
    """A pad along a segment from one share of its length to another, before (positive) or behind it."""
    trunk = segment.end[1] > segment.start[1]
    ends = [(segment.start[0] + s * (segment.end[0] - segment.start[0]), segment.start[1] + s * (segment.end[1] - segment.start[1]))
            for s in (low, high)]
    first, last = (_off(segment, end, away, trunk) for end in ends)
    return limb(first, last, SLAB / 2, SLAB / 2, "kit")


def _off(segment: Segment, at: Point, away: float, trunk: bool = False) -> Point:
    """``at`` moved square to a segment, forward when positive."""
    turn = radians(-segment.angle if trunk else segment.angle)
    return at[0] + away * cos(turn), at[1] + away * sin(turn)


def _still(frames: Sequence[Frame], segment: str) -> bool:
    angles = [frame.segments[segment].angle for frame in frames]
    return max(angles) - min(angles) < 5


def _bench(left: float, right: float, top: float) -> list[Shape]:
    inset = min(0.08, (right - left) / 4)
    legs = [block(x - LEG_OF_BENCH / 2, x + LEG_OF_BENCH / 2, 0, top - SLAB, "kit") for x in (left + inset, right - inset)]
    return [*legs, block(left, right, top - SLAB, top, "kit")]


def _post(x: float, top: float) -> list[Shape]:
    return [block(x - LEG_OF_BENCH / 2, x + LEG_OF_BENCH / 2, 0, top, "kit")]


def _grip_above(hand: Point, shoulder: Point, top: float) -> list[Shape]:
    if hand[1] > shoulder[1]:
        return [line([hand, (hand[0], hand[1] + 0.14)], "cord"), disc(hand, 0.025, "hub")]
    return _bench(hand[0] - 0.2, hand[0] + 0.2, top)


def _zigzag(start: Point, end: Point) -> Shape:
    length = hypot(end[0] - start[0], end[1] - start[1]) or 1.0
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    points = [start]
    for turn in range(1, TURNS):
        way, swing = length * turn / TURNS, SWING * (-1) ** turn
        points.append((start[0] + way * along[0] - swing * along[1], start[1] + way * along[1] + swing * along[0]))
    return line([*points, end], "cord")
