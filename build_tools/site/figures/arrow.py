"""The arrow of a posture figure: the way of the load, moved aside until it stands clear of the body."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist, inf

from ...movement.posture.frame import OTHER, Frame, Point
from .shapes import Shape, area, gap, line

#: Metres: half width and length of the head, the shortest way that gets an arrow, and the air around the arrow.
HEAD_HALF, HEAD_LONG, SHORTEST, AIR = 0.045, 0.09, 0.03, 0.07
#: How far the arrow may be moved aside or ahead, metres.
MOVES = tuple(step / 20 for step in range(1, 13))
#: Half the thickness of what stands beside the body, metres.
HALF_KIT = 0.0
#: How far aside, metres, where it is moved back to come from outside.
BESIDE = (0.15, -0.15)
#: Half the thickness of what it must not cross, metres.
THICK = {
    "trunk": 0.1,
    "head": 0.1,
    "thigh": 0.08,
    "shank": 0.05,
    "foot": 0.04,
    "upper_arm": 0.05,
    "forearm": 0.04,
    "hand": 0.04,
}


def arrow(
    path: Sequence[Point], frames: Sequence[Frame], load: float, kit: Sequence[Shape] = ()
) -> list[Shape]:
    """Line and head along ``path``, to be drawn into the first frame; nothing where the load hardly moves.

    ``load`` is the radius of what is drawn at the beginning of the path, metres; ``kit`` what stands there, which the arrow keeps
    off where it can.
    """
    if dist(path[0], path[-1]) < SHORTEST:
        return []
    u, v = _unit(path[0], path[-1])
    # Outward first: on the side of the path that turns away from what it turns about.
    middle = path[len(path) // 2]
    bulge = (middle[0] - path[0][0]) * -v + (middle[1] - path[0][1]) * u
    about = [
        frames[0].joints[joint]
        for joint in ("mid_hip", "mid_shoulder", "knee")
        if joint in frames[0].joints
    ]
    centre = [sum(point[axis] for point in about) / len(about) for axis in (0, 1)]
    outward = (
        bulge
        if abs(bulge) > SHORTEST
        else (middle[0] - centre[0]) * -v + (middle[1] - centre[1]) * u
    )
    side = 1 if outward > 0 else -1
    moves = [
        move
        for far in MOVES
        for move in (
            (-side * far * v, side * far * u),
            (side * far * v, -side * far * u),
            (far * u, far * v),
        )
    ]
    moves += [(-back * u - aside * v, -back * v + aside * u) for back in MOVES for aside in BESIDE]
    ways = [[(x + dx, y + dy) for x, y in path] for dx, dy in moves]
    segments = frames[0].segments
    keep_off = [
        (segments[prefix + name].start, segments[prefix + name].end, half)
        for name, half in THICK.items()
        for prefix in ("", OTHER)
        if prefix + name in segments
    ]
    keep_off.append((path[0], path[0], load))
    stands = [
        (shape.room[0], shape.room[-1], HALF_KIT)
        for shape in kit
        if shape.style == "kit" and len(shape.room) > 1
    ]
    floor = 0.0 if frames[0].view.upright else -inf
    clear = None
    for way in ways:
        if _clear(way, keep_off, floor):
            if _clear(way, stands, floor):
                return _drawn(way)
            clear = clear or way
    return _drawn(clear or ways[0])


def _drawn(way: Sequence[Point]) -> list[Shape]:
    (x, y), (u, v) = way[-1], _unit(way[-3], way[-1])
    head = [
        _tip(way),
        (x - HEAD_HALF * v, y + HEAD_HALF * u),
        (x + HEAD_HALF * v, y - HEAD_HALF * u),
    ]
    return [line(way, "way"), area(head, "tip")]


def _tip(way: Sequence[Point]) -> Point:
    u, v = _unit(way[-3], way[-1])
    return way[-1][0] + HEAD_LONG * u, way[-1][1] + HEAD_LONG * v


def _clear(
    way: Sequence[Point], keep_off: Sequence[tuple[Point, Point, float]], floor: float
) -> bool:
    points = [*way, _tip(way)]
    return min(y for _, y in points) > floor and all(
        gap(point, start, end) > half + AIR for start, end, half in keep_off for point in points
    )


def _unit(start: Point, end: Point) -> Point:
    length = dist(start, end) or 1.0
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length
