"""A posture stays above the floor, and hands and feet reach their place.

Why: the figure, the muscle length and the load are computed from these angles; a
foot in the ground or a hand beside its bar shows that they are wrong.

Instead: mend the angles, or give the height of what carries the body in `support:`.

Fails: exercises/crate-curl.yaml 2:13
    movement:
      position: seated
      support: {seat: 0.1}
      from: {hip: 90, knee: 0}
      to: {hip: 90, knee: 90}
      load: {kind: machine, at: ankle}

Fails: exercises/cable-curl.yaml 5:47
    movement:
      position: standing
      from: {hip: 60, knee: 0}
      to: {hip: 0, knee: 0}
      load: {kind: free-weight, at: hand, height: 0.2}

Passes: exercises/crate-curl.yaml
    movement:
      position: seated
      support: {seat: 0.5}
      from: {hip: 90, knee: 0}
      to: {hip: 90, knee: 90}
      load: {kind: machine, at: ankle}
"""

from collections.abc import Iterator

from build_tools.catalog.entries import Exercise, Vocabulary
from build_tools.catalog.entry_memory import once_per_entry
from build_tools.catalog.load import Loaded
from build_tools.checks.rule import Context, Problem
from build_tools.movement.posture.limits import impossible, placeable


def check(context: Context) -> Iterator[Problem]:
    """Bodies in the floor, hands and feet out of place."""
    vocabulary = context.catalog.vocabulary
    if vocabulary is None:
        return
    for exercise in context.catalog.exercises.values():
        yield from _misplaced(exercise, vocabulary)


@once_per_entry
def _misplaced(exercise: Loaded[Exercise], vocabulary: Loaded[Vocabulary]) -> list[Problem]:
    movement = exercise.data.movement
    if not placeable(movement, vocabulary.data):
        return []
    return [
        Problem(exercise.spot("movement", *path), message, help)
        for path, message, help in impossible(movement, vocabulary.data)
    ]
