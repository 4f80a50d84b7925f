"""A starting load from a recent set, and what can be put on the bar for it.

A set of r repetitions with l left in hand is taken as r + l repetitions to failure. Each equation of the programme predicts the
maximum from it; the load for another set comes from the same equation turned round. Several equations stand side by side, each
with its error: no mean is taken of them. A prediction is a first guess, which the warm-up sets correct.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import floor
from typing import Literal

from ..catalog.entries import Equation
from ..movement.load.body_weight import total_load
from .load_prediction import NotCovered, load_for, one_repetition_maximum

Unit = Literal["kg", "lb"]
#: Kilograms of one avoirdupois pound, exact by the international yard and pound agreement of 1959.
POUND = 0.45359237
KILOGRAMS: dict[Unit, float] = {"kg": 1.0, "lb": POUND}
#: Loads nearer than this to a step count as the step: what is left of binary fractions.
_NOISE = 1e-9


@dataclass(frozen=True)
class Set:
    """A set as it was done or is planned."""

    repetitions: int
    left: int = 0
    """Repetitions that could still have been done."""

    @property
    def to_failure(self) -> int:
        """Repetitions that would have been possible."""
        return self.repetitions + self.left


@dataclass(frozen=True)
class Guess:
    """What one equation says, or why it says nothing."""

    equation: str
    maximum: float | None = None
    """One-repetition maximum, kilograms."""
    load: float | None = None
    """Load for the planned set, kilograms, before any rounding."""
    why: str = ""


@dataclass(frozen=True)
class Bar:
    """A bar and pairs of plates, all in one unit; one plate of each listed pair goes on either side."""

    bar: float
    pairs: tuple[float, ...]
    """Weight of one plate for each pair at hand."""


def guesses(equations: Mapping[str, Equation], exercise: str, done: Set, load: float, planned: Set) -> list[Guess]:
    """Every equation that was made for the exercise or for any, in the programme's order; ``load`` in kilograms, body weight included."""
    return [_guess(id, equation, done, load, planned) for id, equation in equations.items()
            if not equation.exercises or exercise in equation.exercises]


def _guess(id: str, equation: Equation, done: Set, load: float, planned: Set) -> Guess:
    try:
        maximum = one_repetition_maximum(equation, load, done.to_failure)
    except NotCovered as error:
        return Guess(id, why=str(error))
    try:
        return Guess(id, maximum, load_for(equation, maximum, planned.to_failure))
    except NotCovered as error:
        return Guess(id, maximum, why=str(error))


def to_add(load: float, body_mass: float, fraction: float) -> float:
    """Kilograms to hang on a body-weight movement so that it moves ``load``; below 0: help of that much."""
    return load - total_load(body_mass, fraction)


def on_bar(load: float, bar: Bar) -> list[float]:
    """Every load that the bar can hold up to ``load``'s neighbours: the heaviest not above it and the lightest above it, if any.

    All in the bar's unit. An empty bar that is too heavy already stands alone.
    """
    return _neighbours(load, [bar.bar + 2 * side for side in _sums(bar.pairs)])


def on_rack(load: float, weights: Sequence[float]) -> list[float]:
    """The same for dumbbells or a stack of fixed weights. Raises ValueError where there are none."""
    if not weights:
        raise ValueError("give at least one weight")
    return _neighbours(load, weights)


def down(load: float, choices: Sequence[float]) -> float | None:
    """The heaviest of the choices that is not above the load; None where all are."""
    return max((choice for choice in choices if choice <= load + _NOISE), default=None)


def nearest(load: float, choices: Sequence[float]) -> float:
    """The choice nearest to the load; of two equally near the lighter."""
    return min(choices, key=lambda choice: (round(abs(choice - load), 9), choice))


def in_unit(kilograms: float, unit: Unit) -> float:
    """Kilograms in another unit."""
    return kilograms / KILOGRAMS[unit]


def in_kilograms(value: float, unit: Unit) -> float:
    """A load of either unit in kilograms."""
    return value * KILOGRAMS[unit]


def told(value: float) -> str:
    """A load as it is shown: to a tenth, without a needless nought."""
    return f"{floor(value * 10 + 0.5 + _NOISE) / 10:g}"


def _neighbours(load: float, choices: Sequence[float]) -> list[float]:
    rounded = sorted({round(choice, 6) for choice in choices})
    below = [choice for choice in rounded if choice <= load + _NOISE][-1:]
    above = [choice for choice in rounded if choice > load + _NOISE][:1]
    return below + ([] if below and abs(below[0] - load) <= _NOISE else above)


def _sums(plates: Sequence[float]) -> set[float]:
    """What one side can hold: every sum of some of its plates."""
    found = {0.0}
    for plate in plates:
        found |= {round(held + plate, 6) for held in found}
    return found
