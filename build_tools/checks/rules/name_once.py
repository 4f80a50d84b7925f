"""No two exercises share a name, and no exercise lists a name twice.

Why: a coach who searches for a name must land on one page, and a client who reads
it must get the one movement that was meant.

Instead: rename one of them by what differs (equipment, posture, side), or remove the
other name from the exercise it fits less.

Fails: exercises/crate-curl.yaml 1:7 2:25
    name: Standing cable-curl
    also_called: [Box curl, box curl]

Passes: exercises/crate-curl.yaml
    name: Crate curl
    also_called: [box curl]
"""

from collections.abc import Iterator
from typing import Any

from build_tools.catalog.load import Loaded
from build_tools.catalog.walk import Path
from build_tools.checks.names import exercise_names, plain
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Names that are taken already."""
    owners: dict[str, tuple[Loaded[Any], Path]] = {}
    for name, exercise, path in exercise_names(context.catalog):
        owner, first = owners.setdefault(plain(name), (exercise, path))
        if (owner, first) == (exercise, path):
            continue
        if owner is exercise:
            yield Problem(
                exercise.spot(*path),
                f"this exercise has the name `{name}` already",
                "remove it here",
            )
        else:
            other = owner.spot(*first)
            yield Problem(
                exercise.spot(*path),
                f"the name `{name}` of `{exercise.id}` is taken by `{owner.id}` at {other.file}:{other.line}",
                "in the file that you changed, name what differs (equipment, posture, side), or keep the name for one of the two",
            )
