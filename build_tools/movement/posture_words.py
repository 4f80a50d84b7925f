"""A posture in words, from joint angles (degrees, 0 = straight, flexion positive)."""

from __future__ import annotations

from typing import NamedTuple

from ..catalog.entries import Joint, Movement, Vocabulary
from .frame import OTHER, Frame
from .pose import key_frames

#: Angles that were worked out, not written by the author, are told to the nearest of these many degrees.
COARSE = 5


class KeyPosture(NamedTuple):
    """One key frame: what it is called, and its words."""

    label: str
    words: str


def key_postures(movement: Movement, vocabulary: Vocabulary) -> list[KeyPosture]:
    """Every key frame in words, each with all joints that the author placed: those that move and those that matter."""
    shown = key_frames(movement, vocabulary)
    named = list(dict.fromkeys(joint for angles in (movement.start, *movement.via, movement.end) for joint in angles))
    labels = ["Start", *(["Midway"] if len(shown) == 3 else [f"On the way, {n}" for n in range(1, len(shown) - 1)]), "Finish"]
    return [KeyPosture(label, _frame(frame, named, vocabulary)) for label, frame in zip(labels, shown, strict=True)]


def alternative(movement: Movement, vocabulary: Vocabulary) -> str:
    """Stands in for the drawing: ``Seated. Start: hips bent 90°, knees straight. Finish: ...``."""
    told = " ".join(f"{posture.label}: {posture.words}." for posture in key_postures(movement, vocabulary))
    return f"{vocabulary.positions[movement.position].name}. {told}"


def words(angles: dict[str, float], vocabulary: Vocabulary) -> str:
    """``hips bent 90°, knees straight``."""
    return ", ".join(_joint(vocabulary.joints[id], angle) for id, angle in angles.items())


def _frame(frame: Frame, named: list[str], vocabulary: Vocabulary) -> str:
    told = words({joint: round(frame.angles[joint]) for joint in named}, vocabulary)
    if frame.view == "front" or not frame.has_other_leg:
        return told
    other = {joint: COARSE * round(frame.angles[OTHER + joint] / COARSE) for joint in ("hip", "knee")}
    return f"{told}; other leg: {words({j: angle for j, angle in other.items() if j in vocabulary.joints}, vocabulary)}"


def _joint(joint: Joint, angle: float) -> str:
    if angle == 0:
        return joint.straight
    way = joint.flexed if angle > 0 else joint.extended or f"{joint.name.lower()} past straight"
    return f"{way} {abs(angle):g}°"
