"""Mean and standard deviation from a median with quartiles or with a range.

Means: Luo et al. (2018), doi:10.1177/0962280216669183. Standard deviations:
Wan et al. (2014), doi:10.1186/1471-2288-14-135, their closed formulae (with
normal quantiles) at every n; their tables differ from these for n below 50.
Both take the values to be roughly normal: of skewed values they say too much.
"""

from __future__ import annotations

import numpy as np
from scipy.special import ndtr, ndtri

from ..errors import EvidenceError
from . import inputs


def from_quartiles(q1: float, median: float, q3: float, n: float) -> tuple[float, float]:
    """(mean, SD) from the median and the first and third quartile of n people."""
    inputs.people(n)
    _ordered(q1, median, q3)
    outer = 0.7 + 0.39 / n
    mean = outer * (q1 + q3) / 2 + (1 - outer) * median
    return mean, inputs.interval(q1, q3) / (2 * float(ndtri((0.75 * n - 0.125) / (n + 0.25))))


def from_range(least: float, median: float, most: float, n: float) -> tuple[float, float]:
    """(mean, SD) from the median and the smallest and largest value of n people."""
    inputs.people(n)
    _ordered(least, median, most)
    outer = 4 / (4 + n**0.75)
    mean = outer * (least + most) / 2 + (1 - outer) * median
    return mean, inputs.interval(least, most) / xi(n)


def xi(n: float) -> float:
    """Expected range of n standard normal values, by Wan's closed formula: 4.5% above ``xi_exact`` at n = 2, within 1% from n = 10."""
    return 2 * float(ndtri((inputs.people(n) - 0.375) / (n + 0.25)))


def xi_exact(n: int) -> float:
    """Expected range of n standard normal values, by numerical integration: twice the expected largest."""
    x = np.linspace(-10.0, 10.0, 2001)
    density = inputs.people(n) * ndtr(x) ** (n - 1) * np.exp(-(x**2) / 2) / np.sqrt(2 * np.pi)
    return 2 * float(np.trapezoid(x * density, x))


def _ordered(low: float, middle: float, high: float) -> None:
    if not low <= middle <= high:
        raise EvidenceError(f"{low:g}, {middle:g}, {high:g} are not in order: the median lies between the other two")
