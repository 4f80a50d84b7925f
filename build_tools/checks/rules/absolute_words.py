"""No text promises more than evidence can: no best, perfect, proven, guaranteed or safe.

Why: one study can overturn a superlative, and no exercise is safe for everybody. A
client who is promised safety stops listening to pain.

Instead: say what is more, than what, and for whom. `always` and `never` may stand in
an instruction (never bounce), not in a reason or a finding.

Fails: exercises/crate-curl.yaml 4:14 12:14
    emphasis:
      - part: [lantern/long-head]
        outcome: growth
        because: This is the best curl for it.
        more_than: {exercise: cable-curl}
        common_practice: Commonly taught in Lantern Yard.
    cautions:
      - who: Anyone with a sore knee today.
        instead: Never bounce.
        ask: Ask a licensed physiotherapist or doctor.
        common_practice: The usual care with a painful joint.
        stop_if: Bending is safe until the knee hurts.

Passes: exercises/crate-curl.yaml
    emphasis:
      - part: [lantern/long-head]
        outcome: growth
        because: The bent hip lengthens it more than a straight one.
        more_than: {exercise: cable-curl}
        common_practice: Commonly taught in Lantern Yard.
"""

import re
from collections.abc import Iterator
from typing import Any

from build_tools.catalog.entries import Claim, Exercise, Muscle, Study
from build_tools.catalog.entry_memory import once_per_entry
from build_tools.catalog.load import Loaded
from build_tools.catalog.walk import Path, client_texts, statements_of, yaml_entries
from build_tools.checks.rule import Context, Problem

#: Word -> what to write instead.
ABSOLUTE = {
    "best": "say what is more, and than what",
    "perfect": "say what it should look like",
    "perfectly": "say how",
    "proven": "say what was found",
    "proves": "write `suggests` or `found`",
    "guaranteed": "say what often happens",
    "guarantees": "say what often happens",
    "safe": "say who should take care and when to stop",
    "safest": "say who should take care",
    "risk-free": "say who should take care",
    "painless": "say when to stop",
    "cures": "leave treatment to licensed professionals",
    "always": "say when it holds",
    "never": "say when it does not hold",
}
#: These two are plain speech in an instruction to a client.
IN_INSTRUCTIONS = {"always", "never"}
#: Where a client is told what to do, or a coach what to look for.
_TOLD = ("do", "see", "say", "instead", "stop_if", "afterwards", "ask")
_WORDS = re.compile(rf"\b({'|'.join(ABSOLUTE)})\b")


def check(context: Context) -> Iterator[Problem]:
    """Texts with a word that promises too much."""
    for entry in yaml_entries(context.catalog):
        yield from _promises(entry)


@once_per_entry
def _promises(entry: Loaded[Any]) -> list[Problem]:
    problems = []
    for path, text in _texts(entry):
        instruction = path[-1] in _TOLD and path[0] in ("cues", "faults", "cautions")
        for word in dict.fromkeys(_WORDS.findall(text.lower())):
            if not (instruction and word in IN_INSTRUCTIONS):
                said = f"`{word}` promises more than evidence can"
                problems.append(Problem(entry.spot(*path), said, ABSOLUTE[word]))
    return problems


def _texts(entry: Loaded[Any]) -> Iterator[tuple[Path, str]]:
    match entry.data:
        case Exercise():
            yield from client_texts(entry.data)
        case Muscle():
            yield ("summary",), entry.data.summary
        case Study():
            yield ("says",), entry.data.says
    for statement in statements_of(entry):
        name = (
            "because"
            if isinstance(statement.basis, Claim)
            else "say"
            if statement.called == "fact"
            else ""
        )
        for key in filter(None, (name, "common_practice")):
            if text := getattr(statement.basis, key):
                yield (*statement.path, key), text
