"""Where both activation and growth of one pair and part were measured: whether they agree."""

from __future__ import annotations

from dataclasses import dataclass

from ...evidence.claims.conclusions import KindsCompared
from ...evidence.treatments import exercise_of
from ..context import RenderContext, once

_SAYS = {
    True: "Activation and growth agree",
    False: "Activation and growth part ways",
    None: "Activation and growth, both measured",
}


@dataclass(frozen=True)
class KindsView:
    """One pair and part."""

    says: str
    sentence: str
    apart: bool
    """Whether they point opposite ways."""


def view(found: KindsCompared) -> KindsView:
    """What is said of one."""
    return KindsView(_SAYS[found.agree], found.sentence, found.agree is False)


def of_exercise(shelf: RenderContext, id: str) -> list[KindsView]:
    """Those in which an exercise, or a version of it, is one side."""
    return [view(found) for found in _by_exercise(shelf).get(id, ())]


def of_part(shelf: RenderContext, ref: str) -> list[KindsView]:
    """Those on a part, or on a muscle as a whole."""
    return [view(found) for found in _by_part(shelf).get(ref, ())]


@once
def _by_exercise(shelf: RenderContext) -> dict[str, list[KindsCompared]]:
    found: dict[str, list[KindsCompared]] = {}
    for kinds in shelf.conclusions.kinds:
        asked = kinds.question
        for id in {exercise_of(asked.first), exercise_of(asked.second)}:
            found.setdefault(id, []).append(kinds)
    return found


@once
def _by_part(shelf: RenderContext) -> dict[str, list[KindsCompared]]:
    found: dict[str, list[KindsCompared]] = {}
    for kinds in shelf.conclusions.kinds:
        found.setdefault(kinds.question.part, []).append(kinds)
    return found
