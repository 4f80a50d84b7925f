"""An invented client can train the week that stands beside the name.

Why: tour and pictures show these weeks as the planner would. A week that needs equipment
which is not at hand, or that holds what its client should avoid, teaches the wrong thing,
and nothing can be proposed for a part that no exercise trains directly.

Instead: put the equipment under `equipment:` or choose another exercise; name a part as
muscle/part; write repetitions so that they rise.

Fails: example.yaml 5:15 9:27 10:28 10:62
    clients:
      - name: Wickle
        about: Trains with a crate.
        goal: growth
        lagging: [lantern]
        equipment: [crate]
        avoid: [knee]
        week:
          monday: [{exercise: crate-curl, sets: 3, repetitions: 8-12}]
          tuesday: [{exercise: cable-curl, sets: 3, repetitions: 12-8}]

Passes: example.yaml
    clients:
      - name: Wickle
        about: Trains with a crate.
        goal: growth
        lagging: [lantern/long-head]
        equipment: [crate]
        avoid: [balance]
        week:
          monday:
            - {exercise: crate-curl, sets: 3, repetitions: 8-12}
"""

import re
from collections.abc import Iterator

from build_tools.catalog.care import named
from build_tools.catalog.entries import Client, Example, Exercise
from build_tools.catalog.load import Catalog, Loaded
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Weeks that their clients cannot train, and parts for which nothing can be proposed."""
    if example := context.catalog.example:
        for number, client in enumerate(example.data.clients):
            yield from _lagging(context.catalog, example, number)
            for day, entries in client.week.items():
                for index, entry in enumerate(entries):
                    here = ("clients", number, "week", day, index)
                    ends = [int(digits) for digits in re.findall("[0-9]+", entry.repetitions)]
                    if ends != sorted(set(ends)):
                        yield Problem(
                            example.spot(*here, "repetitions"),
                            f"`{entry.repetitions}` does not rise",
                            "write the smaller number first",
                        )
                    if exercise := context.catalog.exercises.get(entry.exercise):
                        for message, help in _against(client, exercise.data):
                            yield Problem(example.spot(*here, "exercise"), message, help)


def _lagging(catalog: Catalog, example: Loaded[Example], number: int) -> Iterator[Problem]:
    credited = {
        ref
        for exercise in catalog.exercises.values()
        for ref, word in exercise.data.set_credit.items()
        if word == "direct"
    }
    for index, ref in enumerate(example.data.clients[number].lagging):
        if "/" not in ref:
            yield Problem(
                example.spot("clients", number, "lagging", index),
                f"`{ref}` is no part",
                "write muscle/part",
            )
        elif catalog.part(ref) and not {ref, ref.partition("/")[0]} & credited:
            yield Problem(
                example.spot("clients", number, "lagging", index),
                f"no exercise trains `{ref}` directly",
                "name another part",
            )


def _against(client: Client, exercise: Exercise) -> Iterator[tuple[str, str]]:
    lacking = sorted(set(exercise.equipment) - {"none", *client.equipment})
    if lacking:
        yield (
            f"{client.name} does not have `{'`, `'.join(lacking)}`",
            "put it under `equipment:`, or choose another exercise",
        )
    if found := sorted(named(exercise) & set(client.avoid)):
        yield (
            f"{client.name} should avoid it: it has a caution on `{'`, `'.join(found)}`",
            "choose another exercise",
        )
