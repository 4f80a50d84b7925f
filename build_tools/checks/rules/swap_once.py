"""Swaps are other exercises, each named once.

Why: a swap is what a coach reaches for when the machine is taken; the exercise
itself, or one twice, wastes that look.

Instead: list each other exercise that does the same job once.

Fails: exercises/crate-curl.yaml 1:9 1:33
    swaps: [crate-curl, cable-curl, cable-curl]

Passes: exercises/crate-curl.yaml
    swaps: [cable-curl]
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Swaps that are the exercise itself, or stand twice."""
    for exercise in context.catalog.exercises.values():
        for index, id in enumerate(exercise.data.swaps):
            if id == exercise.id:
                yield Problem(
                    exercise.spot("swaps", index),
                    f"`{id}` is its own swap",
                    "remove it, or name another exercise",
                )
            elif id in exercise.data.swaps[:index]:
                yield Problem(
                    exercise.spot("swaps", index), f"`{id}` stands here a second time", "remove it"
                )
