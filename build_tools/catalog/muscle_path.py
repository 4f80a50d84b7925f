"""Reads the paths of a model's muscles (``model/<model>-paths.csv``): where each runs on the pieces of the body, from attachment to attachment.

One line for each place, in the order of the path. ``along`` is how far it lies down its piece from the joint that the piece
hangs on, ``ahead`` how far to the front, both in thousandths of ``UNIT``. ``joint`` and ``deg`` stand only where the path
runs over a place at that joint angle and no other: a place that another would leave behind, or one that moves.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple, get_args

from .entries import SegmentName
from .finding import Finding, Spot

COLUMNS = ("muscle", "joint", "deg", "segment", "along", "ahead")
#: Piece of the body -> the one whose length its places are told in: those without a length of their own take that of the limb.
UNIT: dict[SegmentName, SegmentName] = {
    "pelvis": "thigh",
    "thigh": "thigh",
    "shank": "shank",
    "foot": "shank",
    "shoulder-blade": "upper-arm",
    "upper-arm": "upper-arm",
    "forearm": "upper-arm",
}
#: Places are told in this part of the unit.
THOUSAND = 1000
#: Largest file read, in bytes; the shipped ones are a tenth of it.
MAX_SIZE = 100_000
#: Largest number in it: ten times a piece of the body away.
MOST = 10_000
_SEGMENTS: tuple[SegmentName, ...] = get_args(SegmentName)
_HELP = "sample it again: `handbook sample-lengths`"


class Place(NamedTuple):
    """A place on a piece of the body, shares of its ``UNIT``."""

    segment: SegmentName
    along: float
    """Down the piece from the joint it hangs on."""
    ahead: float
    """To the front in the anatomical position."""


class Stop(NamedTuple):
    """A place that a path runs over: always, or only at one angle of a joint (degrees, a step of the length table)."""

    place: Place
    joint: str | None = None
    degrees: float = 0.0


@dataclass(frozen=True)
class MusclePath:
    """The places of one muscle from attachment to attachment."""

    stops: tuple[Stop, ...]


def file(model: str) -> str:
    """Name of a model's file of paths."""
    return f"{model}-paths.csv"


def read(path: Path, label: str) -> tuple[dict[str, MusclePath], list[Finding]]:
    """The muscles of the file (column of the tables -> path), or the one finding that says why there are none."""
    line = 1
    found: dict[str, list[Stop]] = {}
    try:
        if path.stat().st_size > MAX_SIZE:
            raise ValueError(f"it is larger than {MAX_SIZE} bytes")
        rows = list(csv.reader(io.StringIO(path.read_text(encoding="utf-8"))))
        if not rows or tuple(rows[0]) != COLUMNS:
            raise ValueError(f"the first line is not {','.join(COLUMNS)}")
        for row in rows[1:]:
            line += 1
            muscle, stop = _stop(row)
            found.setdefault(muscle, []).append(stop)
        if short := [muscle for muscle, stops in found.items() if len(stops) < 2]:
            raise ValueError(f"{short[0]} has one place only")
    except OSError as error:
        return {}, [_finding(label, 1, f"the paths cannot be read: {error.strerror}")]
    except (ValueError, csv.Error) as error:  # of which text that is no UTF-8 is one
        return {}, [_finding(label, line, f"this is no path of a muscle: {error}")]
    return {muscle: MusclePath(tuple(stops)) for muscle, stops in found.items()}, []


def _stop(row: list[str]) -> tuple[str, Stop]:
    if len(row) != len(COLUMNS):
        raise ValueError(f"there are {len(row)} values here, not {len(COLUMNS)}")
    muscle, joint, degrees, segment, along, ahead = row
    known = next((name for name in _SEGMENTS if name == segment), None)
    if known is None:
        raise ValueError(f"`{segment}` is none of {', '.join(_SEGMENTS)}")
    if bool(joint) != bool(degrees):
        raise ValueError("a joint stands with its angle, or neither of them")
    place = Place(known, _whole(along) / THOUSAND, _whole(ahead) / THOUSAND)
    return muscle, Stop(place, joint, _whole(degrees)) if joint else Stop(place)


def _whole(text: str) -> int:
    value = int(text)
    if abs(value) > MOST:
        raise ValueError(f"{text[:20]} is beyond {MOST}, which no place or angle is")
    return value


def _finding(label: str, line: int, message: str) -> Finding:
    return Finding("length-table", Spot(label, line, 1), message, _HELP)
