"""A range of a version starts before it ends.

Why: a muscle's mean length is reckoned over the range. The wrong way round, it would be
told of another stretch of the movement, or of none.

Instead: write [from, to] as shares of the exercise's own path, from its start (0) to its
end (1); the same number twice for a hold.

Fails: vocabulary.yaml 2:50
    versions:
      lower-half: {name: over the lower half, range: [0.5, 0]}

Fails: exercises/crate-curl.yaml 1:30
    version_ranges: {lower-half: [0.9, 0.4]}

Passes: exercises/crate-curl.yaml
    version_ranges: {lower-half: [0.2, 0.2]}
"""

from collections.abc import Iterator
from typing import Any

from build_tools.catalog.load import Loaded
from build_tools.catalog.walk import Path
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Ranges of versions that end before they start."""
    for stretch, entry, path in _stretches(context):
        first, last = stretch
        if first > last:
            yield Problem(
                entry.spot(*path),
                f"this range ends at {last:g}, before it starts at {first:g}",
                "write [from, to], shares of the path from the start (0) to the end (1) of the exercise",
            )


def _stretches(context: Context) -> Iterator[tuple[list[float], Loaded[Any], Path]]:
    if vocabulary := context.catalog.vocabulary:
        for id, version in vocabulary.data.versions.items():
            if version.range is not None:
                yield version.range, vocabulary, ("versions", id, "range")
    for exercise in context.catalog.exercises.values():
        for id, stretch in exercise.data.version_ranges.items():
            yield stretch, exercise, ("version_ranges", id)
