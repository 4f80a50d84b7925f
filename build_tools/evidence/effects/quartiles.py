"""Mean and standard deviation from a median with quartiles.

Means: Luo et al. (2018), doi:10.1177/0962280216669183. Standard deviations:
Wan et al. (2014), doi:10.1186/1471-2288-14-135, their closed formulae (with
normal quantiles) at every n; their tables differ from these for n below 50.
Both take the values to be roughly normal: of skewed values they say too much.
"""

from __future__ import annotations

from scipy.special import ndtri

from ..errors import EvidenceError
from . import inputs


def from_quartiles(q1: float, median: float, q3: float, n: float) -> tuple[float, float]:
    """(mean, SD) from the median and the first and third quartile of n people."""
    inputs.people(n)
    _ordered(q1, median, q3)
    outer = 0.7 + 0.39 / n
    mean = outer * (q1 + q3) / 2 + (1 - outer) * median
    return mean, inputs.interval(q1, q3) / (2 * float(ndtri((0.75 * n - 0.125) / (n + 0.25))))


def _ordered(low: float, middle: float, high: float) -> None:
    if not low <= middle <= high:
        raise EvidenceError(
            f"{low:g}, {middle:g}, {high:g} are not in order: the median lies between the other two"
        )
