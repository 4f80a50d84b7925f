"""No two exercises have names that differ only by spacing, word order, a plural or a slip.

Why: such a pair is nearly always one exercise entered twice, and its numbers are
then split between two pages.

Instead: merge the two files and keep one id (see moved.yaml), or name what really
differs: seated and standing, half and full.

Fails: exercises/crate-curl.yaml 1:7
    name: Standing cabel curls

Fails: exercises/curls-crate.yaml 1:1
    name: Lamp press
    also_called: []

Passes: exercises/crate-curl.yaml
    name: Seated cable curl
"""

from collections.abc import Iterator

from build_tools.checks.names import blurred, plain
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Pairs of exercises that are hard to tell apart, each once."""
    exercises = context.catalog.exercises
    names = {id: exercise.data.name for id, exercise in exercises.items()}
    paired: set[tuple[str, str]] = set()
    for called, path in ((names, ("name",)), ({id: id for id in exercises}, ())):
        first: dict[str, str] = {}
        for id, name in called.items():
            for other in {first.setdefault(form, id) for form in blurred(name)} - {id}:
                if (id, other) not in paired and plain(called[other]) != plain(name):
                    paired.add((id, other))
                    yield Problem(
                        exercises[id].spot(*path),
                        f"`{name}` is hard to tell from `{called[other]}`",
                        "merge the two, or name what really differs",
                    )
