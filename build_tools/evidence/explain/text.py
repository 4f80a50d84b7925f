"""Lines of an explanation: numbers in one style, places as a person can open them, texts wrapped and indented."""

from __future__ import annotations

from collections.abc import Iterable
from math import exp
from textwrap import wrap

from ...catalog.finding import Spot

WIDTH = 100

Line = tuple[int, str]
"""How deep it is indented, and what it says."""


def render(lines: Iterable[Line]) -> str:
    """The lines wrapped, with a hanging indent; a line without text stays empty."""
    out: list[str] = []
    for depth, text in lines:
        indent = "  " * depth
        out += wrap(
            text,
            WIDTH,
            initial_indent=indent,
            subsequent_indent=indent + "  ",
            break_long_words=False,
            break_on_hyphens=False,
        ) or [""]
    return "\n".join(out) + "\n"


def figure(x: float) -> str:
    """Four significant digits, with a true minus sign."""
    return f"{x:.4g}".replace("-", "\u2212")


def place(spot: Spot) -> str:
    """``file:line:column``."""
    return f"{spot.file}:{spot.line}:{spot.column}"


def interval(low: float, high: float) -> str:
    """Two numbers as a range."""
    return f"{figure(low)} to {figure(high)}"


def ratios(y: float, low: float, high: float) -> str:
    """A log ratio with its limits, as a ratio."""
    return f"exp({figure(y)}) = {figure(exp(y))}, from exp({figure(low)}) = {figure(exp(low))} to exp({figure(high)}) = {figure(exp(high))}"
