"""A week of training: what it counts for each part, on which days, and how long each day takes.

One set counts 1 for a part that the exercise trains directly and 0.5 where the part helps (the values and their source stand in
``programme.yaml``). Sets of different exercises are added; nothing else is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from ..catalog.entries import Dose, Programme
from ..catalog.entries.programme import Goal
from .facts import ExerciseFacts
from .repetitions import Repetitions

DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


@dataclass(frozen=True)
class Entry:
    """One exercise of a day. What is None follows the ranges of the goal."""

    exercise: str
    sets: int
    repetitions: str
    """``8``, ``8-12``, or seconds: ``30s``."""
    left: int | None = None
    """Repetitions that could still be done at the end of a set."""
    rest: int | None = None
    """Seconds after each set."""


@dataclass(frozen=True)
class Week:
    """Up to seven days from Monday on, each with its exercises in order; a day without any is a day off."""

    days: tuple[tuple[Entry, ...], ...]

    @property
    def exercises(self) -> frozenset[str]:
        """Ids of everything in it."""
        return frozenset(entry.exercise for day in self.days for entry in day)


@dataclass(frozen=True)
class Count:
    """What a week holds for one part."""

    sets: float
    """Direct and indirect credit added."""
    days: tuple[int, ...]
    """Days with a direct set, 0 is Monday."""


Standing = Literal["below", "within", "above", "helper"]


@dataclass(frozen=True)
class Seconds:
    """What a day's time is reckoned from."""

    change: float
    """Between two exercises."""
    warm_up: float
    """Before the first."""
    repetition: float
    rest: float


def count(week: Week, exercises: Mapping[str, ExerciseFacts]) -> dict[str, Count]:
    """Part -> what the week holds for it; parts that nothing trains are left out. Raises KeyError for an unknown exercise."""
    sets: dict[str, float] = {}
    days: dict[str, set[int]] = {}
    for number, day in enumerate(week.days):
        for entry in day:
            facts = exercises[entry.exercise]
            for part, credit in facts.credits.items():
                sets[part] = sets.get(part, 0.0) + entry.sets * credit
            for part in facts.direct:
                days.setdefault(part, set()).add(number)
    return {part: Count(sets[part], tuple(sorted(days.get(part, ())))) for part in sorted(sets)}


def standing(part: str, held: Count, weekly: Dose) -> Standing:
    """Where a part stands against a range of weekly sets, ends included; one that is only helped is not held against it."""
    ends = weekly.ends(part)
    if not held.days:
        return "helper"
    if ends.low is not None and held.sets < ends.low:
        return "below"
    return "above" if ends.high is not None and held.sets > ends.high else "within"


def seconds(programme: Programme, goal: Goal) -> Seconds:
    """The programme's times; a rest that is not given is the middle of the goal's range.

    A repetition takes the middle of the range for strength, whatever the goal: that for growth says which speeds work, not which
    are usual (half a second to eight).
    """
    timing = programme.timing
    return Seconds(timing["change_exercise"].value, timing["warm_up"].value, _middle(programme.goals["strength"].repetition_seconds),
                   _middle(programme.goals[goal].rest_seconds))


def duration(day: tuple[Entry, ...], exercises: Mapping[str, ExerciseFacts], times: Seconds) -> float:
    """Seconds that a day takes: warm-up, sets with their rests, and the changes between exercises; 0 for a day off.

    The upper end of a range of repetitions counts. One side at a time takes the work twice and the rest once.
    """
    if not day:
        return 0.0
    total = times.warm_up + times.change * (len(day) - 1)
    for entry in day:
        repetitions = Repetitions.read(entry.repetitions)
        work = repetitions.high * (1 if repetitions.held else times.repetition)
        sides = 2 if exercises[entry.exercise].sides == "one" else 1
        total += entry.sets * (work * sides + (times.rest if entry.rest is None else entry.rest))
    return total


def _middle(dose: Dose) -> float:
    ends = [end for end in (dose.low, dose.high) if end is not None]
    return sum(ends) / len(ends)
