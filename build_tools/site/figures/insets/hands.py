"""How the hands hold: which way the palms face, and how far apart they are against the shoulders.

Somebody's outline is broken, the hands and what they hold are whole. A bar above is seen from behind the person, any other from
before: either way backs of the hands and thumbs that point inwards mean overhand, fingers and thumbs that point outwards underhand.
"""

from __future__ import annotations

from collections.abc import Collection

from ....catalog.entries import Exercise, Vocabulary
from ....english import upper_first
from ....movement.posture.body import REFERENCE
from ..shapes import Point, Shape, area, disc, joined, limb, line, view_box
from .inset import Inset

#: Width of the shoulders, metres; the outline's head, and half its waist.
SHOULDERS = REFERENCE.length("shoulder_width")
HEAD, WAIST, CHEST = 0.105, 0.13, 0.36
#: Where the hands are below (or above) the line of the shoulders, metres: on a bar above, on one over the chest, on the floor, hanging.
ABOVE, LYING, FLOOR, HANGING = 0.52, -0.16, -0.2, -0.54
#: Half the width of a hand, of its thumb and a finger, drawn a little larger than life, metres.
PALM, THUMB, FINGER = 0.05, 0.019, 0.014
#: How far a bar reaches beyond the hands, metres, and the room around the drawing.
BEYOND, EDGE = 0.16, 0.04
#: Where hands of which no width is told are drawn, over the width of the shoulders.
UNTOLD = 1.1
#: Ids of the widths that stand for handles.
ONE_HANDLE, TWO_HANDLES = "one-handle", "two-handles"
#: Shoulders that are raised further than this (degrees) at the start hold something above.
RAISED = 120.0


def hands(exercise: Exercise, vocabulary: Vocabulary) -> Inset | None:
    """The hands against the shoulders, where the catalog says how far apart they are or how they hold a bar."""
    movement = exercise.movement
    turned = movement.grip in ("overhand", "underhand") and "wrist" not in movement.start
    if not (movement.hand_width or turned) or movement.load.height is not None:
        return None
    times = vocabulary.hand_widths[movement.hand_width].times if movement.hand_width else UNTOLD
    drawn = {vocabulary.equipment[id].drawn for id in exercise.equipment}
    y = _height(exercise, vocabulary)
    half = times * SHOULDERS / 2
    places = [(half, y), (-half, y)]
    held = _held(movement.hand_width, movement.grip, drawn, places, y)
    glyphs = [_hand(place, movement.grip, y, drawn) for place in places]
    edge = SHOULDERS / 2 + 0.02
    guides = [
        line([(side * edge, min(0.0, y) - 0.09), (side * edge, max(0.0, y) + 0.09)], "floor")
        for side in (1, -1)
    ]
    shapes = [*guides, _outline(), *held, *(shape for glyph in glyphs for shape in glyph)]
    return Inset(says(exercise, vocabulary), shapes, view_box(shapes, EDGE))


def says(exercise: Exercise, vocabulary: Vocabulary) -> str:
    """``Overhand (thumbs point at each other), hands as wide as the shoulders``."""
    movement, words = exercise.movement, []
    if movement.grip and (grip := vocabulary.grips.get(movement.grip)):
        words.append(f"{grip.name} ({grip.note})" if grip.note else grip.name)
    if movement.hand_width:
        words.append(f"hands {vocabulary.hand_widths[movement.hand_width].name}")
    return upper_first(", ".join(words))


def _height(exercise: Exercise, vocabulary: Vocabulary) -> float:
    movement = exercise.movement
    rests = vocabulary.positions[movement.position].rests_on
    if "hands" in rests and "toes" in rests:
        return FLOOR
    if "hands" in rests or movement.start.get("shoulder", 0.0) > RAISED:
        return LYING if "back" in rests else ABOVE
    return LYING if "back" in rests or movement.start.get("shoulder", 0.0) > 25.0 else HANGING


