"""What studies found of a claim, as its author makes it."""

from __future__ import annotations

from dataclasses import dataclass

from ..terms import Claimed
from ..threshold import above, below, within
from ..wording.amounts import amount, percent, span
from .conclusions import ClaimFinding, Comparison


@dataclass(frozen=True)
class Judged:
    """A finding with its reason, one plain sentence."""

    finding: ClaimFinding
    reason: str


def judge(claimed: Claimed, comparison: Comparison, margin: float) -> Judged:
    """Hold a claim of ``more``, ``less`` or ``similar`` against the answer; ``margin`` is the ratio within which two count as alike."""
    if comparison.finding == "not studied":
        why = (
            "Something was printed for both, but no test of the two against each other and no number to weigh was read."
            if comparison.rows
            else "No study in this handbook has a number or a stated direction for this contrast."
        )
        return Judged("not studied", why)
    return Judged(_finding(claimed, comparison, margin), _reason(comparison, margin))


def _finding(claimed: Claimed, comparison: Comparison, margin: float) -> ClaimFinding:
    estimate, found, side = comparison.estimate, comparison.finding, comparison.side
    if claimed == "similar":
        if (
            estimate
            and comparison.sized
            and within(estimate.low, estimate.high, 1 / margin, margin)
        ):
            return "found"
        if (
            found == "found"
            and estimate
            and (above(estimate.low, margin) or below(estimate.high, 1 / margin))
        ):
            return "opposite"
        return "unclear"
    if found in ("found", "hinted") and side != claimed:
        return "opposite" if found == "found" else "unclear"
    return found


def _reason(comparison: Comparison, margin: float) -> str:
    estimate = comparison.estimate
    told = []
    if estimate and comparison.sized:
        told.append(
            f"The estimate is {amount(estimate.ratio)}, and its 95% interval runs {span(estimate.low, estimate.high)}"
        )
    elif estimate:
        told.append(
            f"No number says how much; a report of no difference leaves open what lies {span(estimate.low, estimate.high)}"
        )
    else:
        told.append("A direction was reported, and no number says how much")
    if comparison.more is not None and comparison.finding in ("hinted", "unclear"):
        ahead = max(comparison.more, 1 - comparison.more)
        told.append(f"the chance that the likelier side is ahead at all is {ahead:.0%}")
    if estimate and comparison.finding in ("alike", "unclear"):
        told.append(f"differences within {percent(margin)} count as alike")
    if comparison.measured != "part" and comparison.side:
        told.append("the part was not measured by itself")
    return "; ".join(told) + "."
