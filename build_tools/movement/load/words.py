"""One plain phrase on how the load runs through the range, from a curve's summary."""

from __future__ import annotations

from .curve import HIGH, Summary

#: A peak within this share of the repetition from an end is said to lie near that end.
NEAR_END = 0.25
#: A vertical travel of the load (metres) from which on the ends of a repetition are called bottom and top.
TRAVEL = 0.10

#: What is said where the load is not known.
MACHINE = "depends on the machine"


def ends(start_height: float, end_height: float) -> tuple[str, str]:
    """What to call the two ends of a repetition, from the height (metres) of what is lifted or lowered."""
    if abs(end_height - start_height) < TRAVEL:
        return "the start", "the end"
    return ("the bottom", "the top") if end_height > start_height else ("the top", "the bottom")


def load_phrase(
    summary: Summary | None, joint: str, called: tuple[str, str] = ("the start", "the end")
) -> str:
    """How the load about one joint runs through the range, as a phrase without a full stop.

    "about the same throughout" where it never falls below 80 % of its peak; otherwise where it peaks: within a quarter of the
    repetition from an end, or in the middle; then where it falls below 10 % of the peak, and whether it changes sides.
    ``summary`` is None where nothing loads the joint; ``called`` names the start and the end.
    """
    if summary is None:
        return f"almost no load about the {joint}"
    if summary.lowest >= HIGH:
        return "about the same throughout"
    start, end = called
    phrase = f"hardest {_where(summary.peak_share, start, end)}"
    if summary.changes_sign:
        return f"{phrase}, and changes from one side of the {joint} to the other on the way"
    gone = [_where_gone(stretch, start, end) for stretch in summary.vanishes]
    return f"{phrase}, with almost none {' and '.join(dict.fromkeys(gone))}" if gone else phrase


def _where(share: float, start: str, end: str) -> str:
    if share <= NEAR_END:
        return f"near {start}"
    return f"near {end}" if share >= 1 - NEAR_END else "in the middle"


def _where_gone(stretch: tuple[float, float], start: str, end: str) -> str:
    first, last = stretch
    if first <= 1e-9:
        return f"near {start}"
    return f"near {end}" if last >= 1 - 1e-9 else "on the way"
