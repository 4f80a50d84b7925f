"""What a week goes against, each with the passage of ``programme.yaml`` that says so. A warning is a remark, never a ban.

- below, above: a part that the week trains directly gets fewer or more sets than the goal's range. Parts that are only
  helpers are not held against it, nor is a range without an upper end.
- consecutive: a part is trained directly on two days in a row, Sunday and Monday included, as the week comes round again.
- accessory-first: an accessory stands before a main lift on the same day.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from ..catalog.entries import Doses
from .facts import ExerciseFacts
from .week import DAYS, Count, Week

Kind = Literal["below", "above", "consecutive", "accessory-first"]
#: Kind -> the anchor on the page of the programme; ``{goal}`` stands for the goal.
GROUNDS: dict[Kind, str] = {"below": "{goal}-weekly-sets", "above": "{goal}-weekly-sets", "consecutive": "topic-how-often",
                            "accessory-first": "topic-order"}


@dataclass(frozen=True)
class Warning:
    """One remark. Parts of which the same is said stand together."""

    kind: Kind
    parts: tuple[str, ...] = ()
    sets: float | None = None
    """What the week holds, for below and above."""
    bound: float | None = None
    """The end of the range that it misses."""
    days: tuple[int, ...] = ()
    """The two days in a row, or the one day; 0 is Monday."""
    exercises: tuple[str, ...] = ()
    """The accessory, and the main lift after it."""


def warnings(week: Week, counts: Mapping[str, Count], exercises: Mapping[str, ExerciseFacts], doses: Doses) -> list[Warning]:
    """Everything to remark on a week, in the order of the docstring above."""
    return [*_volume(counts, doses), *_consecutive(counts), *_order(week, exercises)]


def _volume(counts: Mapping[str, Count], doses: Doses) -> Iterable[Warning]:
    below: dict[tuple[float, float], list[str]] = {}
    above: dict[tuple[float, float], list[str]] = {}
    for part, held in counts.items():
        ends = doses.weekly_sets.ends(part)
        if held.days and ends.low is not None and held.sets < ends.low:
            below.setdefault((held.sets, ends.low), []).append(part)
        elif held.days and ends.high is not None and held.sets > ends.high:
            above.setdefault((held.sets, ends.high), []).append(part)
    for (sets, low), parts in sorted(below.items()):
        yield Warning("below", tuple(sorted(parts)), sets, low)
    for (sets, high), parts in sorted(above.items()):
        yield Warning("above", tuple(sorted(parts)), sets, high)


def _consecutive(counts: Mapping[str, Count]) -> Iterable[Warning]:
    for day in range(len(DAYS)):
        after = (day + 1) % len(DAYS)
        parts = tuple(sorted(part for part, held in counts.items() if {day, after} <= set(held.days)))
        if parts:
            yield Warning("consecutive", parts, days=(day, after))


def _order(week: Week, exercises: Mapping[str, ExerciseFacts]) -> Iterable[Warning]:
    for number, day in enumerate(week.days):
        ids = [entry.exercise for entry in day]
        for place, id in enumerate(ids):
            main = next((after for after in ids[place + 1:] if exercises[after].main), None)
            if main and not exercises[id].main:
                yield Warning("accessory-first", days=(number,), exercises=(id, main))
