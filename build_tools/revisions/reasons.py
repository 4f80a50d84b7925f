"""Why a statement says something else: what changed of all that stands behind it, or that only the program did.

Whether the program did is not guessed where it can be tried: today's program concludes from the old catalog. What it
then says as before, the catalog moved; what it then says as now, a rule of the program moved.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, NamedTuple

from ..committed.moves import NOT_RATED, Asked, Move, Saying, Statements
from ..english import counted, listed
from .entries import EntryChange
from .inputs import Inputs

#: What part the program has in it. ``untried``: the old catalog was not concluded from by today's program.
Part = Literal["none", "alone", "too", "untried"]
#: Fields of a reference that decide whether a study is weighed, and how it is told.
_OF_RECORD = {"notice", "read"}
#: How many numbers of a study, and how many studies, one reason names.
_NUMBERS, _STUDIES = 3, 4
RULE = "no study, convention or entry behind it changed: a rule of the program did"
_ALONE = "a rule of the program changed: from the old catalog, it says this too"
_TOO = "a rule of the program changed, too"


class MoveReason(NamedTuple):
    """One thing that changed behind a statement."""

    kind: Literal[
        "study", "reference", "convention", "entry", "vocabulary", "model", "rule", "unknown"
    ]
    says: str
    name: str = ""
    """Key of a study or reference, name of a convention, file of an entry; empty where it is not one."""


class Ground(NamedTuple):
    """What statements are explained from."""

    inputs: Inputs
    tried: Statements | None
    """What today's program says of the old catalog; ``None`` where that was not tried."""


def reasons(
    ground: Ground, asked: Asked, before: Saying, now: Saying, by_words: bool = False
) -> list[MoveReason]:
    """Why a statement moved, nearest first; never empty. ``by_words``: its answers are the same, its sentence is not."""
    part = _part(ground, asked, before, now, by_words)
    if part == "alone":
        return [MoveReason("rule", _ALONE)]
    found = list(_direct(ground.inputs, asked, before, now, by_words))
    if not found:
        found = list(_farther(ground.inputs, asked, now))
        if part == "untried" and found:
            found.append(MoveReason("rule", "or a rule of the program changed"))
    if part == "too":
        return [*found, MoveReason("rule", _TOO if found else RULE)]
    if not found:
        found = [
            MoveReason("rule", RULE)
            if part == "untried"
            else MoveReason("unknown", "something farther off in the catalog changed")
        ]
    return found


def certain(inputs: Inputs, move: Move) -> list[MoveReason]:
    """What surely changed behind a move; a rule where nothing at all did; empty where it cannot be told without trying."""
    found = list(_direct(inputs, move, move.before, move.now, by_words=False))
    if found or any(_farther(inputs, move, move.now)):
        return found
    return [MoveReason("rule", RULE)]


def _part(ground: Ground, asked: Asked, before: Saying, now: Saying, by_words: bool) -> Part:
    if ground.tried is None:
        return "untried"
    tried = ground.tried.get(asked.on(now))
    if tried is None:
        return "too"
    was, told, found = (
        side.sentence if by_words else side.answers for side in (before, now, tried.told)
    )
    if found == was:
        return "none"
    return "alone" if found == told else "too"


def _direct(
    inputs: Inputs, asked: Asked, before: Saying, now: Saying, by_words: bool
) -> Iterator[MoveReason]:
    yield from _studies(inputs, asked, before, now)
    for key in sorted({*before.rests_on, *now.rests_on}):
        record = inputs.entry("references", key)
        if record and record.fate == "changed" and record.keys & _OF_RECORD:
            told = listed([record.called[field] for field in sorted(record.keys & _OF_RECORD)])
            yield MoveReason("reference", f"references.bib, {key}: {told} changed", key)
    for leaf in inputs.conventions(asked.outcome):
        yield MoveReason(
            "convention", f"handbook.yaml: {inputs.convention(leaf)}", str(leaf.path[1])
        )
    yield from _entries(inputs, asked, now, by_words)
    if sections := inputs.words(asked.outcome):
        yield MoveReason("vocabulary", f"vocabulary.yaml: {listed(sections)} changed")
    if asked.outcome == "length":
        for path in inputs.model:
            yield MoveReason("model", f"{path} changed")


