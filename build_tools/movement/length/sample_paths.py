"""Samples where the muscles of a model file run, with the ``opensim`` package: attachments, via points and where they wrap.

Seen from the side: the model's third dimension, to the side, is left out. A path that changes with a joint is sampled at
the angles of the muscle's length table, the other joint at 0 degrees.
"""

from __future__ import annotations

from collections import defaultdict
from math import hypot, radians
from pathlib import Path
from typing import Any, NamedTuple

from ...catalog.entries import Axis, Model, SegmentName, SourceModel
from ...catalog.length_table import angles
from ...catalog.muscle_path import COLUMNS, THOUSAND, UNIT
from .sample import in_model, named

#: What the package calls a point that a path always runs over.
FIXED = "PathPoint"
Flat = tuple[float, float]
SampledPlaces = tuple["SampledPlace", ...]


class SampledPlace(NamedTuple):
    """A place of a path in thousandths, as it is written."""

    segment: SegmentName
    along: int
    ahead: int


class _Joint(NamedTuple):
    """A segment in the anatomical position: its joint, its direction and its unit, metres."""

    centre: Flat
    down: Flat
    unit: float


def sample_paths(path: Path, id: str, model: Model) -> str:
    """The paths of all muscles of the model ``id`` as text; the same model file gives the same bytes.

    Raises ``ImportError`` without the package, and ``ValueError`` for a model that lacks a name, or a path that this form cannot hold.
    """
    body = _Opened(path, model.models[id])
    lines = [",".join(COLUMNS)]
    for muscle in model.muscles.values():
        table = model.tables[muscle.table]
        if table.model == id:
            axes = [axis for axis in table.axes if axis.joint in muscle.box]
            lines += _lines(muscle.column, body, muscle.column + muscle.suffix, axes)
    return "\n".join(lines) + "\n"


def _lines(column: str, body: _Opened, name: str, axes: list[Axis]) -> list[str]:
    """Fixed places, and between them what the path runs over at each angle of the one joint that it depends on."""
    runs = {
        (axis.joint, angle): body.run(name, axis, angle)
        for axis in axes
        for angle in angles(axis.span, axis.step)
    }
    fixed = next(iter(runs.values())).fixed
    if any(run.fixed != fixed for run in runs.values()):
        raise ValueError(f"the fixed points of `{name}` are not the same at all angles")
    lines = []
    for gap in range(len(fixed) + 1):
        between: dict[str, dict[float, SampledPlaces]] = defaultdict(dict)
        for (joint, angle), run in runs.items():
            between[joint][angle] = run.gaps[gap]
        moving = [joint for joint, at in between.items() if len(set(at.values())) > 1]
        if len(moving) > 1:
            raise ValueError(f"`{name}` changes with {' and '.join(moving)} in one place")
        if moving:
            lines += [
                _line(column, spot, moving[0], angle)
                for angle, spots in between[moving[0]].items()
                for spot in spots
            ]
        else:
            lines += [_line(column, spot) for spot in next(iter(between.values()))[0.0]]
        if gap < len(fixed):
            lines.append(_line(column, fixed[gap]))
    return lines


def _line(column: str, spot: SampledPlace, joint: str = "", angle: float | None = None) -> str:
    told = "" if angle is None else f"{angle:g}"
    return f"{column},{joint},{told},{spot.segment},{spot.along},{spot.ahead}"


class _Run(NamedTuple):
    """A path at one angle: the points that are always there, and what lies before, between and after them."""

    fixed: SampledPlaces
    gaps: tuple[SampledPlaces, ...]


class _Opened:
    """A model file in the package, which has no types."""

    def __init__(self, path: Path, source: SourceModel) -> None:
        import opensim  # type: ignore[import-not-found]

        opensim.Logger.setLevelString("off")
        self._file, self._model = path, opensim.Model(str(path))
        self._state = self._model.initSystem()
        self._upright = opensim.State(self._state)
        self._model.realizePosition(self._upright)
        self._of_body = {given.body: name for name, given in source.segments.items()}
        self._joints = self._placed(source)

    def run(self, name: str, axis: Axis, angle: float) -> _Run:
        """The path of a muscle at one angle of a joint, all others at 0 degrees."""
        coordinate = named(self._model.getCoordinateSet(), axis.coordinate, self._file)
        coordinate.setValue(self._state, radians(in_model(axis, angle)), False)
        self._model.realizePosition(self._state)
        path = (
            named(self._model.getMuscles(), name, self._file)
            .getGeometryPath()
            .getCurrentPath(self._state)
        )
        fixed: list[SampledPlace] = []
        gaps: list[list[SampledPlace]] = [[]]
        for n in range(path.getSize()):
            point = path.get(n)
            spot = self._spot(point.getParentFrame(), point.getLocation(self._state))
            if point.getConcreteClassName() == FIXED:
                fixed.append(spot)
                gaps.append([])
            else:
                gaps[-1].append(spot)
        coordinate.setValue(self._state, 0.0, False)
        return _Run(tuple(fixed), tuple(tuple(gap) for gap in gaps))

    def _spot(self, frame: Any, location: Any) -> SampledPlace:
        """A point that is fixed to a body, where it lies on its segment."""
        body = frame.getName()
        if body not in self._of_body:
            raise ValueError(f"a muscle is fixed to `{body}`, which is none of the segments")
        segment = self._of_body[body]
        (x0, y0), (u, v), unit = self._joints[segment]
        x, y = _flat(frame.findStationLocationInGround(self._upright, location))
        x, y = (x - x0) * THOUSAND / unit, (y - y0) * THOUSAND / unit
        return SampledPlace(segment, round(x * u + y * v), round(y * u - x * v))

    def _placed(self, source: SourceModel) -> dict[SegmentName, _Joint]:
        """Where each segment hangs: limbs from joint to joint, the others straight down."""
        spans: dict[SegmentName, tuple[Flat, Flat]] = {}
        for name, given in source.segments.items():
            start = self._origin(given.centre or given.body)
            spans[name] = start, self._origin(given.to) if given.to else start
        joints = {}
        for name, (start, end) in spans.items():
            unit_start, unit_end = spans[UNIT[name]]
            unit = hypot(unit_end[0] - unit_start[0], unit_end[1] - unit_start[1])
            if not unit:
                raise ValueError(f"the length of `{UNIT[name]}` is not told")
            long = hypot(end[0] - start[0], end[1] - start[1])
            down = ((end[0] - start[0]) / long, (end[1] - start[1]) / long) if long else (0.0, -1.0)
            joints[name] = _Joint(start, down, unit)
        return joints

    def _origin(self, body: str) -> Flat:
        return _flat(
            named(self._model.getBodySet(), body, self._file).getPositionInGround(self._upright)
        )


def _flat(point: Any) -> Flat:
    """A point of the room seen from the side: forward and up."""
    return point.get(0), point.get(1)
