"""An estimate with its variance."""

from __future__ import annotations

import math
from typing import NamedTuple


class Effect(NamedTuple):
    """One number and the variance of its sampling error, in the unit of the number and its square."""

    y: float
    v: float

    @property
    def se(self) -> float:
        """The standard error."""
        return math.sqrt(self.v)
