"""An exercise in which nothing moves says that it is a hold, and no other does.

Why: the same angles at the start and the end are either a hold or an angle that was
forgotten, and the figure looks the same.

Instead: give the angles of both ends, or add `hold: true` to `movement:`.

Fails: exercises/crate-curl.yaml 1:1
    movement:
      position: seated
      from: {hip: 90, knee: 20}
      to: {hip: 90, knee: 20}
      load: {kind: machine, at: ankle}

Fails: exercises/crate-curl.yaml 6:9
    movement:
      position: seated
      from: {hip: 90, knee: 0}
      to: {hip: 90, knee: 100}
      load: {kind: machine, at: ankle}
      hold: true

Passes: exercises/crate-curl.yaml
    movement:
      position: seated
      from: {hip: 90, knee: 20}
      to: {hip: 90, knee: 20}
      load: {kind: machine, at: ankle}
      hold: true
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem
from build_tools.movement.posture.limits import moving_joints


def check(context: Context) -> Iterator[Problem]:
    """Stillness that is not said, and holds that move."""
    for exercise in context.catalog.exercises.values():
        movement = exercise.data.movement
        moving = moving_joints(movement)
        if not moving and not movement.hold:
            yield Problem(
                exercise.spot("movement", key=True),
                "nothing moves: the start and the end have the same angles",
                "give the angles of both ends, or add `hold: true` if the posture is held",
            )
        elif moving and movement.hold:
            yield Problem(
                exercise.spot("movement", "hold"),
                f"this is said to be a hold, and moves: {', '.join(sorted(moving))}",
                "give the same angles at both ends, or remove `hold:`",
            )
