"""Where a muscle of the model runs at given joint angles: the places of its path on the pieces of the body."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import groupby

from ...catalog.load import Catalog
from ...catalog.muscle_path import MusclePath, Place, Stop
from .grid import MuscleGrid
from .length import Lengths


@dataclass(frozen=True)
class Route:
    """A checked muscle with its path. Angles are clinical degrees by joint, 0 where not given."""

    grid: MuscleGrid
    path: MusclePath

    @property
    def joints(self) -> frozenset[str]:
        """The joints that the muscle crosses."""
        return frozenset(self.grid.muscle.box)

    def is_known(self, angles: Mapping[str, float]) -> bool:
        """Whether the angles are trusted, or less than a step of the table beyond: attachments are where they are, only no length is told."""
        return all(
            low - self._step(joint) <= angles.get(joint, 0.0) <= high + self._step(joint)
            for joint, (low, high) in self.grid.muscle.box.items()
        )

    def places(self, angles: Mapping[str, float]) -> list[Place]:
        """From attachment to attachment; what moves lies between where it is at the table's angles on either side."""
        found: list[Place] = []
        for joint, stops in groupby(self.path.stops, key=lambda stop: stop.joint):
            if joint is None:
                found += [stop.place for stop in stops]
            else:
                found += self._moved(joint, list(stops), angles.get(joint, 0.0))
        return found

    def _moved(self, joint: str, stops: list[Stop], angle: float) -> list[Place]:
        """The places that hang on one joint, at one of its angles."""
        axis = self._axis(joint)
        low = max((step for step in axis if step <= angle), default=axis[0])
        high = min((step for step in axis if step >= angle), default=axis[-1])
        share = (angle - low) / (high - low) if high > low else 0.0
        before, after = ([s.place for s in stops if s.degrees == step] for step in (low, high))
        if [place.segment for place in before] != [place.segment for place in after]:
            return before if share < 0.5 else after  # the path comes upon a bone, or leaves it
        return [
            Place(
                a.segment,
                (1 - share) * a.along + share * b.along,
                (1 - share) * a.ahead + share * b.ahead,
            )
            for a, b in zip(before, after, strict=True)
        ]

    def share(self, angles: Mapping[str, float]) -> float:
        """Length as a share of the muscle's own range (0-1), at the nearest angles that are trusted."""
        box = self.grid.muscle.box
        within = {
            joint: min(max(angles.get(joint, 0.0), low), high) for joint, (low, high) in box.items()
        }
        short, long = self.grid.extremes
        return (self.grid.length(within) - short) / (long - short)

    def _step(self, joint: str) -> float:
        first, second, *_ = self._axis(joint)
        return second - first

    def _axis(self, joint: str) -> tuple[float, ...]:
        """The angles that the muscle's table holds for a joint."""
        return self.grid.grid.angles[self.grid.grid.joints.index(joint)]


def route(catalog: Catalog, lengths: Lengths, part: str) -> Route | None:
    """The route of a part; None where the part has no length that passes its checks, or no path was sampled."""
    grid = lengths.grid(part)
    path = catalog.muscle_paths.get(grid.muscle.column) if grid else None
    return Route(grid, path) if grid and path else None
