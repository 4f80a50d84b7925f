"""Emphasis claims brought into one form, so that claims about the same contrast can be found."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, NamedTuple

from build_tools.catalog.entries import Claim, Result, Study
from build_tools.catalog.walk import Statement

from .rule import Context

Direction = Literal["more_than", "less_than", "similar_to"]
_OPPOSITE: dict[Direction, Direction] = {
    "more_than": "less_than",
    "less_than": "more_than",
    "similar_to": "similar_to",
}

_STATED: dict[str, Direction] = {"of": "more_than", "against": "less_than", "neither": "similar_to"}


class ClaimSide(NamedTuple):
    """One side of a contrast."""

    exercise: str
    part: str


class StatedClaim(NamedTuple):
    """What a claim states about one part: a contrast, and the direction seen from its first side."""

    statement: Statement
    part: int
    """Index of the part in the claim's list."""
    outcome: str
    relative_to: str | None
    sides: tuple[ClaimSide, ClaimSide]
    """In sorted order, so a claim and its mirror image share one contrast."""
    direction: Direction

    @property
    def contrast(self) -> tuple[str, str | None, tuple[ClaimSide, ClaimSide]]:
        """What is contrasted, whichever way it is said to go."""
        return self.outcome, self.relative_to, self.sides


def stated(context: Context) -> Iterator[StatedClaim]:
    """Every claim of the catalog, one part at a time, in file order."""
    for statement, claim in context.claims:
        for index, part in enumerate(claim.part):
            own = ClaimSide(statement.entry.id, part)
            other = _other(claim, own)
            if own != other:
                in_order = own < other
                yield StatedClaim(
                    statement,
                    index,
                    claim.outcome,
                    claim.relative_to,
                    (own, other) if in_order else (other, own),
                    claim.direction if in_order else _OPPOSITE[claim.direction],
                )


class StudyDirection(NamedTuple):
    """The one direction that studies report of a contrast, seen from its first side, and their keys."""

    direction: Direction
    keys: list[str]


def reported_direction(context: Context, claim: StatedClaim) -> StudyDirection | None:
    """What the studies of the catalog found when they tested exactly this contrast; ``None`` when they state nothing, or disagree."""
    found: dict[Direction, list[str]] = {}
    for key, study in context.catalog.studies.items():
        for result in study.data.results:
            if (
                context.outcomes.get(result.measure) != claim.outcome
                or result.relative_to != claim.relative_to
            ):
                continue
            for contrast in result.contrasts:
                first, second = (
                    _sides(study.data, result, *side)
                    for side in (
                        (contrast.of, contrast.of_part),
                        (contrast.against, contrast.against_part),
                    )
                )
                direction = _STATED.get(contrast.favours or "") if contrast.tested else None
                if direction and (claim.sides[0] in first and claim.sides[1] in second):
                    found.setdefault(direction, []).append(key)
                elif direction and (claim.sides[1] in first and claim.sides[0] in second):
                    found.setdefault(_OPPOSITE[direction], []).append(key)
    if len(found) != 1:
        return None
    ((direction, keys),) = found.items()
    return StudyDirection(direction, list(dict.fromkeys(keys)))


def _sides(study: Study, result: Result, arm: str, part: str | None) -> set[ClaimSide]:
    exercise = study.arms[arm].treatment if arm in study.arms else None
    return (
        {ClaimSide(exercise, ref) for ref in ([part] if part else result.parts)}
        if exercise
        else set()
    )


def _other(claim: Claim, own: ClaimSide) -> ClaimSide:
    comparator = claim.comparator
    return ClaimSide(comparator.exercise or own.exercise, comparator.part or own.part)
