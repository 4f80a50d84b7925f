"""The studies cited for an emphasis claim measured its parts, on both sides of the contrast.

Why: a study of other exercises or other parts may inspire a claim but cannot test
it, and its name below the claim lends weight that it does not have.

Instead: cite studies that together measured every part in both exercises (or both
parts in this exercise), add the missing result or arm to the study file, narrow
the claim, or rest it on common practice.

Fails: exercises/crate-curl.yaml 6:5
    emphasis:
      - part: [lantern/long-head]
        outcome: activation
        more_than: {exercise: cable-curl}
        because: The bent hip lengthens it.
        cites: [{key: glow2031, at: Table 2}]

Fails: exercises/cable-curl.yaml 6:5
    emphasis:
      - part: [lantern/short-head]
        outcome: activation
        more_than: {part: lantern/long-head}
        because: The straight hip leaves the long head slack.
        cites: [{key: glow2031, at: Table 2}]

Passes: exercises/crate-curl.yaml
    emphasis:
      - part: [lantern/long-head]
        outcome: growth
        more_than: {exercise: cable-curl}
        because: The bent hip lengthens it.
        cites: [{key: wick2030, at: abstract}]
"""

from collections.abc import Iterator

from build_tools.catalog.entries import Claim, Result, Study
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Parts and exercises of a claim that its cited studies did not measure."""
    catalog = context.catalog
    # Whose arms are wrong is told beside the arm; what every claim then lacks would only hide it.
    muddled = {
        key for key, study in catalog.studies.items() if not _has_sound_arms(context, study.data)
    }
    known = set(catalog.part_refs())
    for statement, claim in context.claims:
        keys = {citation.key for citation in claim.cites}
        if claim.outcome == "length" or any(
            ("studies", key) in catalog.broken or key in muddled for key in keys
        ):
            continue
        studies = [catalog.studies[key].data for key in sorted(keys) if key in catalog.studies]
        results = [
            (study, result)
            for study in studies
            for result in study.results
            if context.outcomes.get(result.measure) == claim.outcome
        ]
        if not results:  # left to the rules on study files and outcomes
            continue
        for missing in _missing(claim, statement.entry.id, results, known):
            yield Problem(
                statement.spot("cites", key=True),
                f"no cited study measured {claim.outcome} {missing}",
                "cite a study that did, complete the study file, narrow the claim, or give `common_practice:` instead",
            )


def _has_sound_arms(context: Context, study: Study) -> bool:
    """Whether every arm's exercise and every number's arm exists."""
    exercises = [arm.exercise for arm in study.arms.values() if arm.exercise]
    return not any(context.is_absent("exercises", id) for id in exercises) and all(
        _arms(result) <= set(study.arms) for result in study.results
    )


def _missing(
    claim: Claim, own: str, results: list[tuple[Study, Result]], known: set[str]
) -> Iterator[str]:
    exercises = {own, claim.comparator.exercise or own}
    for part in [*claim.part, *filter(None, (claim.relative_to, claim.comparator.part))]:
        if part not in known:  # which is told where it stands
            continue
        bearing = [(study, result) for study, result in results if _covers(result, part)]
        if not bearing:
            yield f"of `{part}`"
            continue
        done = {
            study.arms[arm].exercise
            for study, result in bearing
            for arm in _arms(result)
            if arm in study.arms
        }
        for exercise in sorted(exercises - done):
            yield f"of `{part}` in `{exercise}`"


def _covers(result: Result, part: str) -> bool:
    """Whether the result speaks of the part, of the whole muscle around it, or of a part within it."""
    contrasted = (
        side for contrast in result.contrasts for side in (contrast.of_part, contrast.against_part)
    )
    measured = [ref for ref in (*result.parts, result.relative_to, *contrasted) if ref]
    return any(
        ref == part or ref == part.partition("/")[0] or ref.partition("/")[0] == part
        for ref in measured
    )


def _arms(result: Result) -> set[str]:
    return set(result.values) | {
        arm for contrast in result.contrasts for arm in (contrast.of, contrast.against)
    }
