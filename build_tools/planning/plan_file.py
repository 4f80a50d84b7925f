"""A plan as a file on the coach's own device: JSON with a version, read back with limits, so that a file from elsewhere does no harm.

::

    {"format": "handbook-plan", "version": 1, "title": text or null, "goal": "growth" or "strength",
     "days": [[{"exercise", "sets", "repetitions", "left"?, "rest"?}, ...], ...]}

Nothing about a person belongs in it: no name, no age, no body weight.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ..catalog.entries.programme import Goal
from ..handout import limits
from .repetitions import Repetitions
from .week import DAYS, Entry, Week

FORMAT, VERSION = "handbook-plan", 1
#: Longest file in characters, and most exercises of a day (as many as a handout holds).
MOST_CHARACTERS, MOST_EXERCISES = 100_000, limits.MOST_EXERCISES
GOALS: tuple[Goal, ...] = ("growth", "strength")
_ROW = ("exercise", "sets", "repetitions", "left", "rest")


class BadPlan(ValueError):
    """A file that is not opened: what is wrong with it and, where it helps, on which day."""


@dataclass(frozen=True)
class Plan:
    """A week with its title and goal."""

    title: str | None
    goal: Goal
    week: Week


def write(plan: Plan) -> str:
    """The file's text. Raises ``BadPlan`` for what the file cannot hold."""
    days = [[{key: value for key in _ROW if (value := getattr(entry, key)) is not None} for entry in day] for day in plan.week.days]
    made = {"format": FORMAT, "version": VERSION, "title": plan.title, "goal": plan.goal, "days": days}
    text = json.dumps(made, ensure_ascii=False, indent=1) + "\n"
    read(text, {entry["exercise"]: entry["exercise"] for day in days for entry in day})
    return text


def read(text: str, known: Mapping[str, str]) -> Plan:
    """The plan of a file. ``known`` maps every id that may stand in it to the id to show (see ``handout.fragment.shown``).

    Raises ``BadPlan``.
    """
    if len(text) > MOST_CHARACTERS:
        raise BadPlan(f"This file is too long to be a plan: more than {MOST_CHARACTERS} characters.")
    try:
        data = json.loads(text)
    except (ValueError, RecursionError):
        raise BadPlan("This file is damaged, or it is no plan: it cannot be read as JSON.") from None
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        raise BadPlan("This file does not hold a plan of this handbook.")
    if type(data.get("version")) is not int or data["version"] != VERSION:
        raise BadPlan("This plan was saved with another version of this page.")
    _only(data, ("format", "version", "title", "goal", "days"), "The plan")
    title, goal, days = data.get("title"), data.get("goal"), data.get("days")
    if title is not None and not (isinstance(title, str) and _fits(limits.TITLE, title)):
        raise BadPlan(f"The title is too long or holds a character that cannot be shown; at most {limits.TITLE_LENGTH} characters.")
    if goal not in GOALS:
        raise BadPlan("The goal is neither growth nor strength.")
    if not isinstance(days, list) or len(days) > len(DAYS):
        raise BadPlan("A plan has a list of up to seven days.")
    return Plan(title, goal, Week(tuple(_day(day, DAYS[number], known) for number, day in enumerate(days))))


def _day(rows: Any, name: str, known: Mapping[str, str]) -> tuple[Entry, ...]:
    if not isinstance(rows, list) or len(rows) > MOST_EXERCISES:
        raise BadPlan(f"{name} is not a list of up to {MOST_EXERCISES} exercises.")
    return tuple(_entry(row, f"{name}, exercise {number}", known) for number, row in enumerate(rows, 1))


def _entry(row: Any, where: str, known: Mapping[str, str]) -> Entry:
    if not isinstance(row, dict):
        raise BadPlan(f"{where} is not an exercise.")
    _only(row, _ROW, where)
    if not isinstance(row.get("exercise"), str) or row["exercise"] not in known:
        raise BadPlan(f"{where} is not in this handbook.")
    for field in ("sets", "left", "rest"):
        limit = limits.FIELDS[field]
        assert isinstance(limit, limits.Number)
        given = row.get(field)
        if (given is not None or field == "sets") and not (type(given) is int and limit.low <= given <= limit.high):
            raise BadPlan(f"{where}: {field} must be a whole number from {limit.low} to {limit.high}.")
    try:
        Repetitions.read(row["repetitions"])
    except (KeyError, TypeError, ValueError):
        raise BadPlan(f"{where}: write the repetitions as 8, 8-12, or 30s for a hold.") from None
    return Entry(known[row["exercise"]], row["sets"], row["repetitions"], row.get("left"), row.get("rest"))


def _only(data: Mapping[str, Any], keys: tuple[str, ...], where: str) -> None:
    if set(data) - set(keys):
        raise BadPlan(f"{where} holds something that a plan does not have.")


def _fits(form: limits.Text, text: str) -> bool:
    return re.fullmatch(form.pattern, text) is not None
