"""Retired ids and their successors (``moved.yaml``)."""

from __future__ import annotations

from pydantic import Field

from .base import Entry, Id, Key


class Moved(Entry):
    """Retired ids and their successors (``moved.yaml``)."""

    exercises: dict[Id, Id] = Field(default={}, description="Retired exercise id -> its successor.")
    muscles: dict[Id, Id] = Field(default={}, description="Retired muscle id -> its successor.")
    sources: dict[Key, Key] = Field(
        default={}, description="Retired reference key -> its successor."
    )
