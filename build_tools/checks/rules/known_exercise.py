"""Every exercise that is mentioned has a file.

Why: a comparator, a swap, an arm of a study, an equation's exercise or one of an
invented week that leads nowhere breaks links and silently drops numbers from every comparison.

Instead: write the id (the file's name without .yaml). An arm of a study whose
exercise is not in the catalog leaves `exercise:` out and describes it in `called:`.

Fails: exercises/crate-curl.yaml 1:21
    swaps: [cable-curl, cable-crul]

Fails: studies/glow2031.yaml 2:22
    arms:
      seated: {exercise: crate-kurl, called: seated crate curl}
      standing: {called: standing cable curl}

Fails: programme.yaml 9:19
    load_prediction:
      means: A guess to start from.
      equations:
        crate:
          name: Crate equation
          form: power
          coefficients: [0.1]
          repetitions: [2, 10]
          exercises: [crate-kurl]
          error: Nobody reported it.
          cites: [{key: wick2030, at: abstract}]
      beyond: {do: Take the next crate., because: Nobody counted so far., common_practice: An invented rule.}
      band: {do: Take the next ribbon., because: Nobody weighed it., common_practice: An invented rule.}

Fails: example.yaml 9:22
    clients:
      - name: Wickle
        about: Trains with a crate.
        goal: growth
        lagging: [lantern/long-head]
        equipment: [crate]
        week:
          monday:
            - {exercise: crate-kurl, sets: 3, repetitions: 8-12}

Passes: exercises/crate-curl.yaml
    swaps: [cable-curl]
"""

from collections.abc import Iterator
from typing import Any

from build_tools.catalog import moved
from build_tools.catalog.load import Loaded
from build_tools.catalog.walk import Path
from build_tools.checks.names import exercise_names
from build_tools.checks.rule import Context, Problem, suggest


def check(context: Context) -> Iterator[Problem]:
    """Mentions of exercises that have no file."""
    catalog = context.catalog
    for id, entry, path in _mentions(context):
        if context.is_absent("exercises", id):
            yield Problem(
                entry.spot(*path),
                f"there is no exercise `{id}`",
                moved.instead(catalog, "exercises", id)
                or suggest(
                    id,
                    catalog.exercises,
                    f"add exercises/{id}.yaml, or name one that exists",
                    ((name, exercise.id) for name, exercise, _ in exercise_names(catalog)),
                ),
            )


def _mentions(context: Context) -> Iterator[tuple[str, Loaded[Any], Path]]:
    catalog = context.catalog
    for statement, claim in context.claims:
        if claim.comparator.exercise:
            yield (
                claim.comparator.exercise,
                statement.entry,
                (*statement.path, claim.direction, "exercise"),
            )
    for exercise in catalog.exercises.values():
        for index, id in enumerate(exercise.data.swaps):
            yield id, exercise, ("swaps", index)
    for study in catalog.studies.values():
        for name, arm in study.data.arms.items():
            if arm.exercise:
                yield arm.exercise, study, ("arms", name, "exercise")
    if catalog.programme:
        for name, equation in catalog.programme.data.load_prediction.equations.items():
            for index, id in enumerate(equation.exercises):
                yield (
                    id,
                    catalog.programme,
                    ("load_prediction", "equations", name, "exercises", index),
                )
    if catalog.example:
        for number, client in enumerate(catalog.example.data.clients):
            for day, entries in client.week.items():
                for index, entry in enumerate(entries):
                    yield (
                        entry.exercise,
                        catalog.example,
                        ("clients", number, "week", day, index, "exercise"),
                    )
