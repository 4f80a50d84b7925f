"""A posture in words, from joint angles (degrees, 0 = straight, flexion positive)."""

from __future__ import annotations

from typing import NamedTuple

from ...catalog.entries import Joint, Movement, Vocabulary
from ..load.lowering import is_lowering
from .facing import shown_key_frames
from .frame import OTHER, Frame
from .pose import key_frames

#: Angles that were worked out, not written by the author, are told to the nearest of these many degrees.
COARSE = 5


class KeyPosture(NamedTuple):
    """One key frame: what it is called, and its words."""

    label: str
    words: str


def key_postures(movement: Movement, vocabulary: Vocabulary) -> list[KeyPosture]:
    """Every key frame in words, each with all joints that the author placed: those that move and those that matter; a hold once."""
    told = key_frames(movement, vocabulary)
    if movement.hold:
        told = told[:1]
    named = list(
        dict.fromkeys(
            joint for angles in (movement.start, *movement.via, movement.end) for joint in angles
        )
    )
    return [
        KeyPosture(label, _frame(frame, named, vocabulary))
        for label, frame in zip(labels(movement, vocabulary), told, strict=True)
    ]


def labels(movement: Movement, vocabulary: Vocabulary) -> list[str]:
    """What each key frame is called: a lift that begins by lowering has a top and a bottom, a held posture one name."""
    if movement.hold:
        return ["Hold"]
    shown = shown_key_frames(movement, vocabulary)
    lowers = is_lowering(movement, vocabulary.positions[movement.position], shown)
    between = (
        ["Midway"] if len(shown) == 3 else [f"On the way, {n}" for n in range(1, len(shown) - 1)]
    )
    return ["Top", *between, "Bottom"] if lowers else ["Start", *between, "Finish"]


def placed(movement: Movement, vocabulary: Vocabulary) -> str:
    """The position, and from where it is seen unless from the side."""
    return ", ".join(
        filter(None, (vocabulary.positions[movement.position].name, seen(movement, vocabulary)))
    )


def seen(movement: Movement, vocabulary: Vocabulary) -> str:
    """``seen from above``; empty for the side view."""
    first = shown_key_frames(movement, vocabulary)[0]
    return first.view.words(vocabulary.positions[movement.position], first.gravity)


def words(angles: dict[str, float], vocabulary: Vocabulary) -> str:
    """``hips bent 90°, knees straight``."""
    return ", ".join(_joint(vocabulary.joints[id], angle) for id, angle in angles.items())


def _frame(frame: Frame, named: list[str], vocabulary: Vocabulary) -> str:
    told = words({joint: round(frame.angles[joint]) for joint in named}, vocabulary)
    for limb, joints in frame.view.second_limbs(named).items():
        other: dict[str, float] = {
            joint: COARSE * round(frame.angles[OTHER + joint] / COARSE)
            for joint in joints
            if OTHER + joint in frame.angles and joint in vocabulary.joints
        }
        if other:
            told += f"; {limb}: {words(other, vocabulary)}"
    return told


def _joint(joint: Joint, angle: float) -> str:
    if angle == 0:
        return joint.straight
    way = joint.flexed if angle > 0 else joint.extended or f"{joint.name.lower()} past straight"
    return f"{way} {abs(angle):g}°"
