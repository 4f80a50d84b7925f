"""Every caution names what it concerns, from the list in vocabulary.yaml.

Why: Find leaves exercises out by these words. A caution without them is read by
nobody who looks for an exercise that suits a sore back.

Instead: add `concerns:` with one or more ids; add an id to the vocabulary if none fits.

Fails: exercises/crate-curl.yaml 2:5
    cautions:
      - who: Anyone with a sore knee today.
        instead: Bend only as far as it feels fine.
        stop_if: The knee hurts sharply or gives way.
        ask: Ask a licensed physiotherapist or doctor.
        common_practice: The usual care with a painful joint.

Passes: exercises/crate-curl.yaml
    cautions:
      - who: Anyone with a sore knee today.
        concerns: [knee]
        instead: Bend only as far as it feels fine.
        stop_if: The knee hurts sharply or gives way.
        ask: Ask a licensed physiotherapist or doctor.
        common_practice: The usual care with a painful joint.
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Cautions that nothing can be found or avoided by."""
    vocabulary = context.catalog.vocabulary
    if vocabulary is None or not vocabulary.data.concerns:
        return
    for exercise in context.catalog.exercises.values():
        for index, caution in enumerate(exercise.data.cautions):
            if not caution.concerns:
                yield Problem(
                    exercise.spot("cautions", index),
                    "this caution does not say what it concerns",
                    f"add `concerns:` with one or more of: {', '.join(vocabulary.data.concerns)}",
                )
