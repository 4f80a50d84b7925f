"""The whole body from the side, beside a movement that is seen from the head: a section through the chest does not show who lies, sits or stands."""

from __future__ import annotations

from math import dist

from ....catalog.entries import Exercise, Vocabulary
from ....movement.posture.facing import profiles
from ..body import pieces
from ..shapes import joined, line, view_box
from ..support import supports
from .inset import Inset

#: Room around the drawing, metres.
EDGE = 0.06


def whole(exercise: Exercise, vocabulary: Vocabulary) -> Inset | None:
    """Only for a figure that is drawn from the head."""
    movement = exercise.movement
    if movement.view != "above" or movement.shown is not None:
        return None
    course = profiles(movement, vocabulary)
    # With the arms where they reach furthest.
    frame = max(course, key=lambda f: dist(f.joints["hand"], f.joints["shoulder"]))
    body = joined("body", pieces(frame))
    shapes = [*supports(exercise, vocabulary, frame, course), body]
    floor = line([(x, 0.0) for x, _ in body.room], "floor")
    return Inset("From the side", [floor, *shapes], view_box([floor, *shapes], EDGE))