def _outline() -> Shape:
    """Head, shoulders and chest."""
    half = SHOULDERS / 2 - 0.05
    return joined(
        "far",
        [
            limb((-half, 0.0), (half, 0.0), 0.06, 0.06),
            area([(-half, 0.0), (half, 0.0), (WAIST, -CHEST), (-WAIST, -CHEST)]),
            limb((0.0, 0.0), (0.0, 0.16), 0.045, 0.045),
            disc((0.0, 0.22), HEAD),
        ],
    )


def _held(
    width: str | None,
    grip: str | None,
    drawn: Collection[str | None],
    places: list[Point],
    y: float,
) -> list[Shape]:
    """The bar, handles or dumbbells that the hands hold; nothing on the floor."""
    if y == FLOOR:
        return []
    if "dumbbell" in drawn:
        return [shape for place in places for shape in _dumbbell(place, grip)]
    if width in (ONE_HANDLE, TWO_HANDLES):
        top = y + 0.17
        sticks = [limb((x, y - 0.08), (x, y + 0.08), 0.016, 0.016, "hub") for x, _ in places]
        if width == ONE_HANDLE:
            ties = [line([(x, y + 0.08), (0.0, top), (0.0, top + 0.12)], "cord") for x, _ in places]
        else:
            reach = places[0][0] + BEYOND
            ties = [line([(x, y + 0.08), (x, top)], "cord") for x, _ in places]
            ties.append(line([(-reach, top), (reach, top)], "cord"))
        return [*ties, *sticks]
    reach = max(places[0][0], SHOULDERS / 2) + BEYOND
    return [limb((-reach, y), (reach, y), 0.014, 0.014, "hub")]


def _dumbbell(place: Point, grip: str | None) -> list[Shape]:
    x, y = place
    if grip == "neutral":  # its end points at the viewer
        return [disc(place, 0.078, "kit")]
    return [
        line([(x - 0.1, y), (x + 0.1, y)], "cord"),
        *(limb((x + s * 0.09, y), (x + s * 0.12, y), 0.05, 0.05, "hub") for s in (-1, 1)),
    ]


def _hand(place: Point, grip: str | None, y: float, drawn: Collection[str | None]) -> list[Shape]:
    """One hand; the thumb shows which way the palm faces."""
    x, inward = place[0], -1 if place[0] > 0 else 1
    if y == FLOOR:
        fingers = [
            limb((x + n * 0.027, y + 0.04), (x + n * 0.036, y + 0.115), FINGER, FINGER)
            for n in (-1.5, -0.5, 0.5, 1.5)
        ]
        thumb = limb((x + inward * 0.03, y - 0.01), (x + inward * 0.085, y + 0.045), THUMB, THUMB)
        return [joined("body", [*fingers, limb((x, y - 0.03), (x, y + 0.02), PALM, PALM), thumb])]
    if grip == "neutral":
        if "dumbbell" in drawn:
            return [
                limb((x, y + 0.05), (x, y + 0.12), THUMB, THUMB, "body"),
                disc(place, 0.02, "hub"),
            ]
        fist = limb((x - 0.02, y), (x + 0.02, y), PALM, PALM)
        return [joined("body", [fist, limb((x, y + 0.02), (x, y + 0.085), THUMB, THUMB)])]
    palm = limb((x, y - 0.035), (x, y + 0.035), PALM, PALM)
    if grip is None:
        return [joined("body", [palm])]
    point = inward if grip == "overhand" else -inward  # a palm that turns is drawn turned up
    thumb = limb((x + point * 0.03, y - 0.03), (x + point * 0.1, y - 0.05), THUMB, THUMB)
    marks = (
        [disc((x + n * 0.026, y + 0.045), 0.01, "hub") for n in (-1, 0, 1)]  # knuckles
        if grip == "overhand"
        else [  # fingers around the bar
            line([(x + n * 0.026, y - 0.02), (x + n * 0.026, y + 0.065)], "floor")
            for n in (-1, 0, 1)
        ]
    )
    return [joined("body", [palm, thumb]), *marks]
