"""A study cited for an emphasis claim measured the outcome that is claimed.

Why: growth, activation and strength are different things. The electrical signal
of one session (EMG) and the shift on a scan after one session (T2) show that a
part was driven, never that it grows more, so they cannot carry a growth claim.

Instead: claim the outcome that was measured, cite a study that measured yours, or
rest the claim on common practice.

Fails: exercises/cable-curl.yaml 6:19
    emphasis:
      - part: [lantern/short-head]
        outcome: growth
        similar_to: {exercise: crate-curl}
        because: The part does not cross the hip.
        cites: [{key: glow2031, at: Table 2}]

Passes: exercises/cable-curl.yaml
    emphasis:
      - part: [lantern/short-head]
        outcome: activation
        similar_to: {exercise: crate-curl}
        because: The part does not cross the hip.
        cites: [{key: glow2031, at: Table 2}]
"""

from collections.abc import Iterator

from build_tools.catalog.entries import Study
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Citations of studies that measured something else."""
    for statement, claim in context.claims:
        if (
            claim.outcome == "length"
        ):  # computed from the model, so a source may explain it in any way
            continue
        for index, citation in enumerate(claim.cites):
            study = context.catalog.studies.get(citation.key)
            measured = _outcomes(context, study.data) if study else set()
            if measured and claim.outcome not in measured:
                yield Problem(
                    statement.spot("cites", index, "key"),
                    f"`{citation.key}` measured {' and '.join(sorted(measured))}, which carries no claim about {claim.outcome}",
                    f"write `outcome: {min(measured)}`, cite a study that measured {claim.outcome}, or give `common_practice:`",
                )


def _outcomes(context: Context, study: Study) -> set[str]:
    """What the study measured; empty while a measure is unknown, which another rule reports."""
    found = {context.outcomes.get(result.measure) for result in study.results}
    return set() if None in found else {outcome for outcome in found if outcome}
