"""Equipment that many coaches have at hand together, as one choice. Only a kit of which the handbook knows everything is offered."""

from __future__ import annotations

from collections.abc import Collection

KITS: dict[str, tuple[str, ...]] = {
    "No equipment": (),
    "Bands": ("band", "high-anchor", "low-anchor"),
    "Bands and dumbbells": ("band", "dumbbell", "high-anchor", "low-anchor"),
    "Barbell, rack and bench": ("barbell", "flat-bench", "plate", "rack"),
}


def kits(known: Collection[str]) -> list[tuple[str, tuple[str, ...]]]:
    """Name and things of each kit that can be offered."""
    return [(name, things) for name, things in KITS.items() if set(things) <= set(known)]
