"""One muscle's length over the joints it crosses: interpolation inside its box, and moment arms by finite differences."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import radians

from ...catalog.entries import ModelMuscle
from ...catalog.length_table import Grid


class OutOfRange(ValueError):
    """An angle lies outside the box; the message says which, in words for a page."""


@dataclass(frozen=True)
class MuscleGrid:
    """The column of one muscle, cut to its box."""

    muscle: ModelMuscle
    grid: Grid

    def length(self, angles: Mapping[str, float]) -> float:
        """Muscle-tendon length in mm, bilinear between the table's angles; joints not given are at 0 degrees.

        Joints that the muscle does not cross make no difference. Raises ``OutOfRange`` outside the box.
        """
        (low_a, high_a, u), (low_b, high_b, v) = (
            self._cell(n, angles.get(joint, 0.0)) for n, joint in enumerate(self.grid.joints)
        )
        at = self.grid.lengths[self.muscle.column]
        return (1 - u) * ((1 - v) * at[low_a, low_b] + v * at[low_a, high_b]) + u * (
            (1 - v) * at[high_a, low_b] + v * at[high_a, high_b]
        )

    @cached_property
    def extremes(self) -> tuple[float, float]:
        """Shortest and longest length (mm) over the box: the muscle's own range."""
        lengths = [self.length(angles) for angles in self.box_angles()]
        return min(lengths), max(lengths)

    def box_angles(self) -> Iterator[dict[str, float]]:
        """Every place of the table inside the box: joint -> degrees."""
        first, second = self.grid.joints
        return ({first: a, second: b} for a in self._inside(0) for b in self._inside(1))

    def arms(self, joint: str, low: float, high: float, other: float = 0.0) -> list[float]:
        """Moment arms (mm, positive flexes) between neighbouring angles of ``joint`` from ``low`` to ``high`` degrees.

        The other joint of the table stays at ``other`` degrees. An arm is the length lost per radian of flexion.
        """
        n = self.grid.joints.index(joint)
        column = self.grid.lengths[self.muscle.column]
        along = [angle for angle in self.grid.angles[n] if low <= angle <= high]
        lengths = [column[(angle, other) if n == 0 else (other, angle)] for angle in along]
        return [
            (before - after) / radians(end - start)
            for before, after, start, end in zip(
                lengths, lengths[1:], along, along[1:], strict=False
            )
        ]

    def others(self, joint: str) -> tuple[float, ...]:
        """Angles of the table's other joint inside the box; 0 where the muscle does not cross it."""
        return self._inside(1 - self.grid.joints.index(joint))

    def _inside(self, n: int) -> tuple[float, ...]:
        box = self.muscle.box.get(self.grid.joints[n])
        return (
            tuple(angle for angle in self.grid.angles[n] if box[0] <= angle <= box[1])
            if box
            else (0.0,)
        )

    def _cell(self, n: int, angle: float) -> tuple[float, float, float]:
        """The table's angles on either side, and how far between them."""
        joint, box = self.grid.joints[n], self.muscle.box.get(self.grid.joints[n])
        if box is None:
            return 0.0, 0.0, 0.0
        if not box[0] <= angle <= box[1]:
            raise OutOfRange(
                f"the {joint} is at {angle:g}\N{DEGREE SIGN}, and the model is trusted from {box[0]:g}\N{DEGREE SIGN} "
                f"to {box[1]:g}\N{DEGREE SIGN} only".replace("-", "\N{MINUS SIGN}")
            )
        axis = self.grid.angles[n]
        start = min(bisect_right(axis, angle) - 1, len(axis) - 2)
        return axis[start], axis[start + 1], (angle - axis[start]) / (axis[start + 1] - axis[start])
