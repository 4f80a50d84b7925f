"""Roots against values known otherwise."""

import math
from collections.abc import Callable

import pytest

from oracle.root import bracketed_root


@pytest.mark.parametrize(
    ("f", "low", "high", "root"),
    [
        (lambda x: x * x - 2, 0.0, 2.0, math.sqrt(2)),
        (lambda x: 2 - x * x, 2.0, 0.0, math.sqrt(2)),
        (lambda x: math.exp(x) - 5, -50.0, 50.0, math.log(5)),
        (lambda x: 1e-30 - x, 0.0, 1.0, 1e-30),
        (lambda x: 1 / (x + 1e-12) - 1e6, 0.0, 1.0, 1e-6 - 1e-12),
        (lambda x: x - 3, 3.0, 9.0, 3.0),
        (lambda x: x - 9, 3.0, 9.0, 9.0),
    ],
)
def test_finds_the_root_to_the_last_digits(
    f: Callable[[float], float], low: float, high: float, root: float
) -> None:
    assert bracketed_root(f, low, high) == pytest.approx(root, rel=4e-16, abs=0)


def test_a_step_is_found_like_a_root() -> None:
    assert bracketed_root(lambda x: 1.0 if x < math.pi else -1.0, 0.0, 10.0) == pytest.approx(
        math.pi, rel=1e-15
    )


@pytest.mark.parametrize(
    "f", [lambda x: 1.0, lambda x: math.nan, lambda x: math.nan if 0 < x < 1 else x - 0.5]
)
def test_no_sign_change_or_no_number_is_no_root(f: Callable[[float], float]) -> None:
    assert bracketed_root(f, 0.0, 1.0) is None
