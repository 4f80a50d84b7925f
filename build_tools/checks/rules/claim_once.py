"""An exercise makes each claim once.

Why: a claim repeated reads as more support, and the two copies drift apart as
studies are added to one of them.

Instead: keep one, with the citations of both.

Fails: exercises/crate-curl.yaml 7:12
    emphasis:
      - part: [lantern/long-head]
        outcome: growth
        more_than: {part: lantern/short-head}
        because: The bent hip lengthens it.
        common_practice: Commonly taught in Lantern Yard.
      - part: [lantern/short-head]
        outcome: growth
        less_than: {part: lantern/long-head}
        because: The bent hip does not lengthen it.
        common_practice: Commonly taught in Lantern Yard.

Passes: exercises/crate-curl.yaml
    emphasis:
      - part: [lantern/long-head]
        outcome: growth
        more_than: {part: lantern/short-head}
        because: The bent hip lengthens it.
        common_practice: Commonly taught in Lantern Yard.
      - part: [lantern/long-head]
        outcome: activation
        more_than: {part: lantern/short-head}
        because: The bent hip lengthens it.
        common_practice: Commonly taught in Lantern Yard.
"""

from collections.abc import Iterator

from build_tools.checks.contrasts import stated
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Second statements of the same contrast in the same direction by one exercise."""
    seen = set()
    for claim in stated(context):
        mark = (claim.statement.entry.id, claim.contrast, claim.direction)
        if mark in seen:
            yield Problem(
                claim.statement.spot("part", claim.part),
                "this exercise makes the same claim above",
                "keep one of the two, with the citations of both",
            )
        seen.add(mark)
