"""What a muscle's slope says for a fifth of its range: a rule of thumb, and never a finding on two exercises."""

from __future__ import annotations

from math import exp

from ...english import counted
from ..model.slope import LengthSlope
from .amounts import people

#: Share of a muscle's own range for which a slope is told: about how far trials set their two lengths apart.
SHARE = 0.2
_CALLED = "a fifth"
_Z = 1.96


def per_cent(log_ratio: float) -> float:
    """More growth in per cent for ``SHARE`` of the range, from a log ratio over the whole range."""
    return (exp(SHARE * log_ratio) - 1) * 100


def rule(slope: LengthSlope) -> str:
    """``Longer by a fifth of its range: about 1.8% more growth (could be 0.4% to 3.3%), from 2 studies of 37 people.``"""
    return (
        f"Longer by {_CALLED} of its range: about {_told(slope.mean)} growth "
        f"(could be {_span(slope.low, slope.high)}), "
        f"from {counted(len(slope.studies), 'study', 'studies')} of {people(slope.people)}."
    )


def published(prior: tuple[float, float]) -> str:
    """What was expected of any muscle before its studies were read: ``1% more for a fifth (1% less to 3% more)``."""
    mean, sd = prior
    return f"{_told(mean)} for {_CALLED} of the range ({_span(mean - _Z * sd, mean + _Z * sd)})"


def _told(log_ratio: float) -> str:
    return f"{_number(log_ratio)} {'less' if log_ratio < 0 else 'more'}"


def _span(low: float, high: float) -> str:
    if low >= 0:
        return f"{_number(low)} to {_number(high)}"
    return f"{_told(low)} to {_told(high)}"


def _number(log_ratio: float) -> str:
    return f"{abs(per_cent(log_ratio)):.1f}".removesuffix(".0") + "%"
