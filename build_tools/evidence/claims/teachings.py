"""What is commonly taught, held against what studies found.

A teaching is a claim of common practice, or what an author notes as ``taught:`` beside a claim that cites. Only
evidence on the same outcome answers it, and only a measurement of the part itself settles it: of a whole muscle or of
several parts as one it can lean. A null that leaves a difference open is no failure.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from ...catalog.entries import Claim
from ...catalog.load import Catalog
from ..settings import Settings
from ..terms import Claimed, Question
from . import judgement, length_claims
from .conclude import claimed_of
from .conclusions import Comparison, Conclusion, Conclusions

#: What is known of a teaching on one part. ``conflict``: studies point opposite ways, each clearly. ``printed``: numbers stand side by
#: side that nobody tested. ``agrees`` and ``differs`` are a model's answers on length.
PartAnswer = Literal[
    "holds",
    "fails",
    "conflict",
    "leans",
    "leans away",
    "unclear",
    "printed",
    "untested",
    "agrees",
    "differs",
]
#: What is known of a teaching over all its parts. ``open``: tested, and still open. ``model``: no study is asked, as a model of muscle
#: lengths answers.
TeachingState = Literal["holds", "fails", "mixed", "open", "untested", "model"]
_SILENT = {"printed", "untested"}
_MODEL = {"agrees", "differs"}


@dataclass(frozen=True)
class Teaching:
    """One contrast as it is commonly taught, and what is known of it."""

    exercise: str
    index: int
    """Of the claim that it stands with, on the page of ``exercise``."""
    says: Claimed
    """What is taught of the first against the second."""
    parts: tuple[str, ...]
    comparisons: tuple[Comparison, ...]
    """One for each part."""
    answers: tuple[PartAnswer, ...]
    """One for each part."""
    also: tuple[tuple[str, int], ...] = ()
    """Exercise and index of claims that teach the same from the other side."""

    @property
    def question(self) -> Question:
        """What it speaks of, for its first part."""
        return self.comparisons[0].question

    @property
    def outcome(self) -> str:
        """What it speaks of: growth, activation, strength or length."""
        return self.question.outcome

    @property
    def state(self) -> TeachingState:
        """What is known of it over all its parts."""
        return state_of(self.answers)


def teachings(catalog: Catalog, conclusions: Conclusions, settings: Settings) -> list[Teaching]:
    """Every common teaching of the catalog, each once, in the order of its files."""
    found: dict[tuple[object, ...], Teaching] = {}
    for id, entry in catalog.exercises.items():
        for conclusion in conclusions.of(id):
            claim = entry.data.emphasis[conclusion.index]
            for teaching in _of(conclusion, claim, settings):
                key = _contrast(teaching)
                first = found.get(key)
                here = (teaching.exercise, teaching.index)
                found[key] = replace(first, also=(*first.also, here)) if first else teaching
    return list(found.values())


def _of(conclusion: Conclusion, claim: Claim, settings: Settings) -> Iterator[Teaching]:
    if claim.common_practice is not None:
        says = claimed_of(claim)
    elif claim.taught is not None:
        says = "similar" if claim.taught.says == "alike" else claim.taught.says
    else:
        return
    yield Teaching(
        exercise=conclusion.exercise,
        index=conclusion.index,
        says=says,
        parts=conclusion.parts,
        comparisons=conclusion.comparisons,
        answers=tuple(answer(says, c, settings) for c in conclusion.comparisons),
    )


def answer(says: Claimed, comparison: Comparison, settings: Settings) -> PartAnswer:
    """What is known of a teaching of ``more``, ``less`` or ``similar`` on one part."""
    outcome = comparison.question.outcome
    if outcome == "length":
        found = length_claims.judge(says, comparison, settings.margin_length).finding
        if found == "not studied":
            return "untested"
        return "agrees" if found == "found" else "differs"
    if comparison.finding == "not studied":
        return "printed" if comparison.rows else "untested"
    if comparison.conflict:
        return "conflict"
    settled = comparison.measured == "part" and comparison.path != "indirect"
    away = comparison.finding in ("found", "hinted") and comparison.side != says
    match judgement.judge(says, comparison, settings.margins[outcome]).finding:
        case "found":
            return "holds" if settled else "leans"
        case "hinted":
            return "leans"
        case "opposite":
            return "fails" if settled else "leans away"
        case "alike":
            return "fails" if settled else "unclear"
    return "leans away" if away else "unclear"


def state_of(answers: tuple[PartAnswer, ...]) -> TeachingState:
    """What parts amount to together: those that answer differently are ``mixed``, and one that nobody tested leaves the rest ``open``."""
    found = set(answers)
    told = found - _SILENT
    if not told:
        return "untested"
    if told <= _MODEL:
        return "model"
    if "conflict" in told or (len(told) > 1 and told & {"holds", "fails"}):
        return "mixed"
    if found == {"holds"}:
        return "holds"
    return "fails" if found == {"fails"} else "open"


def _contrast(teaching: Teaching) -> tuple[object, ...]:
    """The same for a teaching and its mirror image on the other exercise's page."""
    question, says = teaching.question, teaching.says
    sides = (question.first, question.second)
    if sides != tuple(sorted(sides)) and says != "similar":
        says = "less" if says == "more" else "more"
    parts = () if question.within else tuple(sorted(teaching.parts))
    return (
        tuple(sorted(sides)),
        parts,
        question.outcome,
        question.relative_to,
        question.within,
        says,
    )
