"""What a handout may contain: the one place for its version, limits and patterns.

The page reads the same values from ``data.json``, so that page and Python cannot differ. Patterns are written in
the part of regular expressions that Python and JavaScript read alike, and must match the whole text. Lengths
count characters (code points), not bytes.
"""

from __future__ import annotations

from typing import NamedTuple

#: Stands before the point of every fragment. A change of what follows it needs a new number; links of earlier numbers still open.
VERSION = 2
#: Longest fragment, without its ``#``, and the longest that a printed QR code can still hold.
MOST_CHARACTERS, MOST_SCANNED = 4000, 1500
#: Exercises of a day, days of a handout, and concerns whose lines stand on top of it.
MOST_EXERCISES, MOST_DAYS, MOST_CONCERNS = 12, 7, 6
TITLE_LENGTH, NOTE_LENGTH = 60, 140

#: No control, line-breaking, direction-changing or invisible characters, and no half characters.
_SHOWN = (
    r"[^\u0000-\u001f\u007f-\u009f\u200b\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff\ud800-\udfff]"
)


class Number(NamedTuple):
    """A whole number between two ends, both allowed."""

    low: int
    high: int


class Text(NamedTuple):
    """Text of a pattern."""

    pattern: str
    rises: bool = False
    """Whether the numbers in it must rise."""


def _words(length: int) -> Text:
    return Text(f"{_SHOWN}{{1,{length}}}")


TITLE = _words(TITLE_LENGTH)
ID = Text(r"(?=.{1,64}$)[a-z][a-z0-9]*(-[a-z0-9]+)*")
DATE = Text(r"20[0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])")

#: What may stand for one exercise, in the order of its row. Only the id must be there; what is not given is null.
FIELDS: dict[str, Number | Text] = {
    "id": ID,
    "sets": Number(1, 20),
    "repetitions": Text(r"[1-9][0-9]{0,2}(-[1-9][0-9]{0,2})?s?", rises=True),
    "load": _words(20),
    "left": Number(0, 10),
    "rest": Number(0, 900),
    "tempo": Text(r"[1-9]-[0-9]-[1-9](-[0-9])?"),
    "note": _words(NOTE_LENGTH),
}

#: What stands over the exercises, in order. Only days must be there.
HEAD: dict[str, Text] = {"title": TITLE, "coach": TITLE, "date": DATE}


def as_data() -> dict[str, object]:
    """The same for the page, as JSON values."""
    return {
        "version": VERSION,
        "characters": MOST_CHARACTERS,
        "scanned": MOST_SCANNED,
        "exercises": MOST_EXERCISES,
        "days": MOST_DAYS,
        "concerns": MOST_CONCERNS,
        "concern": ID._asdict(),
        "head": [[name, limit._asdict()] for name, limit in HEAD.items()],
        "fields": [[name, limit._asdict()] for name, limit in FIELDS.items()],
    }
