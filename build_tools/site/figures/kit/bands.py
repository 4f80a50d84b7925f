"""Bands that no post holds: looped from a bar to a knee, around both feet, or under the foot that stands on them."""

from __future__ import annotations

from math import dist, hypot

from ....catalog.entries import Exercise
from ....movement.posture.frame import OTHER, Frame
from ..shapes import Point, Shape, disc, line

#: Turns of a band's zigzag, and how far they swing, metres.
TURNS, SWING = 9, 0.035
#: Equipment that a band is tied to.
ANCHORS = {"low-anchor", "high-anchor"}
#: What of the body holds a band that is tied to nothing.
HOLDS = ("toe", "heel", "ankle", "hand")
#: How far below a knee's centre a band runs around it, metres.
UNDER = 0.07


def is_tied(exercise: Exercise) -> bool:
    """Whether something fixed holds the band."""
    return bool(ANCHORS & set(exercise.equipment))


def held_end(frame: Frame, anchor: Point) -> Point:
    """Where the body holds a band that is tied to nothing: the joint nearest to where the author puts its end."""
    names = [prefix + joint for prefix in ("", OTHER) for joint in HOLDS]
    return min(
        (frame.joints[name] for name in names if name in frame.joints),
        key=lambda point: dist(point, anchor),
    )


def helping(exercise: Exercise, frame: Frame) -> list[Shape]:
    """A band that hangs from the bar and lifts a knee."""
    if "band" not in exercise.equipment or exercise.movement.load.kind != "body-weight":
        return []
    (x, y), hand = frame.joints["knee"], frame.joints["hand"]
    return [zigzag((hand[0] + 0.04, hand[1]), (x + 0.03, y - UNDER))]


def loop(exercise: Exercise, frame: Frame) -> list[Shape]:
    """Where that band runs around the knee."""
    return [_loop(frame.joints["knee"])] if helping(exercise, frame) else []


def zigzag(start: Point, end: Point) -> Shape:
    """A stretched band."""
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


def _loop(knee: Point) -> Shape:
    return disc(knee, UNDER + 0.02, "ring")
