"""The equipment of a posture figure, hinted with a few lines.

What loads the body follows from the kind of load; free weights and other loose
things are drawn as the vocabulary says (``drawn:``).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from math import cos, hypot, radians, sin

from ...catalog.entries import Exercise, Load, Vocabulary
from ...movement.load.forces import LOADED, load_point
from ...movement.load.moments import anchor_in
from ...movement.posture.frame import OTHER, Frame
from ...movement.posture.pose import view_of
from .limbs import unit, working_sides
from .shapes import Point, Shape, disc, limb, line, post
from .support import off, plate
from .views import drawn_view

#: Sizes in metres; only the look depends on them, except the disc's: a full barbell plate measures 0.45 m across.
DISC, PAD, PULLEY = 0.225, 0.05, 0.05
#: Turns of a band's zigzag, and how far they swing.
TURNS, SWING = 9, 0.035
#: How far a bar reaches beyond the hands on it, seen from the front, metres.
BEYOND = 0.3
#: Length of a stick or hammer above the fist, metres.
HANDLE = 0.26
#: Load point on the trunk -> how far before (positive) or behind it a machine's pad lies, metres.
BODY_PADS = {"chest": 0.15, "upper-back": -0.15, "shoulders": -0.05}
#: The joint about which a machine's lever turns, by the segment that works.
PIVOT = {
    "shank": "knee",
    "foot": "ankle",
    "thigh": "hip",
    "trunk": "mid_hip",
    "upper_arm": "shoulder",
    "forearm": "elbow",
}


def equipment(
    exercise: Exercise, vocabulary: Vocabulary, frame: Frame, frames: Sequence[Frame], working: str
) -> tuple[list[Shape], list[Shape]]:
    """What stands behind the body and what lies before it."""
    drawn = {vocabulary.equipment[id].drawn for id in exercise.equipment} - {None}
    behind = [
        *drawn_view(frame).supports(exercise, vocabulary, frame, frames),
        *_pulls(exercise, frame),
    ]
    return behind, [
        *_loose(frame, drawn),
        *_loads(exercise.movement.load, frame, frames, working, drawn),
    ]


def load_radius(exercise: Exercise, vocabulary: Vocabulary) -> float:
    """How far the drawn load reaches around its point, metres."""
    if "disc" not in {vocabulary.equipment[id].drawn for id in exercise.equipment}:
        return PAD
    return DISC if not view_of(exercise.movement).apart else BEYOND + PAD


def _pulls(exercise: Exercise, frame: Frame) -> list[Shape]:
    load = exercise.movement.load
    anchor = anchor_in(frame, load)
    if anchor is None or load.at is None or load.kind not in ("cable", "band"):
        return []
    held = load_point(frame, load.at)
    if load.anchor == "other-hand":
        return [_zigzag(anchor, held)]
    shapes = _pull(load.kind, anchor, held, frame.view.upright)
    if OTHER in working_sides(frame):
        there = frame.joints[OTHER + LOADED[load.at][1]]
        shapes += _pull(load.kind, _mirrored(frame, anchor), there, frame.view.upright)
    return shapes


def _mirrored(frame: Frame, point: Point) -> Point:
    """A point on the other side of the body's middle."""
    if abs(frame.turn) == 90:
        return point[0], 2 * frame.joints["mid_hip"][1] - point[1]
    return 2 * frame.joints["mid_hip"][0] - point[0], point[1]


def _pull(kind: str, anchor: Point, held: Point, upright: bool) -> list[Shape]:
    """A band from its post, or a cable from its pulley; from the head no upright is seen."""
    if kind == "band":
        return [
            *(post(anchor[0], anchor[1] + 0.08) if upright else [disc(anchor, 0.03, "hub")]),
            _zigzag(anchor, held),
        ]
    stand = (
        post(anchor[0] + (PULLEY if anchor[0] > held[0] else -PULLEY), max(anchor[1] + 0.15, 1.2))
        if upright
        else []
    )
    return [
        *stand,
        line([anchor, held], "cord"),
        disc(anchor, PULLEY, "kit"),
        disc(anchor, 0.012, "hub"),
    ]


def _loose(frame: Frame, drawn: Collection[str | None]) -> list[Shape]:
    """What lies at the ankles or slides under the heels."""
    shapes = [_roller(frame, -1)] if "roller" in drawn else []
    if "slider" in drawn:
        shapes.append(
            limb(
                (frame.joints["heel"][0] - 0.1, 0.0),
                (frame.joints["heel"][0] + 0.1, 0.0),
                0.015,
                0.015,
                "hub",
            )
        )
    return shapes


def _loads(
    load: Load, frame: Frame, frames: Sequence[Frame], working: str, drawn: Collection[str | None]
) -> list[Shape]:
    """The load where it meets the body, on each side that works."""
    if load.at is None:
        return []
    if "forearm-rotation" in frame.angles:
        return [shape for prefix in ("", OTHER) for shape in _handle(frame, prefix)]
    joint = LOADED[load.at][1]
    points = [load_point(frame, load.at)]
    points += [
        frame.joints[prefix + joint]
        for prefix in working_sides(frame)[1:]
        if prefix + joint in frame.joints
    ]
    bar = (
        drawn_view(frame).bar
        and "disc" in drawn
        and load.kind == "free-weight"
        and load.at == "hand"
    )
    if bar and len(points) == 2:
        return _barbell(points[0], points[1])
    return [
        shape
        for at, prefix in zip(points, ("", OTHER), strict=False)
        for shape in _load(load.kind, load.at, at, frame, frames, working, drawn, prefix + joint)
    ]


