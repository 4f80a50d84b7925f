"""Things that hands, knees and belts hold: a ball, a bench for the free hand, a chair's back, straps, a hanging plate."""

from __future__ import annotations

from math import dist

from ....catalog.entries import Exercise, Position
from ....movement.load.statics import between
from ....movement.posture.frame import OTHER, Frame
from ..shapes import SLAB, Point, Shape, bench, block, disc, limb, line, post

#: Half the thickness of a knee seen from the front, and the smallest ball, metres.
KNEE, BALL = 0.055, 0.05
#: Length of a belt's chain and radius of the plate on it, metres.
CHAIN, PLATE = 0.6, 0.14
#: Height of a chair's seat, and how deep it is, metres.
SEAT, DEEP = 0.45, 0.4
#: How far above a handle its two strings meet, and how far before the hands the straps are tied, metres.
STIRRUP, AHEAD = 0.13, 0.3


def stands(exercise: Exercise, position: Position, frame: Frame) -> list[Shape]:
    """What stands behind the body."""
    shapes: list[Shape] = []
    hand = frame.joints.get(OTHER + "hand")
    if "flat-bench" in exercise.equipment and hand and list(position.rests_on) == ["feet"]:
        shapes += bench(hand[0] - 0.16, hand[0] + 0.5, hand[1] - 0.03)
    if "chair" in exercise.equipment and "toes" in position.rests_on:
        x, top = frame.joints["hand"]
        shapes += [
            *post(x, top),
            *post(x + DEEP, SEAT),
            block(x, x + DEEP, SEAT - SLAB, SEAT, "kit"),
            limb((x, SEAT), (x, top), 0.02, 0.02, "kit"),
        ]
    if "seated-calf-machine" in exercise.equipment:
        x, top = frame.joints["toe"]
        shapes.append(block(x - 0.1, x + 0.16, 0.0, top, "kit"))
    return shapes


def held(exercise: Exercise, frame: Frame) -> list[Shape]:
    """What lies before the body."""
    shapes: list[Shape] = []
    if "small-ball" in exercise.equipment:
        ends = frame.joints["knee"], frame.joints[OTHER + "knee"]
        shapes.append(disc(between(*ends, 0.5), max(BALL, dist(*ends) / 2 - KNEE), "kit"))
    if "loading-belt" in exercise.equipment:
        x, y = frame.joints["mid_hip"][0] + 0.1, frame.joints["mid_hip"][1]
        low = max(y - CHAIN, PLATE)
        shapes += [line([(x, y), (x, low)], "cord"), disc((x, low), PLATE, "ring")]
    return shapes


def straps(hand: Point, top: float) -> list[Shape]:
    """A strap from a bar above to the handle that the hand holds."""
    way = (AHEAD / (top - hand[1]), 1.0)
    fork = (hand[0] + STIRRUP * way[0], hand[1] + STIRRUP)
    tied = (hand[0] + AHEAD, top)
    return [
        line([tied, fork], "cord"),
        line([fork, (hand[0] - 0.06, hand[1]), (hand[0] + 0.06, hand[1]), fork], "cord"),
        block(tied[0] - 0.2, tied[0] + 0.2, top, top + 0.05, "kit"),
    ]
