"""A plan for other programs: a table (CSV, RFC 4180) and a calendar (iCalendar, RFC 5545). Both are made on the coach's device."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from math import ceil

from .facts import ExerciseFacts
from .plan_file import Plan
from .week import DAYS, Entry, Seconds, duration

COLUMNS = ("Day", "Exercise", "Sets", "Repetitions", "Repetitions left", "Rest (seconds)")
#: RFC 5545, section 3.1: lines longer than this, in octets without the break, are folded.
LINE = 75
PRODUCT = "-//evidence-handbook//plan 1//EN"
_ESCAPED = {"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n"}
#: A cell that starts with one of these is taken for a formula by spreadsheets.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def csv(plan: Plan, exercises: Mapping[str, ExerciseFacts]) -> str:
    """One line for each exercise under a line of headings; CR LF ends each line (RFC 4180, section 2)."""
    rows = [COLUMNS, *((DAYS[number], exercises[entry.exercise].name, str(entry.sets), entry.repetitions, _told(entry.left),
                        _told(entry.rest)) for number, day in enumerate(plan.week.days) for entry in day)]
    return "".join(",".join(map(_cell, row)) + "\r\n" for row in rows)


def calendar(plan: Plan, exercises: Mapping[str, ExerciseFacts], times: Seconds, start: date, weeks: int) -> str:
    """An all-day event for each training day, repeated weekly.

    ``start`` is any day: the first event of a weekday is its first one from then on. ``weeks`` from 1 to 52. The events carry no
    time zone and no hour, which only the coach knows; their length in minutes stands in the text. Raises ValueError.
    """
    if not 1 <= weeks <= 52:
        raise ValueError(f"a calendar holds 1 to 52 weeks, not {weeks}")
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{PRODUCT}"]
    for number, day in enumerate(plan.week.days):
        if day:
            on = start + timedelta(days=(number - start.weekday()) % 7)
            minutes = ceil(duration(day, exercises, times) / 60)
            text = "\n".join([*(line(entry, exercises) for entry in day), f"About {minutes} minutes."])
            lines += ["BEGIN:VEVENT", f"UID:{on:%Y%m%d}-{number}-plan@evidence-handbook.invalid", f"DTSTAMP:{start:%Y%m%d}T000000Z",
                      f"DTSTART;VALUE=DATE:{on:%Y%m%d}", f"RRULE:FREQ=WEEKLY;COUNT={weeks}", f"SUMMARY:{_text(plan.title or 'Training')}",
                      f"DESCRIPTION:{_text(text)}", "TRANSP:TRANSPARENT", "END:VEVENT"]
    return "".join(_folded(text) + "\r\n" for text in [*lines, "END:VCALENDAR"])


def line(entry: Entry, exercises: Mapping[str, ExerciseFacts]) -> str:
    """One exercise in words: ``Crate curl: 3 sets of 8-12, 2 left``."""
    sets = f"{entry.sets} {'set' if entry.sets == 1 else 'sets'} of {entry.repetitions}"
    return f"{exercises[entry.exercise].name}: {sets}{'' if entry.left is None else f', {entry.left} left'}"


def _told(value: int | None) -> str:
    return "" if value is None else str(value)


def _cell(text: str) -> str:
    safe = f"'{text}" if text.startswith(_FORMULA) else text
    return f'"{safe.replace(chr(34), chr(34) * 2)}"' if any(mark in safe for mark in ',"\r\n') else safe


def _text(text: str) -> str:
    """RFC 5545, section 3.3.11: backslash, semicolon, comma and line break are escaped."""
    return "".join(_ESCAPED.get(letter, letter) for letter in text)


def _folded(text: str) -> str:
    """Cut into lines of at most 75 octets, never inside a letter; each next one starts with a space."""
    pieces, octets = [""], 0
    for letter in text:
        size = len(letter.encode())
        if octets + size > LINE:
            pieces.append(" ")
            octets = 1
        pieces[-1] += letter
        octets += size
    return "\r\n".join(pieces)
