"""Ratios and counts as a coach reads them: ``12% more``, ``from 3% less to 22% more``, ``3 samples``."""

from __future__ import annotations

from ..threshold import meets

#: From here on a ratio reads better as "times as much" than as a percentage.
TIMES_FROM = 2.0
_NUMBERS = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)


def percent(ratio: float) -> str:
    """How far a ratio lies from 1, without its direction: 1.05 -> ``5%``."""
    off = abs(ratio - 1) * 100
    if off < 0.1 and not meets(ratio, 1):
        return "under 0.1%"
    return f"{off:.0f}%" if off >= 10 else f"{off:.2g}%"


def amount(ratio: float) -> str:
    """A ratio as an amount: 1.12 -> ``12% more``, 0.9 -> ``10% less``, 2.4 -> ``2.4 times as much``."""
    if meets(ratio, 1):
        return "no difference"
    if ratio >= TIMES_FROM:
        return f"{ratio:.2g} times as much" if ratio < 100 else f"{ratio:.0f} times as much"
    return f"{percent(ratio)} {'more' if ratio > 1 else 'less'}"


def span(low: float, high: float) -> str:
    """An interval of ratios: ``from 3% less to 22% more``."""
    return f"from {amount(low)} to {amount(high)}"


def samples(n: int) -> str:
    """``1 sample``, ``2 samples``: independent groups of people."""
    return f"{n} sample" if n == 1 else f"{n} samples"


def people(n: int) -> str:
    """``1 person``, ``12 people``."""
    return f"{n} person" if n == 1 else f"{n} people"


def in_words(n: int) -> str:
    """``one``, ``twelve``, ``13``: a number where words are read before figures."""
    return _NUMBERS[n] if n < len(_NUMBERS) else f"{n:,}"
