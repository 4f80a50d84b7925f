"""A handout and the URL fragment that carries it: the reference that the page's script is tested against.

A browser never sends the fragment (RFC 3986, section 3.5), so no server and no log sees what a coach wrote. It is
``1.`` (the version) and the base64url form without padding (RFC 4648, section 5) of compact JSON in UTF-8::

    [title or null, [[id, sets, repetitions, load, left, rest, tempo, note], ...]]

with nulls at a row's end left out. The same handout always gives the same fragment, and any other spelling of it
is refused: what one coach sends can be compared with what another opened.
"""

from __future__ import annotations

import json
import re
from base64 import urlsafe_b64decode, urlsafe_b64encode
from collections.abc import Mapping
from dataclasses import astuple, dataclass
from itertools import pairwise
from typing import Any, NoReturn

from . import limits

#: Whole numbers that every JSON reader keeps exactly.
_SAFE = 2**53 - 1


class BadFragment(ValueError):
    """A fragment that is not shown. ``kind`` is a key of ``limits.MESSAGES``, the text its message."""

    def __init__(self, kind: str) -> None:
        super().__init__(limits.MESSAGES[kind])
        self.kind = kind


@dataclass(frozen=True)
class Item:
    """One exercise of a handout. What is None is left to the client's usual way."""

    id: str
    sets: int | None = None
    repetitions: str | None = None
    """``8``, ``8-12``, or seconds: ``30s``, ``20-40s``."""
    load: str | None = None
    left: int | None = None
    """Repetitions that could still be done at the end of a set."""
    rest: int | None = None
    """Seconds."""
    tempo: str | None = None
    """Seconds down, held, up and, when given, held again: ``3-1-1``."""
    note: str | None = None


@dataclass(frozen=True)
class Handout:
    """Exercises in order, under a title."""

    title: str | None
    items: tuple[Item, ...]


def encode(handout: Handout) -> str:
    """The fragment of a handout, without ``#``. Raises ``BadFragment`` for what no link can hold (limits, too-long)."""
    rows = [_without_trailing_nulls(list(astuple(item))) for item in handout.items]
    _check_limits(handout.title, rows)
    text = f"{limits.VERSION}.{_base64(_compact([handout.title, rows]))}"
    if len(text) > limits.MOST_CHARACTERS:
        raise BadFragment("too-long")
    return text


def decode(text: str, known: Mapping[str, str]) -> Handout:
    """The handout of a fragment without ``#``.

    ``known`` maps every id that may stand in it to the id to show: itself, or its successor (see ``shown``). Raises
    ``BadFragment`` for the first of: too-long, not-ours, version, damaged, limits, unknown.
    """
    if len(text) > limits.MOST_CHARACTERS:
        raise BadFragment("too-long")
    form = re.fullmatch(r"([0-9]+)\.(.*)", text, re.DOTALL)
    if form is None:
        raise BadFragment("not-ours")
    if form[1] != str(limits.VERSION):
        raise BadFragment("version")
    title, rows = _parsed(form[2])
    _check_limits(title, rows)
    if any(row[0] not in known for row in rows):
        raise BadFragment("unknown")
    return Handout(title, tuple(Item(known[row[0]], *row[1:]) for row in rows))


def shown(exercises: Mapping[str, object], moved: Mapping[str, str]) -> dict[str, str]:
    """Every id that a link may hold -> the id to show. ``moved`` maps retired ids to successors, which may be retired too."""
    found = {id: id for id in exercises}
    for old in moved:
        last, seen = old, {old}
        while last in moved and last not in exercises and moved[last] not in seen:
            last = moved[last]
            seen.add(last)
        if last in exercises:
            found.setdefault(old, last)
    return found


def _parsed(encoded: str) -> tuple[str | None, list[list[Any]]]:
    """Title and rows, with the types that their places ask for."""
    try:
        raw = urlsafe_b64decode(encoded + "=" * (-len(encoded) % 4)) if re.fullmatch(r"[A-Za-z0-9_-]*", encoded) else b""
        data = json.loads(raw.decode(), parse_float=_refuse, parse_constant=_refuse, parse_int=_whole)
        if _base64(_compact(data)) == encoded and _has_the_shape(data):
            return data[0], data[1]
    except (ValueError, RecursionError):
        pass
    raise BadFragment("damaged")


def _has_the_shape(data: Any) -> bool:
    if not (isinstance(data, list) and len(data) == 2 and isinstance(data[0], str | None) and isinstance(data[1], list)):
        return False
    return all(isinstance(row, list) and 0 < len(row) <= len(limits.FIELDS) and row[-1] is not None and isinstance(row[0], str)
               and all(value is None or type(value) is (int if isinstance(limit, limits.Number) else str)
                       for value, limit in zip(row, limits.FIELDS.values(), strict=False))
               for row in data[1])


def _check_limits(title: str | None, rows: list[list[Any]]) -> None:
    sound = 1 <= len(rows) <= limits.MOST_EXERCISES and (title is None or _holds(limits.TITLE, title))
    if not sound or not all(value is None or _holds(limit, value)
                            for row in rows for value, limit in zip(row, limits.FIELDS.values(), strict=False)):
        raise BadFragment("limits")


def _holds(limit: limits.Number | limits.Text, value: Any) -> bool:
    if isinstance(limit, limits.Number):
        return bool(limit.low <= value <= limit.high)
    numbers = [int(digits) for digits in re.findall("[0-9]+", value)] if limit.rises else []
    return re.fullmatch(limit.pattern, value) is not None and all(low < high for low, high in pairwise(numbers))


def _without_trailing_nulls(row: list[Any]) -> list[Any]:
    while row[-1] is None:
        row.pop()
    return row


def _compact(data: object) -> bytes:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":")).encode()


def _base64(raw: bytes) -> str:
    return urlsafe_b64encode(raw).rstrip(b"=").decode()


def _whole(digits: str) -> int:
    if len(digits) > 17 or abs(int(digits)) > _SAFE:
        raise ValueError(digits)
    return int(digits)


def _refuse(text: str) -> NoReturn:
    raise ValueError(text)
