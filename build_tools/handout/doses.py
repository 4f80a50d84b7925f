"""The doses of ``programme.yaml`` that a handout is held against, quietly: outside of them is the coach's decision."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from ..catalog.entries.programme import Dose, Programme
from ..catalog.fixed_words import fixed_words

#: What a handout says -> the dose it is held against.
COMPARED = {
    "repetitions": "repetitions",
    "load": "load_percent",
    "left": "repetitions_left",
    "rest": "rest_seconds",
    "tempo": "repetition_seconds",
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
    words = fixed_words("handout")["ranges"]
    for field, dose in COMPARED.items():
        low, high = _union(getattr(doses, dose) for doses in programme.goals.values())
        if low or high is not None:  # nothing is below 0
            told: str = words["from" if high is None else "to" if low is None else "within"]
            ends = {"low": _number(low), "high": _number(high)}
            made[field] = Range(low, high, told.format(what=words[field], **ends))
    return made


def _union(doses: Iterable[Dose]) -> tuple[float | None, float | None]:
    ends = [(dose.low, dose.high) for dose in doses]
    lows, highs = ([end for end in side if end is not None] for side in zip(*ends, strict=True))
    return min(lows) if len(lows) == len(ends) else None, max(highs) if len(highs) == len(
        ends
    ) else None


def _number(end: float | None) -> str:
    return "" if end is None else f"{end:g}"
