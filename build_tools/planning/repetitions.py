"""How many repetitions a set has, as a handout writes it: ``8``, ``8-12``, or seconds held: ``30s``, ``20-40s``."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ..handout.limits import FIELDS, Text


@dataclass(frozen=True)
class Repetitions:
    """A number or a range; of seconds where the posture is held."""

    low: int
    high: int
    held: bool = False

    @classmethod
    def read(cls, text: str) -> Repetitions:
        """Raises ValueError for anything that a handout cannot say, with what to write instead."""
        form = FIELDS["repetitions"]
        assert isinstance(form, Text)
        numbers = [int(digits) for digits in re.findall("[0-9]+", text)]
        if not re.fullmatch(form.pattern, text) or numbers != sorted(set(numbers)):
            raise ValueError(f"{text[:20]!r} is no number of repetitions; write 8, 8-12, or 30s for a hold")
        return cls(numbers[0], numbers[-1], text.endswith("s"))
