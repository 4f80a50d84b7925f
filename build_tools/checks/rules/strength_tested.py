"""A strength result names the test that was made.

Why: a maximum in the bench press is not the strength of the chest. Without the test a
reader takes a whole lift for a part of a muscle.

Instead: add `strength_test:` with the test in a few words, such as one-repetition
maximum of the leg press.

Fails: studies/wick2030.yaml 2:5
    results:
      - parts: [lantern]
        measured: whole
        measure: one-repetition-maximum
        unit: "%"
        at: abstract
        values: {seated: {change_percent: 14}, standing: {change_percent: 9}}

Passes: studies/wick2030.yaml
    results:
      - parts: [lantern]
        measured: whole
        measure: one-repetition-maximum
        strength_test: one-repetition maximum of the crate curl
        unit: "%"
        at: abstract
        values: {seated: {change_percent: 14}, standing: {change_percent: 9}}
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Strength without its test."""
    for study in context.catalog.studies.values():
        for index, result in enumerate(study.data.results):
            if context.outcomes.get(result.measure) == "strength" and not result.strength_test:
                yield Problem(
                    study.spot("results", index),
                    "this strength result does not name its test",
                    "add `strength_test:`, e.g. one-repetition maximum of the leg press",
                )
