"""Emphasis claims brought into one form, so that claims about the same contrast can be found."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, NamedTuple

from build_tools.catalog.entries import Claim
from build_tools.catalog.walk import Statement

from .rule import Context

Direction = Literal["more_than", "less_than", "similar_to"]
_OPPOSITE: dict[Direction, Direction] = {"more_than": "less_than", "less_than": "more_than", "similar_to": "similar_to"}


class Side(NamedTuple):
    """One side of a contrast."""

    exercise: str
    part: str


class Stated(NamedTuple):
    """What a claim states about one part: a contrast, and the direction seen from its first side."""

    statement: Statement
    part: int
    """Index of the part in the claim's list."""
    outcome: str
    relative_to: str | None
    sides: tuple[Side, Side]
    """In sorted order, so a claim and its mirror image share one contrast."""
    direction: Direction

    @property
    def contrast(self) -> tuple[str, str | None, tuple[Side, Side]]:
        """What is contrasted, whichever way it is said to go."""
        return self.outcome, self.relative_to, self.sides


def stated(context: Context) -> Iterator[Stated]:
    """Every claim of the catalog, one part at a time, in file order."""
    for statement, claim in context.claims:
        for index, part in enumerate(claim.part):
            own = Side(statement.entry.id, part)
            other = _other(claim, own)
            if own != other:
                in_order = own < other
                yield Stated(statement, index, claim.outcome, claim.relative_to, (own, other) if in_order else (other, own),
                             claim.direction if in_order else _OPPOSITE[claim.direction])


def _other(claim: Claim, own: Side) -> Side:
    comparator = claim.comparator
    return Side(comparator.exercise or own.exercise, comparator.part or own.part)
