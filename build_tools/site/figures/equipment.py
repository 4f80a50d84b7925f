"""The equipment of a posture figure, hinted with a few lines.

What loads the body follows from the kind of load; free weights and other loose
things are drawn as the vocabulary says (``drawn:``).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from math import cos, dist, hypot, radians, sin

from ...catalog.entries import Exercise, Load, Movement, Vocabulary
from ...movement.load.forces import LOADED, load_point
from ...movement.load.moments import anchor_in
from ...movement.load.statics import between
from ...movement.posture.frame import OTHER, Frame
from ...movement.posture.pose import view_of
from .kit import bands, bars, machines, props
from .limbs import unit, working_sides
from .shapes import Point, Shape, disc, limb, line, post
from .support import off, plate
from .views import drawn_view

#: Sizes in metres; only the look depends on them, except the disc's: a full barbell plate measures 0.45 m across.
DISC, PAD, PULLEY = 0.225, 0.05, 0.05
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
    position = vocabulary.positions[exercise.movement.position]
    loads = _loads(exercise.movement, frame, frames, working, drawn)
    rings = (
        [shape for shape in loads if shape.style == "ring"]
        if _is_at_face(exercise.movement.load, frames, drawn)
        else []
    )
    behind = [
        *machines.frame_of(exercise, position, frame, frames),
        *_bar_behind(exercise, frame, frames),
        *drawn_view(frame).supports(exercise, vocabulary, frame, frames),
        *props.stands(exercise, position, frame),
        *_pulls(exercise, frame),
        *bands.helping(exercise, frame),
        *rings,
    ]
    return behind, [
        *_loose(exercise, frame, drawn),
        *bars.grasped(exercise, frame),
        *bands.loop(exercise, frame),
        *props.held(exercise, frame),
        *(shape for shape in loads if shape not in rings),
    ]


def _bar_behind(exercise: Exercise, frame: Frame, frames: Sequence[Frame]) -> list[Shape]:
    """The rails of a guided bar, or a bar as far as its joint on the floor."""
    at = exercise.movement.load.at
    if at is None or frame.view.apart:
        return []
    if machines.GUIDED in exercise.equipment:
        return bars.rails(_carried(frame, load_point(frame, at), at))
    first, last = (load_point(each, at) for each in (frames[0], frames[-1]))
    return bars.hinged(exercise, load_point(frame, at), first, last)


def _is_at_face(load: Load, frames: Sequence[Frame], drawn: Collection[str | None]) -> bool:
    """Whether a bar's plates come before the face at some time: they are drawn behind the person then."""
    weight = load.kind in ("free-weight", "machine")
    if "disc" not in drawn or not weight or load.at is None or frames[0].view.apart:
        return False
    return any(
        dist(_carried(frame, load_point(frame, load.at), load.at), _face(frame)) < DISC + PAD
        for frame in frames
    )


def _face(frame: Frame) -> Point:
    neck = frame.segments["head"]
    return between(neck.start, neck.end, 0.67)


def load_radius(exercise: Exercise, vocabulary: Vocabulary) -> float:
    """How far the drawn load reaches around its point, metres."""
    if not {"disc", "hex"} & {vocabulary.equipment[id].drawn for id in exercise.equipment}:
        return PAD
    return DISC if not view_of(exercise.movement).apart else BEYOND + PAD


def _pulls(exercise: Exercise, frame: Frame) -> list[Shape]:
    load = exercise.movement.load
    anchor = anchor_in(frame, load)
    if anchor is None or load.at is None or load.kind not in ("cable", "band"):
        return []
    held = load_point(frame, load.at)
    if load.anchor == "other-hand":
        return [bands.zigzag(anchor, held)]
    loose = load.kind == "band" and not bands.is_tied(exercise)
    if loose:
        anchor = bands.held_end(frame, anchor)
    shapes = _pull(load.kind, anchor, held, frame.view.upright, loose)
    if OTHER in working_sides(frame):
        there = frame.joints[OTHER + LOADED[load.at][1]]
        shapes += _pull(load.kind, _mirrored(frame, anchor), there, frame.view.upright, loose)
    return shapes


