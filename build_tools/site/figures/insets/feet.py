"""How the feet stand, seen from above: against the shoulders, and with the bar that stands over them."""

from __future__ import annotations

from math import cos, pi, radians, sin

from ....catalog.entries import Exercise, Movement, Vocabulary
from ....english import upper_first
from ....movement.posture.body import HEEL, HIPS_APART, REFERENCE
from ..shapes import Point, Shape, area, block, disc, joined, limb, line, view_box
from .hands import SHOULDERS, TWO_HANDLES
from .inset import Inset

#: Half the width of heel and ball, metres, and the room around the drawing.
SOLE, BALL, EDGE = 0.036, 0.046, 0.05
#: Width that the drawing has at least, metres.
LEAST = 1.0
#: Half the depth of the outline of the shoulders, how far a bar reaches beyond hands and feet, and half a plate's thickness.
DEEP, BEYOND, PLATE = 0.12, 0.2, 0.03
#: Half the width and half the length of a hex bar's frame, metres.
HEX_WIDE, HEX_LONG = 0.34, 0.4
#: Feet that nothing is told of stand under the hip joints, as in every figure from the front.
UNTOLD = HIPS_APART * REFERENCE.stature / SHOULDERS


def feet(exercise: Exercise, vocabulary: Vocabulary) -> Inset | None:
    """The feet from above, where the catalog says how they stand or where a bar that lies on the floor is held."""
    movement = exercise.movement
    if movement.stance is None and not lifts_from_floor(movement):
        return None
    stance = vocabulary.stances[movement.stance] if movement.stance else None
    half = (stance.times if stance else UNTOLD) * SHOULDERS / 2
    turned = stance.turned if stance else 0.0
    soles = joined("body", [_sole(side, half, turned) for side in (1, -1)])
    shapes = [_shoulders(), *_bar(exercise, vocabulary, half), soles, *_fists(movement, vocabulary)]
    words = []
    if stance:
        words.append(f"feet {stance.name}")
    if lifts_from_floor(movement) and movement.hand_width:
        words.append(f"hands {vocabulary.hand_widths[movement.hand_width].name}")
    return Inset(
        f"{upper_first('; '.join(words))} (from above)", shapes, view_box(shapes, EDGE, LEAST)
    )


def lifts_from_floor(movement: Movement) -> bool:
    """Whether the hands take a bar from the floor between or beside the feet: then they are drawn with the feet."""
    return movement.load.height is not None and movement.hand_width is not None


def _sole(side: int, half: float, turned: float) -> Shape:
    length = REFERENCE.length("foot")
    out = (side * sin(radians(turned)), cos(radians(turned)))
    heel = (side * half - HEEL * length * out[0], -HEEL * length * out[1])
    toe = (heel[0] + length * out[0], heel[1] + length * out[1])
    return limb(heel, toe, SOLE, BALL)


def _shoulders() -> Shape:
    """The outline of the person above: shoulders and head."""
    oval = [(SHOULDERS / 2 * cos(2 * pi * n / 24), DEEP * sin(2 * pi * n / 24)) for n in range(24)]
    return joined("far", [area(oval)])


def _middle() -> float:
    """The middle of a foot, forward of the ankle."""
    return (0.5 - HEEL) * REFERENCE.length("foot")


def _bar(exercise: Exercise, vocabulary: Vocabulary, half: float) -> list[Shape]:
    if not lifts_from_floor(exercise.movement):
        return []
    y = _middle()
    if "hex" in {vocabulary.equipment[id].drawn for id in exercise.equipment}:
        frame: list[Point] = [
            (HEX_WIDE, y - 0.16),
            (HEX_WIDE, y + 0.16),
            (0.14, y + HEX_LONG),
            (-0.14, y + HEX_LONG),
            (-HEX_WIDE, y + 0.16),
            (-HEX_WIDE, y - 0.16),
            (-0.14, y - HEX_LONG),
            (0.14, y - HEX_LONG),
            (HEX_WIDE, y - 0.16),
        ]
        inner, outer = HEX_WIDE, HEX_WIDE + 0.16
        ends = [
            shape
            for side in (1, -1)
            for shape in (line([(side * inner, y), (side * outer, y)], "cord"),)
        ]
        return [line(frame, "cord"), *ends, *_plates(outer - 0.03, y)]
    reach = max(half + 0.1, SHOULDERS / 2) + BEYOND
    return [limb((-reach, y), (reach, y), 0.013, 0.013, "hub"), *_plates(reach - 0.05, y)]


def _plates(x: float, y: float) -> list[Shape]:
    return [
        block(side * x - PLATE / 2, side * x + PLATE / 2, y - 0.2, y + 0.2, "kit")
        for side in (1, -1)
    ]


def _fists(movement: Movement, vocabulary: Vocabulary) -> list[Shape]:
    if not lifts_from_floor(movement) or movement.hand_width is None:
        return []
    half = vocabulary.hand_widths[movement.hand_width].times * SHOULDERS / 2
    if movement.hand_width == TWO_HANDLES:
        half = HEX_WIDE
    return [disc((side * half, _middle()), 0.045, "hub") for side in (1, -1)]
