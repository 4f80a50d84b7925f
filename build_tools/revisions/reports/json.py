"""For programs: one JSON object whose shape is stable, with everything that differs.

    {
      "version": 1,                  raised when a key changes its meaning or goes
      "before": "main (...)", "now": "...",
      "notes": [],                   what could not be compared
      "addresses": {"dying": [{"address": "...", "remedy": "..."}], "new": []},
      "moved": [
        {"at": "/exercises/...#claim-1", "outcome": "growth", "relative_to": null,
         "first": "...", "second": "...",
         "way": "turned",            or firmer, weaker, newly tested, otherwise
         "before": {"sentence": "...", "answers": [["part", "finding", "side", "certainty"]],
                    "rests_on": []},
         "now": {},                  the same keys
         "why": [{"kind": "study", "says": "...", "name": "its key, or empty"}]}
      ],                             kinds: study, reference, convention, entry, vocabulary, model, rule, unknown
      "reworded": [],                as moved, without "way": the same answer in another sentence
      "statements": {"new": [], "gone": []},      addresses
      "entries": [
        {"kind": "exercises",        or muscles, studies, references
         "fate": "renamed",          or added, changed, retired, removed
         "id": "...", "name": "...", "was": null, "successor": null,
         "fields": [], "numbers": [],
         "differs": [{"path": ["cues", "move", 0, "do"], "before": "...", "now": "..."}]}
      ],
      "files": [{"path": "handbook.yaml", "told": []}],
      "program": []                  files of the program that changed, in the same repository
    }

Keys may be added; readers ignore those they do not know.
"""

from __future__ import annotations

import json
from typing import Any

from ...committed.moves import Asked, Saying
from ..difference import CatalogDifference
from ..entries import EntryChange
from ..reasons import MoveReason

VERSION = 1


def render(found: CatalogDifference, colour: bool) -> str:
    """The whole difference, ASCII only."""
    told = {
        "version": VERSION,
        "before": found.before.label,
        "now": found.now.label,
        "notes": found.notes,
        "addresses": {
            "dying": [{"address": one.address, "remedy": one.remedy} for one in found.dying],
            "new": found.new_addresses,
        },
        "moved": [
            _statement(one.move, one.move.before, one.move.now, one.why) | {"way": one.move.way}
            for one in found.moved
        ],
        "reworded": [
            _statement(one.reworded.asked, one.reworded.before, one.reworded.now, one.why)
            for one in found.reworded
        ],
        "statements": {"new": found.new, "gone": found.gone},
        "entries": [_entry(change) for change in found.entries],
        "files": [{"path": file.path, "told": file.told} for file in found.files],
        "program": found.program,
    }
    return json.dumps(told, indent=2) + "\n"


def _statement(asked: Asked, before: Saying, now: Saying, why: list[MoveReason]) -> dict[str, Any]:
    return {
        "at": asked.at,
        "outcome": asked.outcome,
        "relative_to": asked.relative_to,
        "first": asked.first,
        "second": asked.second,
        "before": before.model_dump(),
        "now": now.model_dump(),
        "why": [reason._asdict() for reason in why],
    }


def _entry(change: EntryChange) -> dict[str, Any]:
    return {
        "kind": change.kind,
        "fate": change.fate,
        "id": change.id,
        "name": change.name,
        "was": change.was,
        "successor": change.successor,
        "fields": change.fields,
        "numbers": change.numbers,
        "differs": [leaf._asdict() for leaf in change.leaves],
    }