def _mirrored(frame: Frame, point: Point) -> Point:
    """A point on the other side of the body's middle."""
    if abs(frame.turn) == 90:
        return point[0], 2 * frame.joints["mid_hip"][1] - point[1]
    return 2 * frame.joints["mid_hip"][0] - point[0], point[1]


def _pull(kind: str, anchor: Point, held: Point, upright: bool, loose: bool) -> list[Shape]:
    """A band from its post or from the body, or a cable from its pulley; from the head no upright is seen."""
    if loose:
        return [bands.zigzag(anchor, held), disc(anchor, 0.03, "hub")]
    if kind == "band":
        return [
            *(post(anchor[0], anchor[1] + 0.08) if upright else [disc(anchor, 0.03, "hub")]),
            bands.zigzag(anchor, held),
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


def _loose(exercise: Exercise, frame: Frame, drawn: Collection[str | None]) -> list[Shape]:
    """What lies at the ankles, on the rod that carries it, or slides under the heels."""
    shapes = []
    if "roller" in drawn:
        hooked = "decline-bench" in exercise.equipment  # the feet hook under it
        roller = _roller(frame, 1 if hooked else -1)
        middle = between(roller.room[0], roller.room[1], 0.5)
        rod = {"decline-bench": "knee", "back-extension-bench": "hip"}
        ends = [frame.joints[joint] for id, joint in rod.items() if id in exercise.equipment]
        if "glute-ham-bench" in exercise.equipment:
            ends = [(frame.joints["knee"][0], frame.joints["knee"][1] - 0.1)]
        shapes += [line([(x, y - 0.14), middle], "cord") for x, y in ends]
        shapes.append(roller)
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
    movement: Movement,
    frame: Frame,
    frames: Sequence[Frame],
    working: str,
    drawn: Collection[str | None],
) -> list[Shape]:
    """The load where it meets the body, on each side that works."""
    load = movement.load
    if load.at is None or "belt" in drawn:
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
        for shape in _load(movement, at, frame, frames, working, drawn, prefix + joint)
    ]


def _load(
    movement: Movement,
    at: Point,
    frame: Frame,
    frames: Sequence[Frame],
    working: str,
    drawn: Collection[str | None],
    joint: str,
) -> list[Shape]:
    """What loads one limb at the point ``at``, where its ``joint`` is."""
    kind, where = movement.load.kind, movement.load.at or ""
    if kind == "machine" and "disc" in drawn:  # a bar on rails
        return _weight(frame, at, where, drawn, end_on=False)
    if kind == "machine":
        return (
            [_pad(frames, at, joint)]
            if frame.view.apart
            else _lever(frame, frames, working, at, where)
        )
    if kind == "free-weight":
        return _weight(frame, at, where, drawn, is_end_on(movement, frame))
    return [disc(at, 0.022, "hub")] if kind in ("cable", "band") else []


def is_end_on(movement: Movement, frame: Frame) -> bool:
    """Whether a dumbbell points at somebody who looks from the side: palms up or down, not facing each other."""
    if movement.grip == "turning":
        return frame.time > 0.5
    return movement.grip in ("overhand", "underhand")


def _weight(
    frame: Frame, at: Point, where: str, drawn: Collection[str | None], end_on: bool
) -> list[Shape]:
    if "hex" in drawn:
        return bars.hex_frame(at)
    if "disc" in drawn:
        at = _carried(frame, at, where)
        return [disc(at, DISC, "ring"), disc(at, 0.02, "hub")]
    if "kettlebell" in drawn:
        return [disc((at[0], at[1] - 0.13), 0.1, "kit"), disc(at, 0.02, "hub")]
    if "plate" in drawn:
        return [disc(at, DISC * 0.7, "ring")]
    if frame.view.apart or end_on:  # a handle that points at the viewer
        return [disc(at, 0.065, "kit"), disc(at, 0.02, "hub")]
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
    if where == "knee":
        return [disc((at[0] - 0.04, at[1] + 0.11), PAD, "kit")]
    if where == "hand":
        return [disc(at, 0.028, "kit")]
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
