"""Forces in the plane, their moment about a point, and what two supports carry. Quasi-static: nothing accelerates.

Points are (x, y) in metres, y up; forces are in newtons; moments are in newton metres, anticlockwise positive.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import hypot
from typing import NamedTuple

Point = tuple[float, float]

#: Standard acceleration of free fall, m/s², rounded as in most textbooks (the standard value is 9.80665).
GRAVITY = 9.81

#: A band without a stated slack length is taken to be stretched to 1/0.8 of it where it is shortest: a light pull from the start.
#: An assumption, shown wherever a band's curve is shown.
SLACK_SHARE = 0.8


class Force(NamedTuple):
    """A force that acts at a point."""

    at: Point
    x: float
    y: float


def between(start: Point, end: Point, share: float) -> Point:
    """The point that lies ``share`` of the way from start to end."""
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def weight(mass: float, at: Point) -> Force:
    """What gravity does to ``mass`` kilograms at a point."""
    return Force(at, 0.0, -mass * GRAVITY)


def pull(at: Point, towards: Point, tension: float) -> Force:
    """A line in tension: the force runs from the body towards the pulley or the anchor. Raises ValueError where they coincide."""
    x, y = towards[0] - at[0], towards[1] - at[1]
    length = hypot(x, y)
    if length == 0:
        raise ValueError(
            "the pulley or anchor lies on the point that it pulls: move it away from the body"
        )
    return Force(at, tension * x / length, tension * y / length)


def band_tension(length: float, slack: float, stiffness: float = 1.0) -> float:
    """Newtons in an elastic band: zero up to its slack length, then growing in proportion to the stretch.

    Lengths in metres, stiffness in newtons per metre of stretch. Tension of elastic tubing was predicted by straight lines on
    the percentage of stretch by Hughes et al., J Orthop Sports Phys Ther 1999;29(7):413-420 (abstract). Fatigue and the steeper
    first part of a real band are left out.
    """
    return stiffness * max(0.0, length - slack)


def moment(about: Point, forces: Iterable[Force]) -> float:
    """Moment of the forces about a point, N·m, anticlockwise positive."""
    return sum((f.at[0] - about[0]) * f.y - (f.at[1] - about[1]) * f.x for f in forces)


def reactions(first: Point, second: Point, forces: Iterable[Force]) -> tuple[Force, Force]:
    """The upward forces of two supports that hold the body still under the given forces.

    Horizontal parts cannot be told apart by statics alone and are taken as zero. Raises ValueError where the supports stand
    one above the other or where the forces have a horizontal resultant.
    """
    forces = list(forces)
    sideways, down = sum(f.x for f in forces), -sum(f.y for f in forces)
    if abs(sideways) > 1e-9 * max(1.0, abs(down)):
        raise ValueError(
            "a sideways pull on a body with two supports: statics cannot say which support takes it"
        )
    if abs(second[0] - first[0]) < 1e-9:
        raise ValueError(
            "the two supports stand one above the other, so their shares cannot be told apart"
        )
    share = -moment(first, forces) / (second[0] - first[0])
    return Force(first, 0.0, down - share), Force(second, 0.0, share)
