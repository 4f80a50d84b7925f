"""What a figure stresses: the segment that works, and the way that the load takes."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist

from ...catalog.entries import Load
from ..posture.frame import Frame, Point
from .forces import load_point

#: Segment -> the joints beside it, the more telling one first. The order breaks ties.
BESIDE = {
    "thigh": ("hip", "knee"),
    "shank": ("knee", "ankle"),
    "trunk": ("hip", "spine"),
    "foot": ("ankle",),
    "upper_arm": ("shoulder", "elbow", "scapular-elevation", "scapular-protraction"),
    "forearm": ("elbow", "wrist", "forearm-rotation"),
}
#: The trunk bends: what turns most of it counts.
TRUNK = ("trunk", "lower_trunk", "upper_trunk")
#: Turns that differ by less, degrees, count as one turn: what is carried along does not work.
ALIKE = 10.0
#: Points whose way is shown when nothing but the body is moved.
CARRIED_ALONG = ("mid_shoulder", "mid_hip", "ankle")

#: Hands that travel further than ``REACHES`` beside a trunk that travels less than ``STAYS`` are what moves, metres.
STAYS, REACHES = 0.15, 0.3
#: Where the points that are carried along travel less than this, whatever travels furthest is shown, metres.
HARDLY = 0.03


def working_segment(frames: Sequence[Frame]) -> str:
    """The segment that turns most in space; among those that turn alike, the one at the joint that bends most."""
    shown = [segment for segment in BESIDE if segment in frames[0].segments]
    if all(_bend(frames, joint) < ALIKE for joint in frames[0].angles):
        return "trunk"  # a hold
    turns = {
        segment: _turn([frame.segments[segment].angle for frame in frames]) for segment in shown
    }
    turns["trunk"] = max(
        _turn([frame.segments[part].angle for frame in frames])
        for part in TRUNK
        if part in frames[0].segments
    )
    most = max(turns.values())
    return max(
        (s for s in shown if turns[s] > most - ALIKE),
        key=lambda s: max(_bend(frames, joint) for joint in BESIDE[s]),
    )


def load_path(load: Load, frames: Sequence[Frame]) -> list[Point]:
    """Where the load point is in each frame, metres; without a load point, the part of the body that travels furthest."""
    if load.at:
        return [load_point(frame, load.at) for frame in frames]
    first, last = frames[0].joints, frames[-1].joints
    still = all(dist(first[joint], last[joint]) < STAYS for joint in ("mid_hip", "mid_shoulder"))
    if still and dist(first["hand"], last["hand"]) > REACHES:
        return [frame.joints["hand"] for frame in frames]
    travel = {joint: dist(first[joint], last[joint]) for joint in first}
    furthest = max((joint for joint in CARRIED_ALONG if joint in first), key=travel.__getitem__)
    if travel[furthest] < HARDLY:
        furthest = max(travel, key=travel.__getitem__)
    return [frame.joints[furthest] for frame in frames]


def _turn(angles: Sequence[float]) -> float:
    """Degrees between the furthest directions, taken the short way from frame to frame."""
    reached = [0.0]
    for before, after in zip(angles, angles[1:], strict=False):
        reached.append(reached[-1] + (after - before + 180) % 360 - 180)
    return max(reached) - min(reached)


def _bend(frames: Sequence[Frame], joint: str) -> float:
    joint = frames[0].view.stands_for.get(joint, joint)
    angles = [frame.angles.get(joint, 0.0) for frame in frames]
    return max(angles) - min(angles)
