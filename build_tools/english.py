"""Small pieces of English that sentences are made of."""

from __future__ import annotations

from collections.abc import Sequence


def listed(words: Sequence[str]) -> str:
    """``a, b and c``."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def counted(n: int, one: str, many: str | None = None) -> str:
    """``1 study``, ``2 studies``, ``1,200 errors``."""
    return f"{n:,} {one if n == 1 else many or one + 's'}"


def upper_first(text: str) -> str:
    """The text with a capital first letter."""
    return text[:1].upper() + text[1:]


def lower_first(text: str) -> str:
    """The text with a small first letter, unless its first word is an abbreviation."""
    return text[:1].lower() + text[1:] if text[1:2].islower() or text[1:2] == " " else text
