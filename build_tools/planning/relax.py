"""What to give up where no accessory fits: how many more would fit if one thing alone were changed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from .facts import ExerciseFacts
from .order import Place
from .shortlist import Wish, fits


@dataclass(frozen=True)
class Relaxed:
    """How many accessories each single change would add, the greatest gain first, then by id; changes that add none are left out."""

    equipment: tuple[tuple[str, int], ...]
    """One more thing at hand."""
    concerns: tuple[tuple[str, int], ...]
    """One concern no longer avoided."""
    week: int
    """Accessories that the week holds already."""
    main: int
    """Main lifts for the part, which are never proposed."""


def relaxed(wish: Wish, part: str, exercises: Mapping[str, ExerciseFacts], orders: Mapping[str, Sequence[Place]]) -> Relaxed:
    """For one part of a wish. Raises KeyError for a part that no exercise trains directly."""
    ids = [id for place in orders[part] for id in place.exercises]
    out = [exercises[id] for id in ids if not fits(wish, exercises[id])]

    def gained(changed: Wish) -> int:
        return sum(fits(changed, facts) for facts in out)

    missing = {thing for facts in out for thing in facts.equipment - wish.equipment}
    equipment = {thing: gained(replace(wish, equipment=wish.equipment | {thing})) for thing in missing}
    concerns = {concern: gained(replace(wish, concerns=wish.concerns - {concern})) for concern in wish.concerns}
    return Relaxed(_ranked(equipment), _ranked(concerns), gained(replace(wish, week=frozenset())), sum(facts.main for facts in out))


def _ranked(gains: Mapping[str, int]) -> tuple[tuple[str, int], ...]:
    return tuple(sorted(((id, gain) for id, gain in gains.items() if gain), key=lambda item: (-item[1], item[0])))
