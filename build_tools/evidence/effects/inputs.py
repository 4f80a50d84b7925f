"""What every effect asks of its inputs, refused in the same words everywhere."""

from __future__ import annotations

import math

from ..errors import EvidenceError


def people(n: float, least: int = 2) -> float:
    """``n`` if a spread between that many people can exist."""
    if not n >= least:
        raise EvidenceError(
            f"{n:g} people: at least {least} are needed for a spread between people"
        )
    return n


def sd(value: float) -> float:
    """``value`` if it is a spread that can be weighed."""
    if not math.isfinite(value) or value < 0:
        raise EvidenceError(f"a spread of {value:g} is none: it must be a positive number")
    if value == 0:
        raise EvidenceError("a spread of zero cannot be weighed: it is rounded away or misprinted")
    return value


def mean(value: float) -> float:
    """``value`` if a ratio can be taken of it."""
    if not (math.isfinite(value) and value > 0):
        raise EvidenceError(
            f"a mean of {value:g} has no ratio to another: a ratio needs means above zero"
        )
    return value


def correlation(r: float) -> float:
    """``r`` if it is a correlation."""
    if not -1 <= r <= 1:
        raise EvidenceError(f"a correlation of {r:g} is none: it must lie between -1 and 1")
    return r


def interval(lower: float, upper: float) -> float:
    """Width of an interval that can be weighed."""
    if not (math.isfinite(lower) and math.isfinite(upper) and lower <= upper):
        raise EvidenceError(
            f"an interval from {lower:g} to {upper:g} is none: the lower limit comes first"
        )
    return sd(upper - lower)
