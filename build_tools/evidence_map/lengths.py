"""How long a part is while an exercise asks most of it, and the word for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ..movement.course import Course
from ..movement.curve_words import OUTER
from ..movement.length.length import Repetition, percent

LengthWord = Literal["long", "middle", "short"]


@dataclass(frozen=True)
class WorkingLength:
    """How long a part is while the exercise asks most of it."""

    word: LengthWord
    """Long and short are the outer thirds of the part's own range, as everywhere in the handbook."""
    share: float
    """Of its own range (0-1), not rounded."""
    hard: bool
    """Whether it is the mean while the load is near its peak; else the mean of the whole repetition, as no load is known."""

    @property
    def percent(self) -> int:
        """The share as it is published, per cent to the nearest ten."""
        return percent(self.share)

    @property
    def long_under_load(self) -> bool:
        """Whether the part is long while the load is near its peak."""
        return self.hard and self.word == "long"


def working_length(course: Course, part: str) -> WorkingLength | None:
    """The length of a part of an exercise; None where the model does not know it."""
    share = course.length_when_hard(part)
    if share is None or not isinstance(course.lengths.get(part), Repetition):
        return None
    at = percent(share)
    return WorkingLength(
        "long" if at >= OUTER else "short" if at <= 100 - OUTER else "middle",
        share,
        part in course.loads,
    )
