"""One posture: where the joints are, how the segments point, and the joint angles behind it."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin
from typing import NamedTuple

from .view import View

Point = tuple[float, float]

#: Segment -> the joints it runs between. The trunk is drawn in two halves so that the spine can bend; ``trunk`` is their chord.
SEGMENTS = {
    "trunk": ("mid_hip", "mid_shoulder"),
    "lower_trunk": ("mid_hip", "mid_back"),
    "upper_trunk": ("mid_back", "mid_shoulder"),
    "head": ("mid_shoulder", "head"),
    "upper_arm": ("shoulder", "elbow"),
    "forearm": ("elbow", "wrist"),
    "hand": ("wrist", "hand"),
    "thigh": ("hip", "knee"),
    "shank": ("knee", "ankle"),
    "foot": ("heel", "toe"),
}
#: What is counted twice in a body, and stands once more with this prefix when the second limb does something else.
OTHER = "other_"
LEG = ("hip", "knee", "ankle", "heel", "toe")
ARM = ("shoulder", "elbow", "wrist", "hand")


class Segment(NamedTuple):
    """A straight piece of the body, start nearer to the trunk (foot: heel). ``angle`` is in space, degrees (see the package)."""

    start: Point
    end: Point
    angle: float


@dataclass(frozen=True)
class Frame:
    """A posture at ``time`` (0 start, 1 end of the repetition).

    ``joints``: name -> metres: ``ankle knee hip shoulder elbow wrist hand head toe heel``, and ``mid_hip mid_back
    mid_shoulder`` (in the side view the same points as hip and shoulder). ``segments``: the names of ``SEGMENTS``.
    A second limb that differs stands under the same names with ``other_`` before; otherwise it hides behind the first.
    ``angles``: clinical joint angles as placed, defaults filled in, with ``other_`` likewise. ``gravity``: the share of a
    weight (0-1) that acts in the drawn plane, downwards. ``turn``: how far a body seen from the head is turned on the page,
    degrees anticlockwise; at 0 it faces up the page.
    """

    time: float
    view: View
    joints: dict[str, Point]
    segments: dict[str, Segment]
    angles: dict[str, float]
    gravity: float = 1.0
    turn: float = 0.0

    @property
    def sides(self) -> tuple[str, ...]:
        """Prefixes of the limbs that are seen in front."""
        return ("", OTHER) if self.view.apart else ("",)

    @property
    def has_other_leg(self) -> bool:
        """Whether the second leg is placed on its own."""
        return OTHER + "knee" in self.joints


def along(start: Point, angle: float, length: float) -> Point:
    """The far end of a limb segment that points ``angle`` from straight down."""
    turn = radians(angle)
    return start[0] + length * sin(turn), start[1] - length * cos(turn)


def up(start: Point, angle: float, length: float) -> Point:
    """The far end of a piece of trunk that leans ``angle`` from upright."""
    turn = radians(angle)
    return start[0] + length * sin(turn), start[1] + length * cos(turn)


def turned(start: Point, angle: float, offset: Point) -> Point:
    """``start`` plus ``offset`` turned anticlockwise by ``angle``: how heel and toe hang on the ankle."""
    turn = radians(angle)
    c, s = cos(turn), sin(turn)
    return start[0] + offset[0] * c - offset[1] * s, start[1] + offset[0] * s + offset[1] * c
