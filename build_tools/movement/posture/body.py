"""Segment lengths, masses and centres of mass of a body.

Masses and centres of mass: de Leva P (1996), J Biomech 29:1223-1230, table 4, men
and women (doi 10.1016/0021-9290(95)00178-6; read in a software manual and a teaching
repository that agree, not in the paper). They hold for young adults.

Lengths: Drillis and Contini (1966) as drawn in Winter DA (2009), Biomechanics and
Motor Control of Human Movement, 4th edition, figure 4.1 (read as quoted in open
repositories, not in the book).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

#: Lengths as fractions of stature. Thigh, shank and trunk are differences of the heights of the joints.
LENGTH = {
    "upper_arm": 0.186,
    "forearm": 0.146,
    "thigh": 0.530 - 0.285,
    "shank": 0.285 - 0.039,
    "trunk": 0.818 - 0.530,
    "head": 1 - 0.818,
    "foot": 0.152,
    "ankle_height": 0.039,
    "shoulder_width": 0.259,
    "hip_width": 0.191,
}
#: Wrist to the middle of a grip, a fraction of stature: 7 cm in the reference body. Our convention.
GRIP = 0.04
#: Distance between the centres of the hip joints, a fraction of stature; the width over the hips is twice as much. From memory.
HIPS_APART = 0.1
#: Share of the foot behind the ankle joint. From memory; no table was seen.
HEEL = 0.25

#: Mass of one segment as a fraction of body mass.
MASS_MEN = {
    "head": 0.0694,
    "trunk": 0.4346,
    "upper_arm": 0.0271,
    "forearm": 0.0162,
    "hand": 0.0061,
    "thigh": 0.1416,
    "shank": 0.0433,
    "foot": 0.0137,
}
#: Centre of mass from the segment's start (see ``pose.SEGMENTS``) as a fraction of its length. The trunk starts at the hips:
#: 1 - 0.431, the table's share from the shoulders. Head: 0.5976 of the table's head below the crown (0.1168 of stature long).
#: The hand's lies within millimetres of the grip. Foot: from the heel.
_SHARED = {
    "trunk": 1 - 0.431,
    "head": 1 - 0.5976 * 0.1168 / LENGTH["head"],
    "hand": 1.0,
    "foot": 0.4415,
}
CENTRE_MEN = {"upper_arm": 0.5772, "forearm": 0.4574, "thigh": 0.4095, "shank": 0.4395, **_SHARED}


@dataclass(frozen=True, eq=False)
class Body:
    """A person: stature in metres, mass in kilograms, and the table that shares the mass out. Equal is only the same one."""

    stature: float = 1.75
    mass: float = 75.0
    mass_fractions: dict[str, float] = field(default_factory=lambda: MASS_MEN)
    centres: dict[str, float] = field(default_factory=lambda: CENTRE_MEN)

    def length(self, segment: str) -> float:
        """Length of a segment, metres; ``hand`` reaches from the wrist to the middle of the grip."""
        return self._lengths[segment]

    @cached_property
    def _lengths(self) -> dict[str, float]:
        return {name: self.stature * share for name, share in {**LENGTH, "hand": GRIP}.items()}

    def mass_of(self, segment: str) -> float:
        """Mass of one segment, kilograms."""
        return self.mass * self.mass_fractions[segment]


#: The body that every figure and number is drawn for: about an average adult.
REFERENCE = Body()
