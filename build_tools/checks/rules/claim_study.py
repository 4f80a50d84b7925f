"""A cited emphasis claim rests on at least one study whose numbers are in the catalog.

Why: what studies found is computed from study files. A claim that cites only prose looks
tested on the page, and nothing can test it. (Claims about muscle length are
computed from the model, so they may cite anatomy alone.)

Instead: write the study file with the numbers you read, or give the claim a
common-practice reason and keep the source for an anatomy fact.

Fails: exercises/crate-curl.yaml 6:5
    emphasis:
      - part: [lantern/long-head]
        outcome: growth
        more_than: {exercise: cable-curl}
        because: The bent hip lengthens it.
        cites: [{key: prose2029, at: p. 3}]

Passes: exercises/crate-curl.yaml
    emphasis:
      - part: [lantern/long-head]
        outcome: growth
        more_than: {exercise: cable-curl}
        because: The bent hip lengthens it.
        cites: [{key: wick2030, at: abstract}, {key: prose2029, at: p. 3}]
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Claims that cite, and cite no study with numbers."""
    for statement, claim in context.claims:
        keys = [citation.key for citation in claim.cites]
        if (
            keys
            and claim.outcome != "length"
            and all(context.is_absent("studies", key) for key in keys)
        ):
            yield Problem(
                statement.spot("cites", key=True),
                f"no cited source of this {claim.outcome} claim has a study file",
                f"add studies/{keys[0]}.yaml with its numbers, or give `common_practice:` instead of `cites:`",
            )
