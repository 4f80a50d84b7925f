"""How likely an answer is, and what one more study would make of it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from ...english import upper_first
from ...evidence.claims.conclusions import Comparison
from ...evidence.model.change import FurtherStudy
from ...evidence.terms import EvidenceFinding, Question, Side
from ...evidence.threshold import below
from ...evidence.wording.amounts import amount, in_words, percent
from ..context import RenderContext


@dataclass(frozen=True)
class OutlookView:
    """What one more study would change, and what it would say for each result."""

    says: str
    people: list[int]
    """Sizes of the further study, one for each column."""
    rows: list[tuple[str, list[str]]]
    """What it might find, and what would then be concluded; empty where that is always the same."""


def view(shelf: RenderContext, comparison: Comparison) -> OutlookView | None:
    """The outlook of a comparison in words; ``None`` where nothing was weighed."""
    found = comparison.outlook
    if found is None:
        return None
    question = comparison.question
    told_apart = len({(study.finding, study.side) for study in found.studies}) > 1
    sizes = [
        (n, list(group)) for n, group in groupby(found.studies, key=lambda study: study.people)
    ]
    return OutlookView(
        says=says(comparison),
        people=[n for n, _ in sizes],
        rows=[
            (_result(shelf, question, same[0].ratio), [_then(shelf, question, s) for s in same])
            for same in zip(*(studies for _, studies in sizes), strict=True)
            if told_apart
        ],
    )


def says(comparison: Comparison) -> str:
    """How likely one more study changes the answer, and how large one would have to be to settle it."""
    found = comparison.outlook
    assert found is not None
    told = f"One more study of {found.same} people would change this answer with a chance of {_chance(found.chance)}."
    if comparison.finding in ("found", "alike"):
        return told
    return f"{told} {upper_first(settles(comparison))}."


def settles(comparison: Comparison) -> str:
    """``a study of about 40 people would settle it``; for what was only measured with more or as a whole, what is missing."""
    found = comparison.outlook
    assert found is not None
    if comparison.finding in ("found", "alike"):
        return f"another study of about {found.same} people would show whether it stands"
    if comparison.measured != "part":
        return "what is missing is a study that measures it alone"
    if found.people is None:
        if found.more is None:
            return "not even 20 more studies like these would settle it"
        return f"about {in_words(found.more)} more studies of {found.same} people would settle it"
    return f"a study of about {found.people} people would settle it"


def briefly(comparison: Comparison) -> str:
    """What would settle it in a few words; of what is found, how likely another study changes it."""
    found = comparison.outlook
    assert found is not None
    if comparison.finding in ("found", "alike"):
        return f"{_chance(found.chance)} chance that another study changes it"
    return settles(comparison)


def chances(shelf: RenderContext, comparison: Comparison) -> str | None:
    """How likely the likelier side is ahead at all, and by what matters; ``None`` where nothing was weighed."""
    if comparison.more is None or comparison.matters is None:
        return None
    first = not below(comparison.more, 0.5)  # at a half the last digit of a machine names neither
    side: Side = "more" if first else "less"
    ahead = _chance(comparison.more if first else 1 - comparison.more)
    margin = percent(shelf.margin(comparison.question.outcome))
    return (
        f"The chance that {_ahead(shelf, comparison.question, side)} is ahead at all is {ahead}; "
        f"by {margin} or more, {_chance(comparison.matters)}."
    )


def _chance(x: float) -> str:
    """Whole per cent, never quite none or all."""
    if x < 0.01:
        return "under 1%"
    return "over 99%" if x > 0.99 else f"{x:.0%}"


def _ahead(shelf: RenderContext, question: Question, side: Side) -> str:
    """The side that is ahead: an exercise, or a part within one."""
    id = question.first if side == "more" else question.second
    return shelf.names.part(id) if question.within else shelf.names.exercise(id)


def _result(shelf: RenderContext, question: Question, ratio: float) -> str:
    if ratio == 1:
        return "no difference"
    ahead = _ahead(shelf, question, "more" if ratio > 1 else "less")
    preposition = "for" if question.within else "with"
    return f"{amount(max(ratio, 1 / ratio))} {preposition} {ahead}"


def _then(shelf: RenderContext, question: Question, study: FurtherStudy) -> str:
    called: dict[EvidenceFinding, str] = {
        "found": "a difference",
        "hinted": "a lean",
        "unclear": "nothing clear",
        "alike": "alike",
    }
    told = called.get(study.finding, study.finding)
    return f"{told}: {_ahead(shelf, question, study.side)}" if study.side else told
