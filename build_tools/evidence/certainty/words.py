"""How sure and how large, in words: certainty and size become the pieces of a sentence.

The pattern is GRADE's (doi:10.1016/j.jclinepi.2019.10.014): a statement is a
certainty word times a size word. The phrases are our own.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log
from typing import Literal

from ..threshold import below
from .body import Level

Size = Literal["trivial", "small", "moderate", "large"]

#: What each level says of the estimate, after GRADE's own definitions (doi:10.1186/1741-7015-10-33, Table 1).
MEANING: dict[Level, str] = {
    "high": "We are very confident that the true difference is close to this estimate.",
    "moderate": "The true difference is probably close to this estimate, but it may be quite different.",
    "low": "The true difference may be quite different from this estimate.",
    "very low": "The true difference is likely to be quite different from this estimate.",
}

_DEGREE: dict[Size, str] = {
    "trivial": "little or not at all",
    "small": "slightly",
    "moderate": "",
    "large": "much",
}


@dataclass(frozen=True)
class Sizes:
    """Ratios (each above 1, rising) from which a difference is called small, moderate and large."""

    small: float
    moderate: float
    large: float

    def __post_init__(self) -> None:
        if not 1 < self.small < self.moderate < self.large:
            raise ValueError(
                f"sizes are rising ratios above 1, not {self.small:g}, {self.moderate:g}, {self.large:g}"
            )


@dataclass(frozen=True)
class Phrase:
    """Pieces of a sentence on a difference: ``opening`` + subject + ``verb(...)`` + ``degree`` + the rest."""

    level: Level
    opening: str
    """``it is very uncertain whether``, or nothing."""
    degree: str
    """``much``, ``slightly``, ``little or not at all``, or nothing."""

    def verb(self, plain: str, infinitive: str) -> str:
        """The verb in the level's mood: ``gives``, ``probably gives``, ``may give``; ``is probably`` for forms of be."""
        if self.level == "low":
            return f"may {infinitive}"
        if self.level == "moderate":
            return f"{plain} probably" if infinitive == "be" else f"probably {plain}"
        return plain


def phrase(level: Level, size: Size) -> Phrase:
    """The pieces for a level and a size; at very low certainty no size is told."""
    if level == "very low":
        return Phrase(level, "it is very uncertain whether", "")
    return Phrase(level, "", _DEGREE[size])


def size(ratio: float, sizes: Sizes) -> Size:
    """How large a ratio is, alike for a ratio and its inverse."""
    far = abs(log(ratio))
    if below(far, log(sizes.small)):
        return "trivial"
    return (
        "small"
        if below(far, log(sizes.moderate))
        else "moderate"
        if below(far, log(sizes.large))
        else "large"
    )
