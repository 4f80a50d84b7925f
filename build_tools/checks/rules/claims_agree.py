"""No two claims say opposite things of one contrast.

Why: the comparison is one fact that two exercises share. If one page says more
and the other says similar, a reader who opens both can trust neither.

Instead: decide by the sources which direction stands, and write it on both pages
or on one. What a study found against a claim belongs in its study file, and the
reason to keep the claim in `disputed:`.

Fails: exercises/crate-curl.yaml 2:12
    emphasis:
      - part: [lantern/short-head]
        outcome: activation
        more_than: {exercise: cable-curl}
        because: The seat steadies the hip.
        common_practice: Commonly taught in Lantern Yard.

Fails: exercises/crate-curl.yaml 7:12
    emphasis:
      - part: [lantern/long-head]
        outcome: growth
        more_than: {part: lantern/short-head}
        because: The bent hip lengthens it.
        common_practice: Commonly taught in Lantern Yard.
      - part: [lantern/short-head]
        outcome: growth
        more_than: {part: lantern/long-head}
        because: The bent knee shortens it.
        common_practice: Commonly taught in Lantern Yard.

Passes: exercises/crate-curl.yaml
    emphasis:
      - part: [lantern/short-head]
        outcome: activation
        similar_to: {exercise: cable-curl}
        because: The part does not cross the hip.
        cites: [{key: glow2031, at: Table 2}]
"""

from collections.abc import Iterator

from build_tools.checks.contrasts import StatedClaim, reported_direction, stated
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Claims that go another way than an earlier claim about the same contrast."""
    first: dict[tuple[object, ...], StatedClaim] = {}
    for claim in stated(context):
        other = first.setdefault(claim.contrast, claim)
        if other.direction != claim.direction:
            shown = reported_direction(context, claim)
            # The one that the studies do not say is told, whichever file comes first.
            wrong, kept = (
                (other, claim) if shown and shown.direction == claim.direction else (claim, other)
            )
            spot = kept.statement.spot("part", kept.part)
            against = (
                f", and {', '.join(f'`{key}`' for key in shown.keys)} reports that direction"
                if (shown and shown.direction == kept.direction)
                else ""
            )
            yield Problem(
                wrong.statement.spot("part", wrong.part),
                f"this claim contradicts the one at {spot.file}:{spot.line}{against}",
                "turn this claim round, or correct the study"
                if against
                else "decide by the sources which direction stands, and write it in both places",
            )
