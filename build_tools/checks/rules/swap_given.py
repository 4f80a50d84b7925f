"""Every exercise names another one that does the same job.

Why: the machine is taken, the joint is sore, the client trains at home. A page
without a swap ends there.

Instead: add `swaps:` with the exercises that a coach would reach for.

Fails: exercises/crate-curl.yaml 1:8
    swaps: []

Passes: exercises/crate-curl.yaml
    swaps: [cable-curl]
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Exercises without a swap, as soon as there is another exercise."""
    exercises = context.catalog.exercises
    for exercise in exercises.values() if len(exercises) > 1 else ():
        if not exercise.data.swaps:
            yield Problem(
                exercise.spot("swaps"),
                "this exercise has no swap",
                "add `swaps:` with one or more exercises that do the same job",
            )