def _load(
    kind: str,
    where: str,
    at: Point,
    frame: Frame,
    frames: Sequence[Frame],
    working: str,
    drawn: Collection[str | None],
    joint: str,
) -> list[Shape]:
    """What loads one limb at the point ``at``, where its ``joint`` is."""
    if kind == "machine":
        return (
            [_pad(frames, at, joint)]
            if frame.view.apart
            else _lever(frame, frames, working, at, where)
        )
    if kind == "free-weight":
        return _weight(frame, at, where, drawn)
    return [disc(at, 0.022, "hub")] if kind in ("cable", "band") else []


def _weight(frame: Frame, at: Point, where: str, drawn: Collection[str | None]) -> list[Shape]:
    if "disc" in drawn:
        at = _carried(frame, at, where)
        return [disc(at, DISC, "ring"), disc(at, 0.02, "hub")]
    if "kettlebell" in drawn:
        return [disc((at[0], at[1] - 0.13), 0.1, "kit"), disc(at, 0.02, "hub")]
    if frame.view.apart:  # a handle that points at the viewer
        return [disc(at, 0.065, "kit"), disc(at, 0.02, "hub")]
    if "plate" in drawn:
        return [disc(at, DISC * 0.7, "ring")]
    forearm = frame.segments["forearm"].angle
    across = (cos(radians(forearm)), sin(radians(forearm)))
    ends = [(at[0] + side * 0.13 * across[0], at[1] + side * 0.13 * across[1]) for side in (-1, 1)]
    inner = [(at[0] + side * 0.07 * across[0], at[1] + side * 0.07 * across[1]) for side in (-1, 1)]
    return [
        limb(ends[0], inner[0], 0.05, 0.05, "hub"),
        limb(ends[1], inner[1], 0.05, 0.05, "hub"),
        line(ends, "cord"),
    ]


def _barbell(left: Point, right: Point) -> list[Shape]:
    """A bar across both hands with a disc at each end, seen from the front."""
    along = unit(right, left)
    ends = [
        (left[0] + BEYOND * along[0], left[1] + BEYOND * along[1]),
        (right[0] - BEYOND * along[0], right[1] - BEYOND * along[1]),
    ]
    across = (-along[1] * DISC, along[0] * DISC)
    discs = [
        limb((x - across[0], y - across[1]), (x + across[0], y + across[1]), 0.025, 0.025, "kit")
        for x, y in ends
    ]
    return [line(ends, "cord"), *discs]


def _handle(frame: Frame, prefix: str) -> list[Shape]:
    """A stick in the fist that turns with the forearm: upright where the thumb points up, level where the palm faces down."""
    turn, side = (
        radians(frame.angles.get(prefix + "forearm-rotation", frame.angles["forearm-rotation"])),
        -1 if prefix else 1,
    )
    x, y = frame.joints[prefix + "hand"]
    ends = [(x - side * far * sin(turn), y + far * cos(turn)) for far in (-0.08, HANDLE)]
    return [line(ends, "cord"), disc(ends[1], PAD, "kit")]


def _pad(frames: Sequence[Frame], at: Point, joint: str) -> Shape:
    """A machine's pad, on the side to which the limb presses it."""
    way = unit(frames[0].joints[joint], frames[1].joints[joint])
    return disc((at[0] + way[0] * 0.11, at[1] + way[1] * 0.11), PAD, "kit")


def _carried(frame: Frame, at: Point, where: str) -> Point:
    """A bar beside the joint that carries it: behind the shoulders, or before chest and hips."""
    away = {"shoulders": -0.1, "chest": 0.13, "hips": 0.12}.get(where)
    return at if away is None else off(frame.segments["trunk"], at, away, trunk=True)


def _lever(
    frame: Frame, frames: Sequence[Frame], working: str, at: Point, where: str
) -> list[Shape]:
    if where == "foot":
        return [plate(frame)]
    if where in BODY_PADS:
        return [disc(off(frame.segments["trunk"], at, BODY_PADS[where], trunk=True), PAD, "kit")]
    pivot = frame.joints[PIVOT[working]]
    if where not in ("ankle", "heel"):
        return [line([pivot, at], "cord"), disc(at, 0.028, "kit")]
    before, after = (load_point(frames[n], where) for n in (0, 1))
    forward = (
        cos(radians(frames[0].segments["shank"].angle)),
        sin(radians(frames[0].segments["shank"].angle)),
    )
    roller = _roller(
        frame,
        1 if (after[0] - before[0]) * forward[0] + (after[1] - before[1]) * forward[1] > 0 else -1,
    )
    (x, y), (u, v) = roller.room[0], roller.room[1]
    return [line([pivot, ((x + u) / 2, (y + v) / 2)], "cord"), roller]


def _roller(frame: Frame, side: int) -> Shape:
    """A padded roller at the ankle, before (1) or behind (-1) the shank."""
    shank = frame.segments["shank"]
    length = hypot(shank.end[0] - shank.start[0], shank.end[1] - shank.start[1])
    share = 1 - 0.05 / length
    near = (
        shank.start[0] + share * (shank.end[0] - shank.start[0]),
        shank.start[1] + share * (shank.end[1] - shank.start[1]),
    )
    return disc(off(shank, near, side * (0.04 + PAD)), PAD, "kit")


def _zigzag(start: Point, end: Point) -> Shape:
    length = hypot(end[0] - start[0], end[1] - start[1]) or 1.0
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    points = [start]
    for turn in range(1, TURNS):
        way, swing = length * turn / TURNS, SWING * (-1) ** turn
        points.append(
            (
                start[0] + way * along[0] - swing * along[1],
                start[1] + way * along[1] + swing * along[0],
            )
        )
    return line([*points, end], "cord")
