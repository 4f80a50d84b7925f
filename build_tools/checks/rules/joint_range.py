"""Joint angles are ones that a human joint has.

Why: one wrong sign or a slip of the pen bends a figure backwards and turns muscle
length and load into nonsense. The limits are those of clinical tables with room
for supple people.

Instead: count from the anatomical position (0), flexion positive.

Fails: exercises/crate-curl.yaml 4:23
    movement:
      position: seated
      from: {hip: 90, knee: 0}
      to: {hip: 90, knee: -100}
      load: {kind: machine, at: ankle}

Passes: exercises/crate-curl.yaml
    movement:
      position: seated
      from: {hip: 90, knee: 0}
      to: {hip: 90, knee: 100}
      load: {kind: machine, at: ankle}
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem
from build_tools.movement.posture.limits import out_of_range


def check(context: Context) -> Iterator[Problem]:
    """Angles beyond any joint."""
    for exercise in context.catalog.exercises.values():
        for path, message, help in out_of_range(exercise.data.movement):
            yield Problem(exercise.spot("movement", *path), message, help)
