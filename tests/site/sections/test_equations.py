"""Prediction equations in words."""

from __future__ import annotations

import pytest

from build_tools.catalog.entries import Equation
from build_tools.site.sections.equations import worded


@pytest.mark.parametrize(
    ("form", "coefficients", "told"),
    [
        ("inverse", [36, 37], "36 × load ÷ (37 − repetitions)"),
        ("power", [0.1], "load × repetitions to the power of 0.1"),
        ("line", [1.097, 14.2546], "1.097 × load + 14.2546 kg"),
        ("line", [1.1, -2], "1.1 × load − 2 kg"),
    ],
)
def test_equations_in_words(form: str, coefficients: list[float], told: str) -> None:
    assert (
        worded(
            Equation(
                name="Lamp",
                form=form,
                coefficients=coefficients,
                repetitions=[1, 10],
                error="None.",
                cites=[{"key": "lamp2030", "at": "abstract"}],
            )
        )
        == told
    )
