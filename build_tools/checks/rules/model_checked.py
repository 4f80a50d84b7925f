"""Every muscle of the model agrees with what was published on it.

Why: lengths of a muscle whose moment arms contradict published ones would be
drawn on every page as if they were known.

Instead: take the muscle out, with the reason under `left_out:`. Never widen a
published value or cut the box until a check passes.

Fails: model/muscles.yaml 2:3
    muscles:
      long-head:
        name: Lantern muscle, long head
        table: lamp
        column: long
        box: {hip: [-20, 120], knee: [0, 120]}
        acts: {hip: extends, knee: flexes}
        arms: [{joint: knee, over: [0, 100], mm: [5, 9], source: wick}]

Fails: model/muscles.yaml 2:3
    muscles:
      long-head:
        name: Lantern muscle, long head
        table: lamp
        column: long
        box: {hip: [-20, 120], knee: [0, 120]}
        acts: {hip: flexes, knee: flexes}
        arms: [{joint: knee, over: [0, 100], mm: [30, 30], source: wick}]

Fails: model/muscles.yaml 2:3
    muscles:
      long-head:
        name: Lantern muscle, long head
        table: lamp
        column: long
        box: {hip: [-20, 120], knee: [0, 120]}
        acts: {hip: extends, knee: flexes}
        arms: [{joint: knee, over: [0, 100], mm: [30, 30], source: wick}]
        orders: [{more: knee, less: hip, source: wick}]

Passes: model/muscles.yaml
    muscles:
      long-head:
        name: Lantern muscle, long head
        table: lamp
        column: long
        box: {hip: [-20, 120], knee: [0, 120]}
        acts: {hip: extends, knee: flexes}
        arms: [{joint: knee, over: [0, 100], mm: [28, 31], source: wick}]
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem
from build_tools.checks.rules import model_muscle
from build_tools.movement.length.published import checked


def check(context: Context) -> Iterator[Problem]:
    """Muscles that fail a check."""
    entry = context.catalog.model
    if entry is None or any(model_muscle.check(context)):
        return  # what is not there cannot be checked
    for id, muscle in checked(context.catalog).items():
        for failed in muscle.checks:
            if not failed.passed:
                yield Problem(
                    entry.spot("muscles", id, key=True),
                    f"{failed.what}: published {failed.published} ({failed.source}), in the table {failed.ours}",
                    "take the muscle out and say why under `left_out:`",
                )
