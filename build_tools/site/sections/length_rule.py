"""What length under load seems to add to a muscle's growth, held against what was published over all muscles."""

from __future__ import annotations

from dataclasses import dataclass

from ...evidence.wording import rule_of_thumb
from ..context import Link, PageContext


@dataclass(frozen=True)
class LengthRule:
    """The rule of thumb of one muscle."""

    says: str
    held: str
    """What was published over all muscles, and what these studies change of it."""
    studies: list[Link]
    methods: str


def length_rule(desk: PageContext, muscle: str) -> LengthRule | None:
    """The rule of a muscle; ``None`` where no study compared lengths that the handbook knows."""
    slope = desk.shelf.conclusions.slopes.get(muscle)
    if slope is None:
        return None
    return LengthRule(
        says=rule_of_thumb.rule(slope),
        held=f"Published over all muscles, and expected before these studies: {rule_of_thumb.published(slope.prior)}.",
        studies=[desk.source(key) for key in slope.studies],
        methods=desk.href("methods.md", "length-rule"),
    )
