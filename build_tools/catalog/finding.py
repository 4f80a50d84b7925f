"""A finding: what is wrong, where, and what to write instead."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple


class Spot(NamedTuple):
    """A place in a catalog file: shown path, line and column (both from 1)."""

    file: str
    line: int
    column: int


@dataclass(frozen=True, order=True)
class Finding:
    """One thing to mend. ``rule`` is its permanent id, ``help`` says what to write instead."""

    rule: str
    spot: Spot
    message: str
    help: str
