"""The doses of ``programme.yaml`` that a handout is held against, quietly: outside of them is the coach's decision."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from ..catalog.entries.programme import Dose, Programme

#: What a handout says -> the dose it is held against, and how its unit reads.
COMPARED = {
    "repetitions": ("repetitions", "repetitions"),
    "load": ("load_percent", "per cent of the most that can be lifted once"),
    "left": ("repetitions_left", "repetitions left at the end of a set"),
    "rest": ("rest_seconds", "seconds of rest"),
    "tempo": ("repetition_seconds", "seconds for one repetition, down and up together"),
}


class Range(NamedTuple):
    """The ranges of all goals together. An end that any goal leaves open is None."""

    low: float | None
    high: float | None
    says: str
    """What the coach reads when a handout is outside of it."""


def ranges(programme: Programme) -> dict[str, Range]:
    """Field of a handout -> the widest range that the handbook gives for it."""
    made = {}
    for field, (dose, unit) in COMPARED.items():
        low, high = _union(getattr(doses, dose) for doses in programme.goals.values())
        if low or high is not None:  # nothing is below 0
            made[field] = Range(
                low,
                high,
                f"The ranges in this handbook {_told(low, high)} {unit}. This is outside.",
            )
    return made


def _union(doses: Iterable[Dose]) -> tuple[float | None, float | None]:
    ends = [(dose.low, dose.high) for dose in doses]
    lows, highs = ([end for end in side if end is not None] for side in zip(*ends, strict=True))
    return min(lows) if len(lows) == len(ends) else None, max(highs) if len(highs) == len(
        ends
    ) else None


def _told(low: float | None, high: float | None) -> str:
    if high is None:
        return f"start at {low:g}"
    return f"end at {high:g}" if low is None else f"run from {low:g} to {high:g}"
