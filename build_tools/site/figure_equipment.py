"""The equipment of a posture figure, hinted with a few lines.

What loads the body follows from the kind of load; free weights and other loose
things are drawn as the vocabulary says (``drawn:``).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, hypot, radians, sin

from ..catalog.entries import Exercise, Vocabulary
from ..movement.applied import load_point
from ..movement.frame import OTHER, Frame
from ..movement.resistance import anchor_point
from .drawing import Point, Shape, disc, limb, line
from .figure_support import off, post, supports

#: Sizes in metres; only the look depends on them, except the disc's: a full barbell plate measures 0.45 m across.
DISC, PAD, PULLEY = 0.225, 0.05, 0.05
#: Turns of a band's zigzag, and how far they swing.
TURNS, SWING = 9, 0.035
#: The joint about which a machine's lever turns, by the segment that works.
PIVOT = {"shank": "knee", "foot": "ankle", "thigh": "hip", "trunk": "mid_hip", "upper_arm": "shoulder", "forearm": "elbow"}


def equipment(exercise: Exercise, vocabulary: Vocabulary, frame: Frame, frames: Sequence[Frame],
              working: str) -> tuple[list[Shape], list[Shape]]:
    """What stands behind the body and what lies before it."""
    drawn = {vocabulary.equipment[id].drawn for id in exercise.equipment} - {None}
    return [*supports(exercise, vocabulary, frame, frames), *_pulls(exercise, frame)], _loads(exercise, frame, frames, working, drawn)


def load_radius(exercise: Exercise, vocabulary: Vocabulary) -> float:
    """How far the drawn load reaches around its point, metres."""
    return DISC if "disc" in {vocabulary.equipment[id].drawn for id in exercise.equipment} else PAD


def _pulls(exercise: Exercise, frame: Frame) -> list[Shape]:
    load = exercise.movement.load
    anchor = anchor_point(load)
    if anchor is None or load.at is None or load.kind not in ("cable", "band"):
        return []
    held = load_point(frame, load.at)
    if load.kind == "band":
        return [*post(anchor[0], anchor[1] + 0.08), _zigzag(anchor, held)]
    return [*post(anchor[0] + (PULLEY if anchor[0] > held[0] else -PULLEY), max(anchor[1] + 0.15, 1.2)),
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
    return at if away is None else off(frame.segments["trunk"], at, away, trunk=True)


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
    return disc(off(shank, near, side * (0.04 + PAD)), PAD, "kit")


def _zigzag(start: Point, end: Point) -> Shape:
    length = hypot(end[0] - start[0], end[1] - start[1]) or 1.0
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    points = [start]
    for turn in range(1, TURNS):
        way, swing = length * turn / TURNS, SWING * (-1) ** turn
        points.append((start[0] + way * along[0] - swing * along[1], start[1] + way * along[1] + swing * along[0]))
    return line([*points, end], "cord")
