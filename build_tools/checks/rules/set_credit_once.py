"""A muscle is credited as a whole or by its parts, not both.

Why: the weekly count adds up credits. A set that counts for the whole muscle and
again for one of its parts would count twice.

Instead: keep the whole muscle when every part works alike, or name each part.

Fails: exercises/crate-curl.yaml 1:31
    set_credit: {lantern: direct, lantern/long-head: indirect}

Passes: exercises/crate-curl.yaml
    set_credit: {lantern/long-head: direct, lantern/short-head: indirect}
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Parts credited beside their whole muscle."""
    for exercise in context.catalog.exercises.values():
        credit = exercise.data.set_credit
        for ref in credit:
            muscle, _, part = ref.partition("/")
            if part and muscle in credit:
                yield Problem(
                    exercise.spot("set_credit", ref, key=True),
                    f"`{ref}` is credited here and again in `{muscle}`",
                    f"remove `{muscle}` and name every part, or remove this part",
                )
