"""The postures of a repetition, from the angles in an exercise's ``movement``."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...catalog.entries import Movement, Position, Vocabulary
from .above import ABOVE, place_above
from .body import REFERENCE, Body
from .chain import WHERE_NAMED
from .frame import Frame
from .front import FRONT, place_front
from .side import SIDE, place_side
from .view import View

Angles = dict[str, float]

#: How the catalog writes a view -> the view.
VIEWS: Mapping[str, View] = {view.name: view for view in (SIDE, FRONT, ABOVE)}
#: How a body is placed in each. Of angles they take every joint of the view, and those of the second limb that are its own.
PLACE = {SIDE: place_side, FRONT: place_front, ABOVE: place_above}


def view_of(movement: Movement) -> View:
    """The view that a movement is drawn in."""
    return VIEWS[movement.view]


def frames(
    movement: Movement, vocabulary: Vocabulary, body: Body = REFERENCE, steps: int = 21
) -> tuple[Frame, ...]:
    """``steps`` postures (2 or more) evenly spaced in time, both ends included. Angles run linearly between key frames.

    Raises ``KeyError`` for a position or load point that the vocabulary does not hold.
    """
    return _at(movement, vocabulary, body, [step / (steps - 1) for step in range(steps)])


def key_frames(
    movement: Movement, vocabulary: Vocabulary, body: Body = REFERENCE
) -> tuple[Frame, ...]:
    """The postures that the author wrote down: start, those on the way, end."""
    count = len(movement.via) + 2
    return _at(movement, vocabulary, body, [index / (count - 1) for index in range(count)])


def key_angles(movement: Movement, vocabulary: Vocabulary) -> list[Angles]:
    """Angles of each key frame with defaults filled in: movement before load point before position before 0."""
    held = vocabulary.load_points[movement.load.at].angles if movement.load.at else {}
    known = dict.fromkeys((joint for joint in joints(movement) if joint not in WHERE_NAMED), 0.0)
    default = view_of(movement).default_angles(
        known, vocabulary.positions[movement.position].angles, held
    )
    return [{**default, **named} for named in (movement.start, *movement.via, movement.end)]


def joints(movement: Movement) -> tuple[str, ...]:
    """Joints that the movement's view can show."""
    return view_of(movement).joints


def _at(
    movement: Movement, vocabulary: Vocabulary, body: Body, times: Sequence[float]
) -> tuple[Frame, ...]:
    keys, position = key_angles(movement, vocabulary), vocabulary.positions[movement.position]
    holds = bool(movement.load.at and vocabulary.load_points[movement.load.at].angles)
    place = PLACE[view_of(movement)]
    return tuple(
        place(
            movement,
            position,
            between(keys, time),
            _second(movement, position, time),
            body,
            time,
            holds,
        )
        for time in times
    )


def _second(movement: Movement, position: Position, time: float) -> Angles:
    """Angles of the second limb that are its own."""
    second = movement.other
    if second is None:
        return position.other
    return (
        between([second.start, second.end], time)
        if second.start is not None and second.end is not None
        else {}
    )


def between(keys: Sequence[Angles], time: float) -> Angles:
    """Linear interpolation over key frames evenly spaced in time; a joint that a key frame leaves out is 0 there."""
    place = time * (len(keys) - 1)
    index = min(int(place), len(keys) - 2)
    share = place - index
    first, second = keys[index], keys[index + 1]
    if first.keys() == second.keys():
        return {joint: (1 - share) * at + share * second[joint] for joint, at in first.items()}
    return {
        joint: (1 - share) * first.get(joint, 0.0) + share * second.get(joint, 0.0)
        for joint in {**first, **second}
    }
