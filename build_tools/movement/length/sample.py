"""Samples muscle-tendon lengths from a model file into a table, with the ``opensim`` package.

The package (the extra ``model``, about 280 MB) is needed only here, by whoever
makes the tables anew; the handbook and its tests read the tables.
"""

from __future__ import annotations

import hashlib
from itertools import product
from math import radians
from pathlib import Path

from ...catalog.entries import Axis, LengthTable, Model
from ...catalog.length_table import angles, heading

#: Decimals of a millimetre that a table keeps; a tenth is far below what one body differs from another.
DECIMALS = 1


def digest(path: Path) -> str:
    """SHA-256 of a file, in hexadecimal."""
    return hashlib.sha256(path.read_bytes()).hexdigest()


def columns(model: Model, table: str) -> dict[str, str]:
    """Column -> the muscle's name in the model, for every muscle that a table holds, in the order of ``muscles.yaml``."""
    return {
        muscle.column: muscle.column + muscle.suffix
        for muscle in model.muscles.values()
        if muscle.table == table
    }


def sample(path: Path, table: LengthTable, muscles: dict[str, str]) -> str:
    """The table as text; the same model file gives the same bytes.

    Raises ``ImportError`` without the package, and ``ValueError`` for a model that lacks a joint or a muscle.
    """
    import opensim  # type: ignore[import-not-found]

    opensim.Logger.setLevelString(
        "off"
    )  # it would tell of each picture of a bone that is not at hand
    model = opensim.Model(str(path))
    state = model.initSystem()
    coordinates = [named(model.getCoordinateSet(), axis.coordinate, path) for axis in table.axes]
    found = [named(model.getMuscles(), name, path) for name in muscles.values()]
    lines = [",".join([*(heading(axis.joint) for axis in table.axes), *muscles])]
    for at in product(*(angles(axis.span, axis.step) for axis in table.axes)):
        for coordinate, axis, angle in zip(coordinates, table.axes, at, strict=True):
            coordinate.setValue(state, radians(in_model(axis, angle)), False)
        model.realizePosition(state)
        lengths = [1000 * muscle.getLength(state) for muscle in found]
        lines.append(
            ",".join(
                [*(f"{angle:g}" for angle in at), *(f"{length:.{DECIMALS}f}" for length in lengths)]
            )
        )
    return "\n".join(lines) + "\n"


def in_model(axis: Axis, angle: float) -> float:
    """A clinical angle as the model counts it, degrees."""
    return -angle if axis.reversed else angle


def named(members, name: str, path: Path):  # type: ignore[no-untyped-def]  # the package has no types
    """A member of one of the model's sets. Raises ``ValueError`` when there is none of that name."""
    if not members.contains(name):
        raise ValueError(f"{path.name} has no `{name}`")
    return members.get(name)
