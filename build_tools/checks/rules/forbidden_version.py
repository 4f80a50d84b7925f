"""An arm that our own cue forbids is no evidence on our exercise.

Why: a page that tells a client to point the toes ahead must not praise the exercise for
what it did with the leg turned out.

Instead: `forbidden_by:` repeats a cue of the exercise word for word (its `do:`, or a
fault's `say:`). Take the study out of the claim's `cites:`, or change the cue.

Fails: studies/dusk2032.yaml 2:77
    arms:
      slumped: {exercise: crate-curl, called: slumped crate curl, forbidden_by: Sit.}
      standing: {exercise: cable-curl, called: standing cable curl}
      nothing: {called: no training}

Fails: exercises/crate-curl.yaml 6:13
    emphasis:
      - part: [lantern/long-head]
        outcome: growth
        more_than: {exercise: cable-curl}
        because: The bent hip lengthens it.
        cites: [{key: dusk2032, at: abstract}]

Passes: studies/wick2030.yaml
    arms:
      seated: {exercise: crate-curl, called: seated crate curl}
      standing: {exercise: cable-curl, called: standing cable curl}
"""

from collections.abc import Iterator

from build_tools.catalog.entries import Claim, Exercise, Study
from build_tools.checks.rule import Context, Problem, suggest


def check(context: Context) -> Iterator[Problem]:
    """Quotes that no cue bears out, and claims that rest on what a cue forbids."""
    catalog = context.catalog
    for study in catalog.studies.values():
        for id, arm in study.data.arms.items():
            exercise = catalog.exercises.get(arm.exercise or "")
            if (
                arm.forbidden_by
                and exercise
                and arm.forbidden_by not in (said := _instructions(exercise.data))
            ):
                yield Problem(
                    study.spot("arms", id, "forbidden_by"),
                    f"no cue of `{exercise.id}` says this",
                    suggest(
                        arm.forbidden_by,
                        said,
                        "repeat a cue's `do:` or a fault's `say:` word for word, or leave it out",
                    ),
                )
    for statement, claim in context.claims:
        for number, citation in enumerate(claim.cites):
            cited = catalog.studies.get(citation.key)
            for exercise_id, cue in (
                _forbidden(cited.data, claim, statement.entry.id) if cited else ()
            ):
                yield Problem(
                    statement.spot("cites", number),
                    f"`{citation.key}` did `{exercise_id}` in a way that its own cue forbids: {cue}",
                    "cite another study, take the claim out, or change the cue",
                )


def _instructions(exercise: Exercise) -> list[str]:
    cues = [
        cue.do
        for group in (exercise.cues.set_up, exercise.cues.move, exercise.cues.check)
        for cue in group
    ]
    return cues + [fault.say for fault in exercise.faults]


def _forbidden(study: Study, claim: Claim, own: str) -> Iterator[tuple[str, str]]:
    """The claim's exercises that the study did only in a forbidden way, each with the cue."""
    for exercise in dict.fromkeys((own, claim.comparator.exercise or own)):
        arms = [arm for arm in study.arms.values() if arm.exercise == exercise]
        if arms and all(arm.forbidden_by for arm in arms):
            yield exercise, next(arm.forbidden_by for arm in arms if arm.forbidden_by).rstrip(".")
