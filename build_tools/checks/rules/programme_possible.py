"""Ranges in the programme run upwards and equations hold over theirs.

Why: the planner warns when a week leaves a range. A range with its ends swapped
warns about every week, and an equation used where it divides by nothing predicts
a maximum without end.

Instead: put the smaller number first; end `repetitions:` below the point where the
equation breaks down.

Fails: programme.yaml 8:20
    load_prediction:
      means: A guess to start from.
      equations:
        crate:
          name: Crate equation
          form: inverse
          coefficients: [36, 37]
          repetitions: [1, 40]
          error: Nobody reported it.
          cites: [{key: wick2030, at: abstract}]
      beyond: {do: Take the next crate., because: Nobody counted so far., common_practice: An invented rule.}
      band: {do: Take the next ribbon., because: Nobody weighed it., common_practice: An invented rule.}

Passes: programme.yaml
    load_prediction:
      means: A guess to start from.
      equations:
        crate:
          name: Crate equation
          form: inverse
          coefficients: [36, 37]
          repetitions: [1, 10]
          error: Nobody reported it.
          cites: [{key: wick2030, at: abstract}]
      beyond: {do: Take the next crate., because: Nobody counted so far., common_practice: An invented rule.}
      band: {do: Take the next ribbon., because: Nobody weighed it., common_practice: An invented rule.}
"""

from collections.abc import Iterator

from build_tools.catalog.entries import Dose, Ends
from build_tools.catalog.walk import Path
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Ranges that no number satisfies, and equations beyond their reach."""
    entry = context.catalog.programme
    if entry is None:
        return
    for goal, doses in entry.data.goals.items():
        for key, dose in doses.items():
            every: list[tuple[Path, Ends | Dose]] = [
                ((), dose),
                *((("muscles", muscle), ends) for muscle, ends in dose.muscles.items()),
            ]
            for path, ends in every:
                if ends.low is not None and ends.high is not None and ends.low > ends.high:
                    yield Problem(
                        entry.spot("goals", goal, key, *path, "low"),
                        f"`low: {ends.low:g}` is above `high: {ends.high:g}`",
                        "swap them",
                    )
    for id, equation in entry.data.load_prediction.equations.items():
        low, high = equation.repetitions
        spot = entry.spot("load_prediction", "equations", id, "repetitions")
        if not 1 <= low <= high:
            yield Problem(
                spot,
                f"{low:g} to {high:g} repetitions is no range",
                "write [fewest, most], from 1 upwards",
            )
        elif equation.form == "inverse" and high >= equation.coefficients[1]:
            yield Problem(
                spot,
                f"at {equation.coefficients[1]:g} repetitions the equation divides by nothing",
                "end `repetitions:` well below",
            )
