"""Rounded shapes in metres as SVG paths: y up in the body, down on the page, whole drawing units."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import acos, atan2, cos, dist, hypot, pi, sin

Point = tuple[float, float]

#: Drawing units in a metre.
SCALE = 200
#: Thickness of a pad or seat, and width of an upright, metres; only the look depends on them.
SLAB, UPRIGHT = 0.06, 0.03


@dataclass(frozen=True)
class Shape:
    """One path, how it is styled, and the corners of the room it takes (metres)."""

    style: str
    d: str
    room: tuple[Point, ...]


def joined(style: str, shapes: Iterable[Shape]) -> Shape:
    """Several shapes as one path, painted as one."""
    shapes = list(shapes)
    return Shape(
        style,
        "".join(shape.d for shape in shapes),
        tuple(point for shape in shapes for point in shape.room),
    )


def disc(centre: Point, radius: float, style: str = "") -> Shape:
    """A circle."""
    (x, y), r = _at(centre), _units(radius)
    return Shape(
        style,
        f"{_move(x - r, y)}a{r} {r} 0 1 1{_pair(2 * r, 0)}a{r} {r} 0 1 1{_pair(-2 * r, 0)}Z",
        _around(centre, radius),
    )


def limb(start: Point, end: Point, wide: float, narrow: float, style: str = "") -> Shape:
    """A round-ended taper: a circle of radius ``wide`` at the start, of ``narrow`` at the end, and what lies between."""
    apart = hypot(end[0] - start[0], end[1] - start[1])
    if apart <= abs(wide - narrow):
        return disc(start if wide > narrow else end, max(wide, narrow), style)
    way, lean = (
        atan2(start[1] - end[1], end[0] - start[0]),
        acos((wide - narrow) / apart),
    )  # angles as on the page, y down
    a, b, c, d = (
        _at((p[0] + r * cos(way + turn), p[1] - r * sin(way + turn)))
        for p, r, turn in (
            (start, wide, lean),
            (start, wide, -lean),
            (end, narrow, -lean),
            (end, narrow, lean),
        )
    )
    r, s = _units(wide), _units(narrow)
    return Shape(
        style,
        f"{_move(*a)}a{r} {r} 0 {int(lean < pi / 2)} 1{_step(a, b)}l{_step(b, c).lstrip()}"
        f"a{s} {s} 0 {int(lean > pi / 2)} 1{_step(c, d)}Z",
        _around(start, wide) + _around(end, narrow),
    )


def line(points: Sequence[Point], style: str) -> Shape:
    """A line through all points."""
    places = [_at(point) for point in points]
    steps = "".join(_step(a, b) for a, b in zip(places, places[1:], strict=False))
    return Shape(style, f"{_move(*places[0])}l{steps.lstrip()}", tuple(points))


def block(left: float, right: float, bottom: float, top: float, style: str) -> Shape:
    """An upright box."""
    (x, y), (w, h) = _at((left, top)), (_units(right - left), _units(top - bottom))
    return Shape(style, f"{_move(x, y)}h{w}v{h}h{-w}Z", ((left, bottom), (right, top)))


def bench(left: float, right: float, top: float) -> list[Shape]:
    """A flat pad on two uprights."""
    inset = min(0.08, (right - left) / 4)
    legs = [
        block(x - UPRIGHT / 2, x + UPRIGHT / 2, 0, top - SLAB, "kit")
        for x in (left + inset, right - inset)
    ]
    return [*legs, block(left, right, top - SLAB, top, "kit")]


def post(x: float, top: float) -> list[Shape]:
    """An upright from the floor."""
    return [block(x - UPRIGHT / 2, x + UPRIGHT / 2, 0, top, "kit")]


def area(corners: Sequence[Point], style: str = "") -> Shape:
    """A filled polygon that runs the same way round as the other shapes, so that they unite where they overlap."""
    doubled = sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    )
    turned = line(list(corners) if doubled < 0 else list(reversed(corners)), style)
    return Shape(style, turned.d + "Z", turned.room)


def view_box(shapes: Iterable[Shape], edge: float, least: float = 0.0) -> tuple[int, int, int, int]:
    """Left, top, width and height of the room that the shapes take with an ``edge`` (metres) around it, drawing units.

    ``least``: the width that it has at least, metres, so that small things are not drawn larger than life.
    """
    points = [point for shape in shapes for point in shape.room]
    low, high = min(x for x, _ in points) - edge, max(x for x, _ in points) + edge
    more = max(0.0, least - (high - low)) / 2
    left, top = _at((low - more, max(y for _, y in points) + edge))
    right, bottom = _at((high + more, min(y for _, y in points) - edge))
    return left, top, right - left, bottom - top


def gap(point: Point, start: Point, end: Point) -> float:
    """Distance from a point to a straight piece, metres."""
    u, v = end[0] - start[0], end[1] - start[1]
    square = u * u + v * v or 1.0
    share = max(0.0, min(1.0, ((point[0] - start[0]) * u + (point[1] - start[1]) * v) / square))
    return dist(point, (start[0] + share * u, start[1] + share * v))


def _units(metres: float) -> int:
    return round(metres * SCALE)


def _at(point: Point) -> tuple[int, int]:
    return _units(point[0]), -_units(point[1])


def _move(x: int, y: int) -> str:
    return "M" + _pair(x, y).lstrip()


def _step(start: tuple[int, int], end: tuple[int, int]) -> str:
    return _pair(end[0] - start[0], end[1] - start[1])


def _pair(x: int, y: int) -> str:
    """Two numbers that may follow another number: a minus sign also separates."""
    return "".join(f"{value}" if value < 0 else f" {value}" for value in (x, y))


def _around(centre: Point, radius: float) -> tuple[Point, ...]:
    return (centre[0] - radius, centre[1] - radius), (centre[0] + radius, centre[1] + radius)
