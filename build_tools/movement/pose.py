"""The postures of a repetition, from the angles in an exercise's ``movement``."""

from __future__ import annotations

from collections.abc import Sequence

from ..catalog.entries import Movement, Vocabulary
from .body import REFERENCE, Body
from .frame import Frame
from .front import front_frame
from .side import side_frame

Angles = dict[str, float]

#: Joints that a figure knows; each is 0 unless the movement, its load point or its position says otherwise.
SIDE_JOINTS = ("hip", "knee", "ankle", "spine", "shoulder", "elbow")
FRONT_JOINTS = ("hip-abduction", "shoulder-abduction", "elbow")


def frames(movement: Movement, vocabulary: Vocabulary, body: Body = REFERENCE, steps: int = 21) -> tuple[Frame, ...]:
    """``steps`` postures (2 or more) evenly spaced in time, both ends included. Angles run linearly between key frames.

    Raises ``KeyError`` for a position or load point that the vocabulary does not hold.
    """
    return tuple(_at(movement, vocabulary, body, step / (steps - 1)) for step in range(steps))


def key_frames(movement: Movement, vocabulary: Vocabulary, body: Body = REFERENCE) -> tuple[Frame, ...]:
    """The postures that the author wrote down: start, those on the way, end."""
    count = len(movement.via) + 2
    return tuple(_at(movement, vocabulary, body, index / (count - 1)) for index in range(count))


def key_angles(movement: Movement, vocabulary: Vocabulary) -> list[Angles]:
    """Angles of each key frame with defaults filled in: movement before load point before position before 0."""
    held = vocabulary.load_points[movement.load.at].angles if movement.load.at else {}
    default = {**dict.fromkeys(joints(movement), 0.0), **vocabulary.positions[movement.position].angles, **held}
    return [{**default, **named} for named in (movement.start, *movement.via, movement.end)]


def joints(movement: Movement) -> tuple[str, ...]:
    """Joints that the movement's view can show."""
    return FRONT_JOINTS if movement.view == "front" else SIDE_JOINTS


def _at(movement: Movement, vocabulary: Vocabulary, body: Body, time: float) -> Frame:
    angles = _between(key_angles(movement, vocabulary), time)
    second = movement.other
    other = None
    if second is not None and second.start is not None and second.end is not None:
        other = {**angles, "hip": 0.0, "knee": 0.0, "ankle": 0.0, **_between([second.start, second.end], time)}
    position = vocabulary.positions[movement.position]
    if movement.view == "front":
        return front_frame(movement, position, angles, body, time)
    holds = bool(movement.load.at and vocabulary.load_points[movement.load.at].angles)
    return side_frame(movement, position, angles, other, body, time, holds)


def _between(keys: Sequence[Angles], time: float) -> Angles:
    """Linear interpolation over key frames evenly spaced in time; a joint that a key frame leaves out is 0 there."""
    place = time * (len(keys) - 1)
    index = min(int(place), len(keys) - 2)
    share = place - index
    first, second = keys[index], keys[index + 1]
    return {joint: (1 - share) * first.get(joint, 0.0) + share * second.get(joint, 0.0) for joint in {**first, **second}}
