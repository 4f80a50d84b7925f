"""What the forms of Find and What lags offer: kits first, then single things, and what asks for care."""

from __future__ import annotations

from dataclasses import dataclass

from ...catalog.entries import Vocabulary
from ...planning.kits import kits

#: The value of the body alone, as it stands in the address.
NOTHING = "none"


@dataclass(frozen=True)
class Choices:
    """Values and names."""

    kits: list[tuple[str, str]]
    """The value holds the equipment of the kit, in order of the alphabet."""
    equipment: list[tuple[str, str]]
    """Single things, without the body alone."""
    concerns: list[tuple[str, str]]


def choices(words: Vocabulary) -> Choices:
    """In the vocabulary's order."""
    return Choices(
        [(",".join(sorted(things)) or NOTHING, name) for name, things in kits(words.equipment)],
        [(id, kit.name) for id, kit in words.equipment.items() if id != NOTHING],
        [(id, concern.name) for id, concern in words.concerns.items()],
    )
