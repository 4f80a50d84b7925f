"""Ids that were published and are no more, each with its successor or the reason why there is none (``moved.yaml``)."""

from __future__ import annotations

from datetime import date

from pydantic import Field

from .base import Entry, ExerciseId, Id, Key, Line, MuscleId, Name, PartRef, ReferenceKey


class Retired(Entry):
    """What was taken out and has no successor: its page stays, and says so."""

    name: Name = Field(description="What it was called.")
    day: date = Field(description="When it was taken out.")
    because: Line = Field(description="Why, in a sentence that a client may read.")
    parts: list[PartRef] = Field(
        default=[], description="Muscle parts whose pages show what else trains them."
    )


class RetiredIds(Entry):
    """Ids without a successor."""

    exercises: dict[Id, Retired] = Field(default={}, description="Exercises taken out.")
    muscles: dict[Id, Retired] = Field(default={}, description="Muscles taken out.")
    parts: dict[PartRef, Retired] = Field(
        default={}, description="Muscle parts taken out, as muscle/part."
    )
    sources: dict[Key, Retired] = Field(default={}, description="References taken out, by key.")


class Moved(Entry):
    """Ids that were published and are no more (``moved.yaml``)."""

    exercises: dict[Id, ExerciseId] = Field(
        default={}, description="Old exercise id -> its successor."
    )
    muscles: dict[Id, MuscleId] = Field(default={}, description="Old muscle id -> its successor.")
    parts: dict[PartRef, PartRef] = Field(
        default={},
        description="Old muscle part -> its successor, both as muscle/part; the muscle alone where all of it is meant.",
    )
    sources: dict[Key, ReferenceKey] = Field(
        default={}, description="Old reference key -> its successor."
    )
    retired: RetiredIds = Field(
        default_factory=RetiredIds, description="Ids without a successor, each with its reason."
    )
