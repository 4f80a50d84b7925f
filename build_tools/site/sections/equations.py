"""Prediction equations as a coach would type them into a calculator."""

from __future__ import annotations

from ...catalog.entries import Equation

#: Form -> the maximum in words, with the coefficients in their order.
_WORDS = {
    "inverse": "{0:g} × load ÷ ({1:g} − repetitions)",
    "power": "load × repetitions to the power of {0:g}",
    "line": "{0:g} × load + {1:g} kg",
}


def worded(equation: Equation) -> str:
    """The maximum in words: ``36 × load ÷ (37 − repetitions)``. Coefficients to six significant digits."""
    return _WORDS[equation.form].format(*equation.coefficients).replace("+ -", "− ")
