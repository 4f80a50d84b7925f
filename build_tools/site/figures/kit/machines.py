"""What carries a machine's pads, plates and handles, so that none floats: rails, uprights and levers.

Only the look depends on it. A handle's lever turns about a point that is as far from where the hand begins as from where it
ends, so that the lever keeps its length.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import dist, hypot

from ....catalog.entries import Exercise, Position
from ....movement.load.forces import load_point
from ....movement.load.statics import between
from ....movement.posture.frame import OTHER, Frame
from ..limbs import unit
from ..shapes import Shape, block, limb, line, post

#: How far a handle's lever reaches, how far a rail goes on beyond what slides on it, and how far before someone an upright stands.
REACH, BEYOND, BEFORE = 0.9, 0.22, 0.42
#: How far a rail lies behind the back that slides on it, metres.
RAIL = 0.2
#: A bar that slides on rails.
GUIDED = "guided-bar"
#: Height of the lowest pivot, metres.
LOW = 0.12
#: Height of a knee machine's base, and half its width, metres.
BASE, BASE_WIDE = 0.1, 0.16


def frame_of(
    exercise: Exercise, position: Position, frame: Frame, frames: Sequence[Frame]
) -> list[Shape]:
    """What stands behind the body."""
    load = exercise.movement.load
    if load.kind != "machine" or load.at is None:
        return []
    if frame.view.apart:
        return _facing(frame, load.at) if frame.view.upright else []
    if GUIDED in exercise.equipment:
        return []  # its rails stand where the bar is carried
    if position.against == "sled":
        return _sled(frame, frames)
    if load.at == "foot":
        return _track(frames)
    if load.at == "hand":
        return _handle(frame, frames)
    if load.at in ("shoulders", "knee"):
        return _yoke(frame, load.at)
    return _hinge(frame) if load.at in ("chest", "upper-back") else []


def _sled(frame: Frame, frames: Sequence[Frame]) -> list[Shape]:
    """The slope that a back pad slides on, from under the foot plate to a post at its upper end."""
    trunk = frames[0].segments["trunk"]
    along = unit(trunk.start, trunk.end)
    behind = (-along[1] * RAIL, along[0] * RAIL)
    top = (
        trunk.end[0] + behind[0] + BEYOND * along[0],
        trunk.end[1] + behind[1] + BEYOND * along[1],
    )
    heel = frame.joints["heel"]
    # Down to the floor along the slope.
    down = top[1] / along[1]
    foot = (top[0] - down * along[0], 0.0)
    ankle = (heel[0] + 0.08, heel[1] - 0.03)
    return [
        limb(foot, top, 0.022, 0.022, "kit"),
        *post(top[0], top[1]),
        block(ankle[0] - 0.02, ankle[0] + 0.02, 0.0, ankle[1], "kit"),
    ]


def _track(frames: Sequence[Frame]) -> list[Shape]:
    """The rail that a foot plate slides on, on its post."""
    first, last = load_point(frames[0], "foot"), load_point(frames[-1], "foot")
    if dist(first, last) < 0.15:  # a plate that only tips: the rail follows the leg
        first, last = frames[0].joints["ankle"], frames[0].joints["knee"]
    way = unit(last, first)
    start = (first[0] + 0.05, first[1] - 0.09)
    end = (start[0] + BEYOND * 1.6 * way[0], start[1] + BEYOND * 1.6 * way[1])
    back = (start[0] - 0.5 * way[0], start[1] - 0.5 * way[1])
    return [limb(back, end, 0.02, 0.02, "kit"), *post(end[0], end[1])]


def _handle(frame: Frame, frames: Sequence[Frame]) -> list[Shape]:
    """The lever of a handle, its pivot and the upright that carries it: behind someone who pushes, before someone who pulls."""
    first, last = load_point(frames[0], "hand"), load_point(frames[-1], "hand")
    shoulder = frames[0].joints["shoulder"]
    pushes = dist(last, shoulder) > dist(first, shoulder)
    along = unit(first, last)
    square = (-along[1], along[0])
    if (square[0] > 0) == pushes:
        square = (-square[0], -square[1])
    half = dist(first, last) / 2
    far = max(0.3, REACH**2 - half**2) ** 0.5
    middle = between(first, last, 0.5)
    if middle[1] + far * square[1] < LOW:  # no pivot below the floor
        far = (LOW - middle[1]) / square[1]
    pivot = middle[0] + far * square[0], middle[1] + far * square[1]
    edge = frames[0].joints["mid_hip"][0] - 0.3
    stand = min(pivot[0], edge) if pushes else pivot[0]
    return [
        *post(stand, pivot[1] + 0.03),
        *([line([(stand, pivot[1]), pivot], "cord")] if stand != pivot[0] else []),
        line([pivot, load_point(frame, "hand")], "cord"),
    ]


def _yoke(frame: Frame, where: str) -> list[Shape]:
    """The arm of a pad on shoulders or knees, from an upright before the person."""
    x, y = load_point(frame, where)
    toe = frame.joints["toe"][0]
    stand = toe + BEFORE
    high = y + (0.05 if where == "shoulders" else 0.12)
    return [*post(stand, high + 0.05), limb((x, high), (stand, high), 0.016, 0.016, "kit")]


def _hinge(frame: Frame) -> list[Shape]:
    """The lever of a pad on the trunk, which turns about an axle beside the hip."""
    trunk = frame.segments["trunk"]
    length = hypot(trunk.end[0] - trunk.start[0], trunk.end[1] - trunk.start[1])
    along = unit(trunk.start, trunk.end)
    axle = (trunk.start[0] - 0.24, trunk.start[1] + 0.02)
    tip = (axle[0] + length * along[0], axle[1] + length * along[1])
    return [*post(axle[0], axle[1] + 0.03), limb(axle, tip, 0.014, 0.014, "kit")]


def _facing(frame: Frame, where: str) -> list[Shape]:
    """The arms of pads on the limbs of someone who faces the viewer."""
    if where == "elbow":
        return [
            line([frame.joints[side + "shoulder"], frame.joints[side + "elbow"]], "cord")
            for side in ("", OTHER)
        ]
    return _knees(frame) if where == "knee" else []


def _knees(frame: Frame) -> list[Shape]:
    """The arms of pads beside the knees of someone who faces the viewer."""
    arms = []
    for prefix in ("", OTHER):
        x, y = frame.joints[prefix + "knee"]
        arms.append(line([(x * 0.4, BASE), (x * 0.75, BASE + 0.1), (x, y - 0.12)], "cord"))
    return [block(-BASE_WIDE, BASE_WIDE, 0.0, BASE, "kit"), *arms]


def backrest(frame: Frame) -> list[Shape]:
    """The pad behind someone who sits in a machine and faces the viewer."""
    low, high = frame.joints["mid_hip"][1], frame.joints["mid_shoulder"][1]
    return [block(-0.2, 0.2, low - 0.05, high + 0.1, "kit")]
