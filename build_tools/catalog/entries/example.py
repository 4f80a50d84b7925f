"""What ``example.yaml`` may contain: an invented studio and its clients, on whom tour, pictures and tests show the planning pages."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from .base import ConcernId, Entry, EquipmentId, ExerciseId, Line, Name, PartRef
from .programme import Goal

Day = Literal["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]


class Sets(Entry):
    """One exercise of a day."""

    exercise: ExerciseId = Field(description="Id of the exercise.")
    sets: Annotated[int, Field(ge=1, le=20)] = Field(description="How many sets.")
    repetitions: Annotated[
        str, StringConstraints(pattern=r"^[1-9][0-9]{0,2}(-[1-9][0-9]{0,2})?s?$")
    ] = Field(description="Repetitions of a set as text: `8`, `8-12`, or seconds of a hold, 30s.")
    left: Annotated[int, Field(ge=0, le=10)] | None = Field(
        None, description="Repetitions that could still be done at the end of a set."
    )
    rest: Annotated[int, Field(ge=0, le=900)] | None = Field(
        None, description="Seconds after each set."
    )


class Client(Entry):
    """One invented client."""

    name: Name = Field(description="A first name that nobody bears.")
    about: Line = Field(description="What the coach knows of the client, in plain words.")
    goal: Goal = Field(description="Whose ranges the week is held against.")
    lagging: list[PartRef] = Field(
        min_length=1,
        max_length=2,
        description="Parts that lag, muscle/part, the most important first.",
    )
    equipment: list[EquipmentId] = Field(min_length=1, description="Everything at hand.")
    avoid: list[ConcernId] = Field(
        default=[], description="Concerns: exercises with a caution on them are left out."
    )
    week: dict[Day, Annotated[list[Sets], Field(min_length=1, max_length=12)]] = Field(
        min_length=1,
        description="Day -> its exercises in order; a day that is left out is a day off.",
    )


class Example(Entry):
    """A small studio; everybody and everything in it is invented."""

    studio: Name = Field(description="Name of the studio.")
    invented: Line = Field(
        description="Says that studio, people and weeks are invented; shown above everything else."
    )
    clients: list[Client] = Field(
        min_length=1, max_length=6, description="In the order of the tour."
    )
