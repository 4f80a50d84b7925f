"""Retired ids and their successors (``moved.yaml``)."""

from __future__ import annotations

from pydantic import Field

from .base import Entry, ExerciseId, Id, Key, MuscleId, ReferenceKey


class Moved(Entry):
    """Retired ids and their successors (``moved.yaml``)."""

    exercises: dict[Id, ExerciseId] = Field(
        default={}, description="Retired exercise id -> its successor."
    )
    muscles: dict[Id, MuscleId] = Field(
        default={}, description="Retired muscle id -> its successor."
    )
    sources: dict[Key, ReferenceKey] = Field(
        default={}, description="Retired reference key -> its successor."
    )
