"""`none` among the equipment stands alone.

Why: it means that nothing is needed. Beside a machine, one of the two is wrong, and
Find offers the exercise to a client who has no machine.

Instead: remove `none`, or remove the rest.

Fails: exercises/crate-curl.yaml 1:20
    equipment: [crate, none]

Passes: exercises/crate-curl.yaml
    equipment: [none]
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem

#: The id that says that nothing is needed.
NONE = "none"


def check(context: Context) -> Iterator[Problem]:
    """Nothing, and something beside it."""
    for exercise in context.catalog.exercises.values():
        equipment = exercise.data.equipment
        if NONE in equipment and len(equipment) > 1:
            others = ", ".join(f"`{id}`" for id in equipment if id != NONE)
            yield Problem(
                exercise.spot("equipment", equipment.index(NONE)),
                f"`{NONE}` stands beside {others}",
                f"remove `{NONE}`, or everything else",
            )