def _studies(inputs: Inputs, asked: Asked, before: Saying, now: Saying) -> Iterator[MoveReason]:
    told = set(now.rests_on)
    # Older conclusions do not say what they rest on.
    is_told = bool(before.rests_on) or all(a.certainty == NOT_RATED for a in before.answers)
    was = set(before.rests_on) if is_told else told
    parts = [answer.part for answer in now.answers]
    for key in sorted(was | told):
        change = inputs.of_study(key, asked.outcome, parts)
        if change:
            yield MoveReason("study", study(change), key)
        elif key not in was:
            yield MoveReason("study", f"{key} is weighed now", key)
        elif key not in told:
            yield MoveReason("study", f"{key} is no longer weighed", key)


def study(change: EntryChange) -> str:
    """What became of a study, with the numbers that moved."""
    if change.fate == "added":
        return f"{change.file} is new" + (f" ({', '.join(change.fields)})" if change.fields else "")
    if change.fate in ("removed", "retired"):
        return f"{change.file} was taken out"
    shown = change.numbers[:_NUMBERS] or change.fields
    more = len(change.numbers) - _NUMBERS
    return f"{change.file} changed: {'; '.join(shown)}" + (
        f"; and {counted(more, 'more number')}" if more > 0 else ""
    )


def _entries(inputs: Inputs, asked: Asked, now: Saying, by_words: bool) -> Iterator[MoveReason]:
    page = asked.page.strip("/").partition("/")[2] if asked.is_claim else ""
    number = asked.at.rpartition("-")[2]
    if page and number.isdecimal() and inputs.has_other_certainty(page, int(number)):
        yield MoveReason(
            "entry",
            f"exercises/{page}.yaml: the certainty set in claim {number} changed",
            f"exercises/{page}",
        )
    sides = [id.partition("@")[0] for id in (asked.first, asked.second)]
    for id in dict.fromkeys(sides):
        change = inputs.entry("exercises", id)
        behind = {"version_ranges"}
        behind |= {"movement"} if asked.outcome == "length" else set()
        behind |= {"name"} if by_words else set()
        if change and change.was and by_words:
            yield MoveReason("entry", f"{change.file} was {change.was}", f"exercises/{id}")
        if change and change.fate != "added" and change.keys & behind:
            kinds = [f for f in change.fields if _key(change, f) & behind]
            yield MoveReason(
                "entry", f"{change.file} changed: {', '.join(kinds)}", f"exercises/{id}"
            )
    for id in dict.fromkeys(answer.part.partition("/")[0] for answer in now.answers):
        change = inputs.entry("muscles", id)
        behind = {"parts"} if asked.outcome == "length" or by_words else set()
        behind |= {"name", "everyday"} if by_words else set()
        if change and change.keys & behind:
            told = ", ".join(change.fields)
            yield MoveReason("entry", f"{change.file} changed: {told}", f"muscles/{id}")


def _key(change: EntryChange, field: str) -> set[str]:
    return {key for key, called in change.called.items() if called == field}


def _farther(inputs: Inputs, asked: Asked, now: Saying) -> Iterator[MoveReason]:
    """Studies that are linked to it: of the same muscle, else of the same outcome, which lend each other their spread."""
    parts = [answer.part for answer in now.answers]
    near = sorted({key for part in parts for key in inputs.studies_of(asked.outcome, part)})
    if near:
        yield MoveReason("study", f"linked studies of the same muscle: {_named(inputs, near)}")
    elif far := sorted(inputs.studies_of(asked.outcome)):
        yield MoveReason(
            "study",
            f"studies of {asked.outcome} that others borrow a spread from: {_named(inputs, far)}",
        )


def _named(inputs: Inputs, keys: list[str]) -> str:
    words = {"added": "new", "removed": "taken out", "retired": "taken out"}
    told = [f"{key} ({words.get(inputs.studies[key].fate, 'changed')})" for key in keys[:_STUDIES]]
    more = len(keys) - _STUDIES
    return ", ".join(told) + (f" and {more:,} more" if more > 0 else "")
