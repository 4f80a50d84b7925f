"""A week as a file on the coach's own device: JSON with a version, read back with limits, so that a file from elsewhere does no harm.

::

    {"version": 1, "goal": "growth" or "strength",
     "days": seven lists, from Monday on, of {"exercise", "sets", "repetitions", "left" or null, "rest" or null}}

The limits of a field are those of a handout. Nothing about a person belongs in it: no name, no age, no body weight. What a file
holds besides is dropped. The page's script reads and writes the same.
"""

from __future__ import annotations

import json
import re
from collections.abc import Container
from dataclasses import asdict, dataclass
from itertools import pairwise
from typing import Any, NoReturn

from ..catalog.entries.programme import Goal
from ..handout import limits
from .week import DAYS, Entry, Week

VERSION = 1
#: Longest file, and most exercises of a day.
MOST_CHARACTERS, MOST_EXERCISES = 100_000, limits.MOST_EXERCISES
GOALS: tuple[Goal, ...] = ("growth", "strength")
FIELDS = ("exercise", "sets", "repetitions", "left", "rest")
NEEDED = FIELDS[:3]


class BadPlan(ValueError):
    """A file that is not opened; the message tells the coach why, and where in it."""


@dataclass(frozen=True)
class Plan:
    """A week and what it is for."""

    goal: Goal
    week: Week


def write(plan: Plan) -> str:
    """The file's text; days that the week leaves out are days off."""
    days = [[asdict(entry) for entry in day] for day in plan.week.days]
    made = {"version": VERSION, "goal": plan.goal, "days": [*days, *([] for _ in range(len(DAYS) - len(days)))]}
    return json.dumps(made, ensure_ascii=False, indent=1) + "\n"


def read(text: str, exercises: Container[str]) -> Plan:
    """The plan of a file's text; ``exercises`` are the ids of the handbook. Raises ``BadPlan``."""
    if len(text) > MOST_CHARACTERS:
        raise BadPlan("This file is too large to be a week.")
    try:
        data = json.loads(text, parse_constant=_refuse)
    except (ValueError, RecursionError):
        raise BadPlan("This is not a file of this page, or it is cut off.") from None
    if not isinstance(data, dict) or _whole(data.get("version")) != VERSION:
        raise BadPlan(f"This file is not of version {VERSION}. Save the week anew on the page that made it.")
    if data.get("goal") not in GOALS:
        raise BadPlan("The file names no goal: growth or strength.")
    days = data.get("days")
    if not isinstance(days, list) or len(days) != len(DAYS) or not all(isinstance(day, list) for day in days):
        raise BadPlan("The file does not hold seven days.")
    return Plan(data["goal"], Week(tuple(_day(rows, name, exercises) for rows, name in zip(days, DAYS, strict=True))))


def _day(rows: list[Any], name: str, exercises: Container[str]) -> tuple[Entry, ...]:
    if len(rows) > MOST_EXERCISES:
        raise BadPlan(f"{name} holds more than {MOST_EXERCISES} exercises.")
    return tuple(_entry(row, f"{name}, exercise {number}", exercises) for number, row in enumerate(rows, 1))


def _entry(row: Any, where: str, exercises: Container[str]) -> Entry:
    id = row.get("exercise") if isinstance(row, dict) else None
    if not isinstance(id, str) or id not in exercises:
        raise BadPlan(f"{where}: this handbook does not have it.")
    held: dict[str, Any] = {"exercise": id}
    for field in FIELDS[1:]:
        value, limit = row.get(field), limits.FIELDS[field]
        held[field] = _whole(value) if isinstance(limit, limits.Number) else value
        sound = field not in NEEDED if value is None else _holds(limit, held[field])
        if not sound:
            raise BadPlan(f"{where}: {field} cannot be read.")
    return Entry(**held)


def _holds(limit: limits.Number | limits.Text, value: Any) -> bool:
    if isinstance(limit, limits.Number):
        return value is not None and limit.low <= value <= limit.high
    if not isinstance(value, str) or not re.fullmatch(limit.pattern, value):
        return False
    return not limit.rises or all(low < high for low, high in pairwise(map(int, re.findall("[0-9]+", value))))


def _whole(value: Any) -> int | None:
    """A whole number, however JSON writes it (``3`` or ``3.0``); None for anything else."""
    whole = isinstance(value, int | float) and not isinstance(value, bool) and float(value).is_integer()
    return int(value) if whole else None


def _refuse(word: str) -> NoReturn:
    """JSON knows neither NaN nor Infinity."""
    raise ValueError(word)
