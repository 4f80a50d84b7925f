"""A claim compares two different things.

Why: an exercise that beats itself, or a part that beats itself, says nothing and
would be drawn as a comparison.

Instead: name another exercise, or a part that `part:` does not name.

Fails: exercises/crate-curl.yaml 4:27 9:23
    emphasis:
      - part: [lantern/long-head]
        outcome: growth
        more_than: {exercise: crate-curl}
        because: The bent hip lengthens it.
        common_practice: Commonly taught in Lantern Yard.
      - part: [lantern/long-head]
        outcome: growth
        more_than: {part: lantern/long-head}
        because: The bent hip lengthens it.
        common_practice: Commonly taught in Lantern Yard.

Passes: exercises/crate-curl.yaml
    emphasis:
      - part: [lantern/long-head]
        outcome: growth
        more_than: {exercise: cable-curl}
        because: The bent hip lengthens it.
        common_practice: Commonly taught in Lantern Yard.
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem

OTHER_PART = "name a part that `part:` does not hold"


def check(context: Context) -> Iterator[Problem]:
    """Claims whose two sides are the same."""
    for statement, claim in context.claims:
        exercise, part = claim.comparator.exercise, claim.comparator.part
        if exercise == statement.entry.id:
            yield Problem(
                statement.spot(claim.direction, "exercise"),
                f"`{exercise}` is compared with itself",
                "name another exercise, or compare with another part: {part: ...}",
            )
        if part in claim.part:
            yield Problem(
                statement.spot(claim.direction, "part"),
                f"`{part}` is compared with itself",
                OTHER_PART,
            )
        if claim.relative_to in claim.part:
            yield Problem(
                statement.spot("relative_to"),
                f"`{claim.relative_to}` is measured against itself",
                OTHER_PART,
            )
