"""What the equations of ``programme.yaml`` predict, for the table on the programme's page.

The working pages predict by ``site/scripts/rules/loads.js``; the tests hold both against the same published values.

Loads are in kilograms (every form but ``line`` keeps whatever unit it is given). A load that can be lifted once is the
maximum by definition, although several published equations do not return it at one repetition.
"""

from __future__ import annotations

from math import isfinite

from ..catalog.entries import Equation


class NotCovered(ValueError):
    """A set from which an equation predicts nothing."""


def one_repetition_maximum(equation: Equation, load: float, repetitions: int) -> float:
    """The maximum predicted from ``load`` lifted ``repetitions`` times with nothing left. Raises ``NotCovered``."""
    _lifted(load)
    if repetitions == 1:
        return load
    _covered(equation, repetitions)
    if equation.form == "line":
        slope, constant = equation.coefficients
        return slope * load + constant
    return load * _factor(equation, repetitions)


def _factor(equation: Equation, repetitions: int) -> float:
    """Maximum divided by load, for the forms in which it depends on the repetitions alone."""
    match equation.form, equation.coefficients:
        case "inverse", [a, b]:
            return a / (b - repetitions)
        case "power", [a]:
            return float(repetitions**a)
    raise AssertionError(
        equation.form
    )  # the catalog's schema admits no other form or number of coefficients


def _covered(equation: Equation, repetitions: int) -> None:
    low, high = equation.repetitions
    if not low <= repetitions <= high:
        span = f"{low:g} to {high:g} repetitions" if low < high else f"{low:g} repetitions"
        raise NotCovered(f"{equation.name} holds for {span}, not for {repetitions}")


def _lifted(load: float) -> None:
    if not (isfinite(load) and load > 0):
        raise NotCovered(f"a load of {load:g} is no load; give one above 0")
