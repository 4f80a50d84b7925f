"""Statements of an older state under the ids that their exercises, muscles and studies have now."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from ..committed.moves import (
    NO_SIDE,
    Answered,
    Asked,
    Moves,
    Saying,
    Statements,
    ToldStatement,
    differing_files,
    moves,
    statements,
)
from ..evidence.treatments import pair_anchor

_OTHER_SIDE = {"more": "less", "less": "more", NO_SIDE: NO_SIDE}


class Renames(NamedTuple):
    """Former id -> present id, of each kind."""

    exercises: Mapping[str, str]
    muscles: Mapping[str, str]
    sources: Mapping[str, str]


NONE_RENAMED = Renames({}, {}, {})


def compare(
    before: Mapping[str, str | None],
    now: Mapping[str, str | None],
    renames: Renames = NONE_RENAMED,
) -> Moves:
    """What moved between two states of the committed conclusions (path -> text); a statement of a renamed entry is the same one."""
    paths = differing_files(before, now)
    told = statements(now, paths)
    return moves(under_present_ids(statements(before, paths), told, renames), told)


def under_present_ids(old: Statements, new: Statements, renames: Renames) -> Statements:
    """``old`` as if the entries had had their present ids; a pair stands in the order that ``new`` has it in."""
    if not any(renames):
        return old
    found: Statements = {}
    for one in old.values():
        told = _renamed(one, renames)
        if told.key not in new and not told.asked.is_claim:
            other = _turned(told)
            told = other if other.key in new else told
        found.setdefault(told.key, told)
    return found


def _renamed(one: ToldStatement, renames: Renames) -> ToldStatement:
    asked, told = one.asked, one.told

    def exercise(id: str) -> str:
        base, at, version = id.partition("@")
        return f"{renames.exercises.get(base, part(base))}{at}{version}"

    def part(ref: str) -> str:
        muscle, slash, rest = ref.partition("/")
        return f"{renames.muscles.get(muscle, muscle)}{slash}{rest}"

    first, second = exercise(asked.first), exercise(asked.second)
    _, room, id = asked.page.rstrip("/").split("/", 2)
    place = (
        asked.at.partition("#")[2] if asked.is_claim else pair_anchor(asked.outcome, first, second)
    )
    page = exercise(id) if room == "exercises" else part(id)
    return ToldStatement(
        Asked.model_validate(
            {
                "at": f"/{room}/{page}/#{place}",
                "outcome": asked.outcome,
                "relative to": asked.relative_to and part(asked.relative_to),
                "first": first,
                "second": second,
            }
        ),
        Saying.model_validate(
            {
                "sentence": told.sentence,
                "answers": [answer._replace(part=part(answer.part)) for answer in told.answers],
                "rests on": sorted(renames.sources.get(key, key) for key in told.rests_on),
            }
        ),
    )


def _turned(one: ToldStatement) -> ToldStatement:
    asked = one.asked
    anchor = pair_anchor(asked.outcome, asked.second, asked.first)
    turned = {"first": asked.second, "second": asked.first, "at": f"{asked.page}#{anchor}"}
    answers = [
        Answered(
            answer.part, answer.finding, _OTHER_SIDE.get(answer.side, answer.side), answer.certainty
        )
        for answer in one.told.answers
    ]
    return ToldStatement(
        asked.model_copy(update=turned), one.told.model_copy(update={"answers": answers})
    )
