"""How many weekly sets an accessory begins with, from the goal's range of weekly sets and the least number of days."""

from __future__ import annotations

from math import ceil, floor

from ..catalog.entries import Doses


def sets(part: str, held: float, doses: Doses) -> int:
    """What ``part`` with ``held`` sets a week lacks of the low end; above it, what is left to the high end.

    Never fewer than one, nor more than the low end spread over the least number of days: it all goes to one day.
    """
    ends, days = doses.weekly_sets.ends(part), doses.weekly_sessions.low or 1.0
    low, high = ends.low or 1.0, ends.high
    most = max(1, ceil(low / days))
    room = ceil(low - held) if held < low else most if high is None else floor(high - held)
    return max(1, min(room, most))
