"""Bars that carry somebody, seen end-on, and bars with plates of another shape than a disc's."""

from __future__ import annotations

from ....catalog.entries import Exercise
from ....movement.posture.frame import Frame
from ..shapes import Point, Shape, block, disc, limb, line

#: Half the width of a rig's uprights and of its foot, how far they rise above the bar, and the bar's radius, metres.
UPRIGHT, FOOT, ABOVE, BAR = 0.025, 0.26, 0.07, 0.024
#: Hex bar: half the length of its frame, how far the handles stand above it, and the disc of its plates, metres.
FRAME, HANDLES, DISC = 0.4, 0.075, 0.225
#: Height of a rail, height of a floor joint, and how far from the person it lies at most, metres.
RAIL, JOINT, LONGEST = 1.9, 0.05, 2.4
#: Bars with one end fixed.
HINGED = ("hinged-bar", "bar-row-bench")
#: Equipment that the hands hang from or rest in.
CARRIES = ("pull-up-bar", "low-bar", "suspension-straps")


def rig(hand: Point, top: float) -> list[Shape]:
    """The frame that carries a bar: its uprights stand in the plane of the bar, so the nearer hides the other."""
    return [
        block(hand[0] - UPRIGHT, hand[0] + UPRIGHT, 0.0, top + ABOVE, "kit"),
        limb((hand[0] - FOOT, 0.02), (hand[0] + FOOT, 0.02), 0.02, 0.02, "kit"),
    ]


def grasped(exercise: Exercise, frame: Frame) -> list[Shape]:
    """The end of the bar or handle in the hand that it carries."""
    if frame.view.apart or not set(CARRIES) & set(exercise.equipment):
        return []
    return [disc(frame.joints["hand"], BAR + 0.016, "kit"), disc(frame.joints["hand"], BAR, "hub")]


def rails(bar: Point) -> list[Shape]:
    """The rail that a guided bar slides on, and its foot."""
    x = bar[0]
    return [
        block(x - 0.012, x + 0.012, 0.0, max(RAIL, bar[1] + 0.1), "kit"),
        limb((x - FOOT, 0.02), (x + FOOT, 0.02), 0.02, 0.02, "kit"),
    ]


def hinge(first: Point, last: Point) -> Point:
    """Where a bar with one end fixed turns: on the floor, as far from the hand's first place as from its last."""
    (a, b), (c, d) = first, last
    x = ((c * c - a * a) + (d - JOINT) ** 2 - (b - JOINT) ** 2) / (2 * (c - a or 1e-9))
    return max(-LONGEST, min(LONGEST, x)), JOINT


def hinged(exercise: Exercise, hand: Point, first: Point, last: Point) -> list[Shape]:
    """A bar from the hand to its joint on the floor."""
    if not set(HINGED) & set(exercise.equipment):
        return []
    x, y = hinge(first, last)
    return [
        limb((x, y), hand, 0.014, 0.014, "hub"),
        block(x - 0.06, x + 0.06, 0.0, y + 0.03, "kit"),
    ]


def hex_frame(hand: Point) -> list[Shape]:
    """A hex bar from the side: the plates, the frame that reaches before and behind the person, and a raised handle."""
    x, y = hand[0], hand[1] - HANDLES
    return [
        disc((x, y), DISC, "ring"),
        limb((x - FRAME, y), (x + FRAME, y), 0.016, 0.016, "hub"),
        line([(x - 0.1, y), (x - 0.1, hand[1]), (x + 0.1, hand[1]), (x + 0.1, y)], "cord"),
        disc(hand, 0.02, "hub"),
    ]
