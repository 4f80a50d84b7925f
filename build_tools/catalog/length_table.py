"""Reads a table of muscle-tendon lengths (``model/<id>.csv``) into a grid.

The first two columns are the joints in degrees, the second changing faster; the
others are lengths in millimetres. A table is complete or refused.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from itertools import product
from math import isfinite
from pathlib import Path

from .entries import LengthTable
from .finding import Finding, Spot

Angles = tuple[float, ...]
_HELP = "sample it again: `handbook sample-lengths`"
#: Largest table read, in bytes; the shipped ones are a tenth of it.
MAX_SIZE = 200_000
#: Most steps of an axis; the shipped ones have a tenth of it.
MAX_STEPS = 200
#: Longest muscle, mm: no part of a person is longer.
MAX_LENGTH = 3000


@dataclass(frozen=True)
class Grid:
    """Lengths (mm) over two joints."""

    joints: tuple[str, str]
    angles: tuple[Angles, Angles]
    """Angles of each joint, rising, degrees."""
    lengths: dict[str, dict[tuple[float, float], float]]
    """Column -> angles of both joints -> mm."""


def angles(span: list[float], step: float) -> Angles:
    """Every angle of an axis, degrees. Raises ``ValueError`` unless the span is a whole number of steps."""
    count = (span[1] - span[0]) / step
    if not 1 <= count <= MAX_STEPS or count != int(count):
        raise ValueError(
            f"{span[0]:g} to {span[1]:g} is not a whole number of steps of {step:g} degrees, at most {MAX_STEPS}"
        )
    return tuple(span[0] + step * n for n in range(int(count) + 1))


def heading(joint: str) -> str:
    """The heading of a joint's column."""
    return f"{joint}_deg"


#: Label of a file -> its text, the table that it was read as, and what it holds.
TableMemory = dict[str, tuple[str, LengthTable, Grid]]


def read(
    path: Path, label: str, table: LengthTable, memory: TableMemory | None = None
) -> tuple[Grid | None, list[Finding]]:
    """The grid in ``path``, or the one finding that says why there is none.

    ``memory`` holds what was read last; what is the same is not read anew.
    """
    memory = {} if memory is None else memory
    try:
        if path.stat().st_size > MAX_SIZE:
            raise ValueError(f"it is larger than {MAX_SIZE} bytes")
        text = path.read_text(encoding="utf-8")
        known = memory.get(label)
        if known is None or known[0] != text or known[1] is not table:
            memory[label] = known = (text, table, _parse(text, table))
        return known[2], []
    except _At as error:
        return None, [Finding("length-table", Spot(label, error.line, 1), str(error), _HELP)]
    except OSError as error:
        return None, [
            Finding(
                "length-table",
                Spot(label, 1, 1),
                f"the table cannot be read: {error.strerror}",
                _HELP,
            )
        ]
    except (ValueError, csv.Error) as error:  # of which text that is no UTF-8 is one
        return None, [
            Finding(
                "length-table", Spot(label, 1, 1), f"this is no table of lengths: {error}", _HELP
            )
        ]


class _At(ValueError):
    """Something wrong in one line."""

    def __init__(self, line: int, message: str) -> None:
        super().__init__(message)
        self.line = line


def _parse(text: str, table: LengthTable) -> Grid:
    rows = list(csv.reader(io.StringIO(text)))
    first, second = (axis.joint for axis in table.axes)
    if (
        not rows
        or rows[0][:2] != [heading(first), heading(second)]
        or len(set(rows[0])) != len(rows[0])
        or len(rows[0]) < 3
    ):
        raise _At(
            1,
            f"the first line does not name {heading(first)}, {heading(second)} and muscles, each once",
        )
    axes = (
        angles(table.axes[0].span, table.axes[0].step),
        angles(table.axes[1].span, table.axes[1].step),
    )
    columns: dict[str, dict[tuple[float, float], float]] = {name: {} for name in rows[0][2:]}
    expected = list(product(axes[0], axes[1]))
    for line, row in enumerate(rows[1:], start=2):
        if line - 2 >= len(expected) or len(row) != len(rows[0]):
            raise _At(
                line,
                f"there are {len(row)} values here, where the table should "
                + ("have ended" if line - 2 >= len(expected) else f"have {len(rows[0])}"),
            )
        values = [_number(line, value) for value in row]
        if (values[0], values[1]) != expected[line - 2]:
            raise _At(
                line,
                f"this line should be for {first} {expected[line - 2][0]:g} and {second} {expected[line - 2][1]:g} degrees",
            )
        for name, value in zip(columns, values[2:], strict=True):
            if not 0 < value <= MAX_LENGTH:
                raise _At(line, f"{value:g} mm is no length of a muscle")
            columns[name][expected[line - 2]] = value
    if len(rows) - 1 != len(expected):
        raise _At(len(rows), f"the table ends after {len(rows) - 1} of {len(expected)} lines")
    return Grid((first, second), axes, columns)


def _number(line: int, text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = float("nan")
    if not isfinite(value):
        raise _At(line, f"`{text}` is no number")
    return value
