"""Whether a repetition begins by lowering: such a lift has a top and a bottom rather than a start and a finish."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist

from ...catalog.entries import Movement, Position
from ..posture.frame import Frame
from .forces import load_point
from .moments import anchor_in

#: A weight that sinks by more (metres) is lowered, and so is a body whose hips or shoulders do. Our convention.
WEIGHT_SINKS, BODY_SINKS = 0.1, 0.12
#: Knees that bend by more (degrees) under a sled let it come nearer.
KNEES_GIVE = 30.0
#: Where a sled meets the body.
SLED = ("foot", "shoulders")


def is_lowering(movement: Movement, position: Position, frames: Sequence[Frame]) -> bool:
    """Whether the load wins height or way from the first posture to the last: a squat, a press from straight arms, a lunge."""
    first, last, load = frames[0], frames[-1], movement.load
    if movement.hold:
        return False
    if load.kind == "machine":
        bent = last.angles.get("knee", 0.0) - first.angles.get("knee", 0.0)
        lies = "back" in position.rests_on and load.at == "hand"
        return load.at in SLED and bent > KNEES_GIVE or lies and _sinks(first, last, "hand")
    if not first.view.knows_floor(position, first.gravity):
        return False
    if load.kind == "free-weight" and load.at:
        return _sinks(first, last, load.at)
    sinks = any(
        first.joints[joint][1] - last.joints[joint][1] > BODY_SINKS
        for joint in ("mid_shoulder", "mid_hip")
    )
    if load.kind == "body-weight" or not load.at:
        return sinks
    before, after = anchor_in(first, load), anchor_in(last, load)
    return (
        sinks
        and before is not None
        and after is not None
        and dist(load_point(first, load.at), before) > dist(load_point(last, load.at), after)
    )


def _sinks(first: Frame, last: Frame, at: str) -> bool:
    """Whether a weight is lowered."""
    return load_point(first, at)[1] - load_point(last, at)[1] > WEIGHT_SINKS
