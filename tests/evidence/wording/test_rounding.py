"""Committed numbers: enough digits to mean something, too few for noise to show.

What each number should read is worked by hand from the rule in the module's docstring.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_tools.evidence.wording import rounding


@pytest.mark.parametrize(
    ("rule", "x", "printed"),
    [
        (rounding.ratio, 1.0628, "1.06"),
        (rounding.ratio, 0.83249, "0.832"),
        (rounding.ratio, 1.1, "1.10"),
        (rounding.ratio, 9.996, "10.0"),
        (rounding.ratio, 12345.0, "12300"),
        (rounding.ratio, 1.5e-5, "0.0000150"),
        (rounding.ratio, 1.0, "1.00"),
        (rounding.ratio, 0.0, "0"),
        # A half goes to the even digit, whatever side of it a machine's noise puts the sum.
        (rounding.ratio, 1.125 + 1e-15, "1.12"),
        (rounding.ratio, 1.125 - 1e-15, "1.12"),
        (rounding.ratio, 1.135 - 1e-15, "1.14"),
        (rounding.chance, 0.5, "0.50"),
        (rounding.chance, -1e-17, "0.00"),
        (rounding.chance, 1 - 1e-16, "1.00"),
        (rounding.chance, 0.125 - 1e-16, "0.12"),
        (rounding.per_cent, 1.8439, "1.8"),
        (rounding.per_cent, -0.04, "0.0"),
        (rounding.per_cent, -0.96, "-1.0"),
        (rounding.per_cent, 100.0, "100.0"),
    ],
)
def test_printed(rule: Callable[[float], Decimal], x: float, printed: str) -> None:
    assert format(rule(x), "f") == printed


@given(st.floats(1e-3, 1e3))
def test_a_ratio_is_off_by_at_most_half_of_its_last_digit(x: float) -> None:
    assert abs(float(rounding.ratio(x)) - x) <= 0.5000001 * 10 ** (
        math.floor(math.log10(x)) - 2
    ) * (10 if x >= 995 else 1)


@given(
    st.integers(10**9, 10**10 - 1),
    st.integers(-3, 3),
    st.sampled_from([rounding.ratio, rounding.chance, rounding.per_cent]),
)
def test_the_last_digits_of_a_sum_change_nothing(
    digits: int, ulps: int, rule: Callable[[float], Decimal]
) -> None:
    x = digits / 10**9
    noisy = x
    for _ in range(abs(ulps)):
        noisy = math.nextafter(noisy, math.copysign(math.inf, ulps))
    assert rule(noisy) == rule(x)
