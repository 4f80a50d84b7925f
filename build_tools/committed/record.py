"""The committed record of moved statements (``catalog/changes.yaml``): what moved on which day, oldest first.

`handbook conclude` adds to it; days are never taken out. Within a day the newest run counts, so that what moved and moved
back is no move. By hand only ``note:`` is written: what else is known of a day, such as a rule that changed.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import date
from itertools import groupby

from pydantic import Field, ValidationError

from ..catalog import complaints, yaml_file
from ..catalog.entries import Entry, Line
from ..catalog.finding import Finding, Spot
from ..catalog.load import Catalog
from ..catalog.yaml_file import SourceFile
from . import addresses
from .moves import Move, Moves, Saying
from .plain_yaml import Data, dump
from .whole import put

FILE = "changes.yaml"
HEADER = (
    "# Written by handbook conclude: which statements moved, oldest day first. Add only `note:`.\n"
)
RULE = "change-record"
#: Years of days; an entry's limit would hold a few hundred moves.
_MOST_BYTES = 32 * yaml_file.MAX_BYTES
_HELP = "after a merge keep both sides' days, then run `handbook conclude`"


class ChangeDay(Entry):
    """What moved on one day."""

    day: date = Field(description="The day, year-month-day.")
    note: Line | None = Field(
        default=None, description="What else is known of it, written by hand: a rule that changed."
    )
    moved: list[Move] = Field(default=[], description="Statements that say something else since.")
    new: list[str] = Field(default=[], description="Addresses of statements that came.")
    gone: list[str] = Field(default=[], description="Addresses of statements that went.")


class ChangeRecord(Entry):
    """All days."""

    days: list[ChangeDay] = Field(description="Oldest first, each once.")


def read(catalog: Catalog) -> list[ChangeDay]:
    """The days as recorded; empty without a record, or when it cannot be read (``find`` tells why)."""
    return _read(catalog)[1]


def find(catalog: Catalog) -> list[Finding]:
    """What is wrong with the record."""
    source, days, found = _read(catalog)
    known = addresses.published(catalog)

    def problem(message: str, help: str, *path: str | int) -> Finding:
        return Finding(RULE, Spot(source.label, *source.position(("days", *path))), message, help)

    for number, day in enumerate(days):
        if number and day.day <= days[number - 1].day:
            found.append(
                problem("this day stands after a later one, or twice", _HELP, number, "day")
            )
        keys = [move.key for move in day.moved]
        for index, move in enumerate(day.moved):
            if move.key in keys[:index]:
                found.append(
                    problem("this statement moves twice on one day", _HELP, number, "moved", index)
                )
        named: list[tuple[str, tuple[str | int, ...]]] = [
            (move.at, ("moved", index, "at")) for index, move in enumerate(day.moved)
        ]
        for key, listed in (("new", day.new), ("gone", day.gone)):
            named += [(at, (key, index)) for index, at in enumerate(listed)]
        for at, place in named:
            if at.partition("#")[0] not in known:
                help = "take the statement out, or list its page's address in addresses.txt"
                found.append(problem(f"`{at}` was never published", help, number, *place))
    return found


def add(catalog: Catalog, found: Moves, today: date) -> Moves:
    """Add what moved to today's group, bring the days in order, and tell what was added. Nothing is written for nothing.

    A clock that stands before the last recorded day does not write history: that day then takes it. Raises ``OSError`` when
    the file cannot be written, ``ValueError`` when what stands there cannot be read.
    """
    source, days, damaged = _read(catalog)
    if damaged:
        raise ValueError(
            f"{source.label}:{damaged[0].spot.line}: {damaged[0].message}; {damaged[0].help}"
        )
    last = {move.key: move.now for day in days for move in day.moved}
    # After a merge one side's days already tell what the conclusions of the other do not hold yet.
    moved = [m for m in found.moved if m.key not in last or last[m.key].answers != m.now.answers]
    added = found._replace(moved=moved)
    if any(added):
        day = max([today, *(day.day for day in days)])
        days.append(
            ChangeDay(day=day, note=None, moved=added.moved, new=added.new, gone=added.gone)
        )
    days = sorted(days, key=lambda day: day.day)
    folded = [_fold(list(group)) for _, group in groupby(days, key=lambda day: day.day)]
    if folded:
        _replace(catalog, [day for day in folded if day.note or day.moved or day.new or day.gone])
    return added


def _fold(runs: Sequence[ChangeDay]) -> ChangeDay:
    """Several runs of one day as one."""
    whole = runs[0]
    for later in runs[1:]:
        since = {move.key: move for move in whole.moved}
        came, went = set(whole.new), set(later.gone)
        for move in later.moved:
            if move.key in since:
                first = since[move.key]
                both = list(dict.fromkeys((*first.because, *move.because)))
                since[move.key] = move.model_copy(update={"before": first.before, "because": both})
            elif move.at not in came:
                since[move.key] = move
        kept = [m for m in since.values() if m.before.answers != m.now.answers and m.at not in went]
        whole = ChangeDay(
            day=whole.day,
            note=whole.note or later.note,
            moved=kept,
            new=[at for at in dict.fromkeys((*whole.new, *later.new)) if at not in went],
            gone=[at for at in dict.fromkeys((*whole.gone, *later.gone)) if at not in came],
        )
    return whole


def _read(catalog: Catalog) -> tuple[SourceFile, list[ChangeDay], list[Finding]]:
    path = catalog.root / FILE
    label = f"{catalog.label}/{FILE}" if catalog.label else FILE
    if not path.exists():
        return SourceFile(path, label, ""), [], []
    source, data, found = yaml_file.read(path, label, _MOST_BYTES)
    if found:
        return source, [], found
    try:
        return source, ChangeRecord.model_validate_json(json.dumps(data)).days, []
    except ValidationError as error:
        return source, [], complaints.findings(error, source, ChangeRecord, data)


def _day(day: ChangeDay) -> Data:
    told: dict[str, Data] = {"day": day.day.isoformat()}
    if day.note:
        told["note"] = day.note
    lists: dict[str, list[Data]] = {
        "moved": [_move(move) for move in day.moved],
        "new": list(day.new),
        "gone": list(day.gone),
    }
    return told | {name: items for name, items in lists.items() if items}


def _move(move: Move) -> Data:
    return {
        "at": move.at,
        "outcome": move.outcome,
        **({"relative to": move.relative_to} if move.relative_to else {}),
        "first": move.first,
        "second": move.second,
        "before": _saying(move.before),
        "now": _saying(move.now),
        **({"because": tuple(move.because)} if move.because else {}),
    }


def _saying(told: Saying) -> Data:
    return {
        "sentence": told.sentence,
        "answers": [tuple(answer) for answer in told.answers],
        **({"rests on": tuple(told.rests_on)} if told.rests_on else {}),
    }


def _replace(catalog: Catalog, days: Sequence[ChangeDay]) -> None:
    """Write the file whole or not at all."""
    target, text = catalog.root / FILE, HEADER + dump({"days": [_day(day) for day in days]})
    if target.is_symlink():
        raise OSError(f"{FILE} is a link; make it a plain file")
    if target.exists() and target.read_text(encoding="utf-8") == text:
        return
    put(target, text)
