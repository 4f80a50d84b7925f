"""A standing person would not fall over.

Why: where the weight of the body falls far beyond the feet, the angles of hip, knee
and ankle do not fit together, even if each of them is possible.

Instead: mend the angles. What holds a body beside the floor (cable, band, machine) is
not judged, nor are the moments between two key frames, when a step may fall.

Fails: exercises/cable-curl.yaml 2:13
    movement:
      position: standing
      from: {hip: 0, knee: 0}
      to: {hip: 0, knee: 40}
      load: {kind: free-weight, at: hand}

Passes: exercises/cable-curl.yaml
    movement:
      position: standing
      from: {hip: 0, knee: 0}
      to: {hip: 80, knee: 20}
      load: {kind: free-weight, at: hand}
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem
from build_tools.movement.posture.limits import placeable, unbalanced


def check(context: Context) -> Iterator[Problem]:
    """Stands that would topple."""
    vocabulary = context.catalog.vocabulary
    if vocabulary is None:
        return
    for exercise in context.catalog.exercises.values():
        if placeable(exercise.data.movement, vocabulary.data):
            for path, message, help in unbalanced(exercise.data.movement, vocabulary.data):
                yield Problem(exercise.spot("movement", *path), message, help)
