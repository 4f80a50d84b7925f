"""A posture in words, from joint angles (degrees, 0 = straight, flexion positive)."""

from __future__ import annotations

from ..catalog.entries import Joint, Vocabulary


def words(angles: dict[str, float], vocabulary: Vocabulary) -> str:
    """``hips bent 90°, knees straight``."""
    return ", ".join(_joint(vocabulary.joints[id], angle) for id, angle in angles.items())


def _joint(joint: Joint, angle: float) -> str:
    if angle == 0:
        return joint.straight
    way = joint.flexed if angle > 0 else joint.extended or f"{joint.name.lower()} past straight"
    return f"{way} {abs(angle):g}°"
