"""What ``programme.yaml`` may contain: how much, how often, how hard, how to progress, whom to treat with care."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import Field, model_validator

from .base import (
    Basis,
    ConcernId,
    Entry,
    ExerciseId,
    Id,
    Interval,
    Line,
    MuscleId,
    Name,
    NotNegative,
    Positive,
    Quantity,
    Unfit,
)

Goal = Literal["growth", "strength"]

#: How many coefficients each form of equation takes.
COEFFICIENTS = {"inverse": 2, "power": 1, "line": 2}


class Ends(Entry):
    """The ends of a range. One that nothing supports is left out, never guessed."""

    low: NotNegative | None = Field(None, description="Lower end, in the unit of the range.")
    high: NotNegative | None = Field(
        None, description="Upper end; left out where no ceiling is known."
    )


class Dose(Basis):
    """A range that a plan is held against. An end that nothing supports is left out, never guessed."""

    low: NotNegative | None = Field(None, description="Lower end, in `unit`.")
    high: NotNegative | None = Field(
        None, description="Upper end, in `unit`; left out where no ceiling is known."
    )
    unit: Line = Field(description="Unit of both ends, e.g. sets a week for one muscle.")
    means: Line = Field(description="What it asks of a plan, in plain words.")
    unsure: Line = Field(
        description="What is not known about it: how wide, for whom, where it stops."
    )
    muscles: dict[MuscleId, Ends] = Field(
        default={},
        description="Muscle -> the ends that hold for it instead, where sources tell muscles apart.",
    )

    def ends(self, part: str) -> Ends:
        """The ends that hold for a part, or for a whole muscle."""
        return self.muscles.get(part.partition("/")[0]) or Ends(low=self.low, high=self.high)

    @model_validator(mode="after")
    def _a_range(self) -> Dose:
        if self.low is None and self.high is None:
            raise Unfit("this range has no end", "give `low:`, `high:` or both")
        return self


class Doses(Entry):
    """The ranges for one goal."""

    weekly_sets: Dose = Field(
        description="Sets a week for one muscle part, direct and indirect credit added."
    )
    weekly_sessions: Dose = Field(description="Days a week on which one muscle part is trained.")
    repetitions: Dose = Field(description="Repetitions in a set.")
    load_percent: Dose = Field(description="Load in per cent of the one-repetition maximum.")
    repetitions_left: Dose = Field(
        description="Repetitions that could still have been done at the end of a set."
    )
    rest_seconds: Dose = Field(description="Rest between sets of one exercise.")
    repetition_seconds: Dose = Field(description="Time of one repetition, down and up together.")

    def items(self) -> list[tuple[str, Dose]]:
        """Each dose with its key, in the order above."""
        return [(key, getattr(self, key)) for key in type(self).model_fields]


class Credit(Basis):
    """How much one set counts in the weekly count."""

    value: float = Field(ge=0, le=1, description="Share of a set, 0-1.")
    means: Line = Field(description="When an exercise gets it.")


class Credits(Entry):
    """The two credits of ``set_credit:``."""

    direct: Credit = Field(description="The part is a prime mover.")
    indirect: Credit = Field(description="The part helps.")


class Advice(Basis):
    """One rule of thumb for the coach."""

    do: Line = Field(description="What to do, imperative, plain words.")
    because: Line = Field(description="What is known, and how surely.")
    id: Id | None = Field(
        None, description="What the week's page knows it by when it makes the next week."
    )
    numbers: dict[Id, Annotated[list[NotNegative], Field(min_length=1, max_length=2)]] = Field(
        default={},
        description="Numbers of `do:` and `because:` that the page reckons with: one, or lower and upper end.",
    )


class Topic(Entry):
    """Advice that belongs together."""

    name: Name = Field(description="Heading, e.g. Progression.")
    advice: list[Advice] = Field(min_length=1, description="In the order a coach needs it.")


class CarefulGroup(Entry):
    """People for whom the usual rules need care."""

    name: Name = Field(description="Who they are, e.g. People with high blood pressure.")
    advice: list[Advice] = Field(min_length=1, description="What changes for them.")
    concerns: list[ConcernId] = Field(
        default=[],
        description="Concerns of vocabulary.yaml whose lines on go-aheads and emergency help they need.",
    )
    ask: Line = Field(description="Whom to ask before training (a licensed professional).")


class Equation(Basis):
    """A published way from a set near failure to the one-repetition maximum. One that is only remembered has no place here.

    With load w, repetitions r and coefficients a, b in this order: ``inverse`` a w / (b - r); ``power`` w r^a; ``line`` a w + b, from
    one number of repetitions and in kilograms.
    """

    name: Name = Field(description="Name as it is known.")
    form: Literal["inverse", "power", "line"] = Field(
        description="Shape of the equation (see above)."
    )
    coefficients: list[Quantity] = Field(
        min_length=1, max_length=2, description="a, b of the form, in this order."
    )
    repetitions: Interval = Field(description="Fewest and most repetitions it holds for.")
    exercises: list[ExerciseId] = Field(
        default=[], description="Exercises it was made for; empty for any."
    )
    error: Line = Field(description="How far off it is, with unit, or that nobody reported it.")
    standard_error: Positive | None = Field(
        None,
        description="Published standard error of the maximum, kg, for the exercises it was made for.",
    )

    @model_validator(mode="after")
    def _coefficients(self) -> Equation:
        wanted = COEFFICIENTS[self.form]
        if len(self.coefficients) != wanted:
            raise Unfit(
                f"`form: {self.form}` has {len(self.coefficients)} `coefficients:`",
                f"give {wanted}, in the order a, b",
                "coefficients",
            )
        if self.form == "power" and not 0 < self.coefficients[0] <= 1:
            raise Unfit(
                f"{self.coefficients[0]:g} is no power of the repetitions that a load follows",
                "give one above 0 and at most 1, as published equations do",
                "coefficients",
            )
        if not self.cites:
            raise Unfit(
                "this equation does not say where its formula was read",
                "add `cites: [{key: <reference>, at: <place in it>}]`",
            )
        if self.standard_error and not self.exercises:
            raise Unfit(
                "`standard_error:` holds for the exercises that were measured, and none is named",
                "name them in `exercises:`, or leave it out",
                "standard_error",
            )
        return self


class LoadPrediction(Entry):
    """From a recent set to a starting load."""

    means: Line = Field(description="What a predicted maximum is good for, and what not.")
    equations: dict[Id, Equation] = Field(min_length=1, description="By id.")
    beyond: Advice = Field(
        description="The rule of steps where no equation holds for so many repetitions."
    )
    band: Advice = Field(description="The rule where the load is no weight: bands, the body alone.")
    facts: list[Advice] = Field(
        default=[], description="What is known about prediction and testing."
    )


class Timing(Basis):
    """Seconds that a plan needs beyond its repetitions and rests."""

    value: float = Field(ge=0, le=86_400, description="Seconds.")
    means: Line = Field(description="What they are spent on.")


class Timings(Entry):
    """The two times that a day's length is reckoned from beside its sets."""

    change_exercise: Timing = Field(description="From one exercise to the next.")
    warm_up: Timing = Field(description="Before the first exercise.")

    def items(self) -> list[tuple[str, Timing]]:
        """Each time with its key, in the order above."""
        return [(key, getattr(self, key)) for key in type(self).model_fields]


class Programme(Entry):
    """Dose rules for planning, each with its basis (``programme.yaml``)."""

    goals: dict[Goal, Doses] = Field(
        min_length=2, description="The ranges for growth and for strength."
    )
    credits: Credits = Field(description="What one set counts.")
    topics: dict[Id, Topic] = Field(
        min_length=1, description="Advice by topic: progression, order, range, rest, cueing."
    )
    careful: dict[Id, CarefulGroup] = Field(
        min_length=1, description="People for whom the usual rules need care."
    )
    load_prediction: LoadPrediction = Field(
        description="Equations from a set to the one-repetition maximum, and what to do without."
    )
    timing: Timings = Field(description="Time that a session needs beside its sets.")
    reviewed: date = Field(description="Day of the last look at the whole file, year-month-day.")
