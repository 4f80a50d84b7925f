"""Every key frame names the same joints, and the view can show them.

Why: a joint that only one key frame names would jump from its default, and a joint
that the view cannot show would be missing from the figure.

Instead: name the same joints in `from:`, `via:` and `to:`, and choose `view: front`
for arms or legs that move sideways, `view: above` for arms that move across the body.

Fails: exercises/crate-curl.yaml 3:10
    movement:
      position: seated
      from: {hip: 90, knee: 0}
      to: {knee: 100}
      load: {kind: machine, at: ankle}

Fails: exercises/crate-curl.yaml 4:10 5:8
    movement:
      position: seated
      view: above
      from: {knee: 0}
      to: {knee: 100}
      load: {kind: machine, at: ankle}

Passes: exercises/crate-curl.yaml
    movement:
      position: seated
      from: {hip: 90, knee: 0}
      via: [{hip: 90, knee: 80}]
      to: {hip: 90, knee: 100}
      load: {kind: machine, at: ankle}
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem
from build_tools.movement.posture.limits import named_angles, not_shown


def check(context: Context) -> Iterator[Problem]:
    """Joints that some key frame leaves out or the view cannot show."""
    vocabulary = context.catalog.vocabulary
    known = set(vocabulary.data.joints) if vocabulary else set()
    for exercise in context.catalog.exercises.values() if vocabulary else ():
        movement = exercise.data.movement
        named = {joint for _, angles in named_angles(movement) for joint in angles}
        if named - known:  # told by `known-term`; what is missing may be what was meant
            continue
        for path, message, help in not_shown(movement):
            yield Problem(exercise.spot("movement", *path, key=True), message, help)
