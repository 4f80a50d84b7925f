"""A plan for other programs: a table (CSV, RFC 4180) and a calendar (iCalendar, RFC 5545). The page makes both on the coach's device."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, timedelta

from .facts import ExerciseFacts
from .plan_file import Plan
from .week import DAYS

COLUMNS = ("day", "exercise", "sets", "repetitions", "repetitions left", "rest in seconds")
#: RFC 5545, section 3.1: lines longer than this, in octets without the break, are folded.
LINE = 75
PRODUCT = "-//Evidence handbook//Week//EN"
#: RFC 5545, section 3.3.11.
_ESCAPED = {"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n"}


def table(plan: Plan, exercises: Mapping[str, ExerciseFacts]) -> str:
    """One line for each exercise under a line of headings; CR LF ends each line (RFC 4180, section 2)."""
    rows = [COLUMNS, *((DAYS[number], exercises[entry.exercise].name, *map(_told, (entry.sets, entry.repetitions, entry.left, entry.rest)))
                       for number, day in enumerate(plan.week.days) for entry in day)]
    return "".join(",".join(map(_cell, row)) + "\r\n" for row in rows)


def calendar(plan: Plan, exercises: Mapping[str, ExerciseFacts], monday: date, stamp: datetime, id: str) -> str:
    """A whole-day event for each training day of the week that starts on ``monday``.

    The hour is left to the coach. ``stamp`` is when it was made, in UTC; ``id`` keeps the events of two weeks apart.
    """
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{PRODUCT}"]
    for number, day in enumerate(plan.week.days):
        if day:
            start = monday + timedelta(days=number)
            told = "\n".join(f"{exercises[entry.exercise].name}: {entry.sets} x {entry.repetitions}" for entry in day)
            lines += ["BEGIN:VEVENT", f"UID:{id}-{number}", f"DTSTAMP:{stamp:%Y%m%dT%H%M%S}Z", f"DTSTART;VALUE=DATE:{start:%Y%m%d}",
                      f"DTEND;VALUE=DATE:{start + timedelta(days=1):%Y%m%d}", "SUMMARY:Strength training",
                      f"DESCRIPTION:{_escaped(told)}", "END:VEVENT"]
    return "".join(f"{_folded(line)}\r\n" for line in [*lines, "END:VCALENDAR"])


def _told(value: int | str | None) -> str:
    return "" if value is None else str(value)


def _cell(text: str) -> str:
    return f'"{text.replace(chr(34), chr(34) * 2)}"' if any(mark in text for mark in ',"\r\n') else text


def _escaped(text: str) -> str:
    return "".join(_ESCAPED.get(letter, letter) for letter in text)


def _folded(line: str) -> str:
    """Cut into lines of at most 75 octets, never inside a letter; each next one starts with a space."""
    pieces, octets = [""], 0
    for letter in line:
        size = len(letter.encode())
        if octets + size > LINE:
            pieces.append(" ")
            octets = 1
        pieces[-1] += letter
        octets += size
    return "\r\n".join(pieces)
