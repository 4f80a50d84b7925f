"""Numbers against thresholds, so that no last digit of a machine decides.

A number within ``TOLERANCE`` of a threshold counts as on it: it leaves nothing out and goes beyond nothing.
"""

from __future__ import annotations

#: Far above the noise of a sum of floating-point numbers, far below anything that matters.
TOLERANCE = 1e-9


def above(x: float, threshold: float) -> bool:
    """Whether ``x`` is clearly above."""
    return x > threshold + TOLERANCE


def below(x: float, threshold: float) -> bool:
    """Whether ``x`` is clearly below."""
    return x < threshold - TOLERANCE


def meets(x: float, threshold: float) -> bool:
    """Whether ``x`` lies on it."""
    return not above(x, threshold) and not below(x, threshold)


def within(low: float, high: float, bottom: float, top: float) -> bool:
    """Whether an interval goes beyond neither end of a range."""
    return not below(low, bottom) and not above(high, top)


def leaves_out(low: float, high: float, point: float) -> bool:
    """Whether an interval leaves a point out."""
    return above(low, point) or below(high, point)
