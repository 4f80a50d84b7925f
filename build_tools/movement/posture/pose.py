"""The postures of a repetition, from the angles in an exercise's ``movement``."""

from __future__ import annotations

from collections.abc import Sequence

from ...catalog.entries import Movement, Position, Vocabulary
from .above import above_frame
from .body import REFERENCE, Body
from .frame import Frame
from .front import front_frame
from .side import side_frame

Angles = dict[str, float]

#: Joints that a figure knows; each is 0 unless the movement, its load point or its position says otherwise.
JOINTS = {
    "side": ("hip", "knee", "ankle", "spine", "shoulder", "elbow", "wrist", "scapular-elevation", "scapular-protraction",
             "shoulder-rotation"),
    "front": ("hip-abduction", "shoulder-abduction", "elbow", "scapular-elevation", "spine-side-bend", "shoulder-rotation",
              "forearm-rotation", "hip", "knee"),
    "above": ("shoulder-horizontal", "elbow", "shoulder-rotation", "spine-rotation", "hip-abduction", "scapular-protraction", "hip"),
}
#: Joints that change how an arm is seen, and so have no angle unless they are named.
WHERE_NAMED = {"shoulder-rotation", "shoulder-horizontal", "forearm-rotation"}


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
    known = dict.fromkeys((joint for joint in joints(movement) if joint not in WHERE_NAMED), 0.0)
    default = {**known, **vocabulary.positions[movement.position].angles, **held}
    if movement.view != "side":  # how arms rest or hold is told for the side view
        default = {**default, **known}
        default |= {joint: at for joint, at in vocabulary.positions[movement.position].angles.items() if joint in ("hip", "knee")}
    return [{**default, **named} for named in (movement.start, *movement.via, movement.end)]


def joints(movement: Movement) -> tuple[str, ...]:
    """Joints that the movement's view can show."""
    return JOINTS[movement.view]


def _at(movement: Movement, vocabulary: Vocabulary, body: Body, time: float) -> Frame:
    angles = _between(key_angles(movement, vocabulary), time)
    position = vocabulary.positions[movement.position]
    second = _second(movement, position, time)
    if movement.view == "front":
        if "forearm-rotation" in angles:  # seen from the front, a forearm that turns about itself points at the viewer
            angles = {"shoulder-rotation": 0.0, **angles}
        return front_frame(movement, position, angles, {**angles, **second}, body, time)
    if movement.view == "above":
        mirrored = {joint: angle for joint, angle in angles.items() if joint not in WHERE_NAMED or not WHERE_NAMED & second.keys()}
        return above_frame(movement, position, angles, {**mirrored, **second}, body, time)
    other = {**angles, "hip": 0.0, "knee": 0.0, "ankle": 0.0, **second} if second else None
    holds = bool(movement.load.at and vocabulary.load_points[movement.load.at].angles)
    return side_frame(movement, position, angles, other, body, time, holds)


def _second(movement: Movement, position: Position, time: float) -> Angles:
    """Angles of the second limb that are its own."""
    second = movement.other
    if second is None:
        return position.other
    return _between([second.start, second.end], time) if second.start is not None and second.end is not None else {}


def _between(keys: Sequence[Angles], time: float) -> Angles:
    """Linear interpolation over key frames evenly spaced in time; a joint that a key frame leaves out is 0 there."""
    place = time * (len(keys) - 1)
    index = min(int(place), len(keys) - 2)
    share = place - index
    first, second = keys[index], keys[index + 1]
    return {joint: (1 - share) * first.get(joint, 0.0) + share * second.get(joint, 0.0) for joint in {**first, **second}}
