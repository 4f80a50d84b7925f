"""What the numbers say to a claim: shown, leaning, not shown, contradicted or untested.

The estimate decides wherever there is one. Stated directions without a usable
spread are counted beside it, and alone they never show anything.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, inf, log
from typing import Literal

from ..threshold import above, below, leaves_out, within
from ..wording.amounts import amount, percent, samples, span

Verdict = Literal["shown", "leaning", "not shown", "contradicted", "untested"]
Claimed = Literal["more", "less", "similar"]

#: A claim leans only if at least this share of the 95% interval's length (log scale) lies where the
#: claim says. Convention: for a normal interval it puts the estimate about one standard error away
#: from no difference, so that an estimate of 0.1% more with a wide interval leans nowhere.
LEANING_SHARE = 0.75


@dataclass(frozen=True)
class RatioInterval:
    """A pooled ratio with its 95% interval; raises ``ValueError`` unless 0 < low <= ratio <= high < inf."""

    ratio: float
    low: float
    high: float
    bounded: bool = False
    """Whether the interval rests on nothing but bounds on p: it leaves out what they leave out, and its far end is not known."""

    def __post_init__(self) -> None:
        if not 0 < self.low <= self.ratio <= self.high < inf:
            raise ValueError(
                f"an estimate needs 0 < low <= ratio <= high, not {self.low:g}, {self.ratio:g}, {self.high:g}"
            )


@dataclass(frozen=True)
class Directions:
    """Independent samples whose paper states a direction for the contrast, without a usable spread."""

    more: int = 0
    less: int = 0
    neither: int = 0
    mixed: int = 0
    """Samples whose own measurements point different ways."""

    @property
    def total(self) -> int:
        """How many samples stated anything."""
        return self.more + self.less + self.neither + self.mixed

    def __str__(self) -> str:
        mixed = f", {self.mixed} different ways" if self.mixed else ""
        return f"{self.more} more, {self.less} less, {self.neither} no difference{mixed}"


@dataclass(frozen=True)
class Judged:
    """A verdict with its reason, one plain sentence."""

    verdict: Verdict
    reason: str


def verdict(
    claimed: Claimed, estimate: RatioInterval | None, directions: Directions, margin: float
) -> Judged:
    """Judge a claim of ``more``, ``less`` or ``similar`` by the estimate, else by the stated directions.

    ``margin`` is the ratio (above 1) within which two amounts count as alike.
    """
    if not margin > 1:
        raise ValueError(f"the margin is a ratio above 1, not {margin:g}")
    if estimate is None:
        return _by_directions(claimed, directions)
    found, reason = (
        _similar(estimate, margin)
        if claimed == "similar"
        else _different(claimed, estimate, margin)
    )
    if directions.total:
        reason += f"; beside it, {samples(directions.total)} without a usable spread stated a direction ({directions})"
    return Judged(found, f"{reason}.")


def interval(estimate: RatioInterval) -> str:
    """Where an estimate's interval runs, as a clause; of one that rests on bounds only what they leave out."""
    if estimate.bounded:
        return "only a bound on p is printed, so how far off the estimate could be is not known"
    return f"its 95% interval runs {span(estimate.low, estimate.high)}"


def share_within(estimate: RatioInterval, low: float, high: float) -> float:
    """Share of the interval's length (log scale) between two log ratios; a point counts whole or not at all."""
    start, end = log(estimate.low), log(estimate.high)
    if start == end:
        return float(within(start, start, low, high))
    return max(0.0, min(end, high) - max(start, low)) / (end - start)


def _different(claimed: Claimed, estimate: RatioInterval, margin: float) -> tuple[Verdict, str]:
    sign = 1 if claimed == "more" else -1
    near, far = sorted((sign * log(estimate.low), sign * log(estimate.high)))
    middle, enough = sign * log(estimate.ratio), log(margin)
    told, runs = f"The estimate is {amount(estimate.ratio)}", interval(estimate)
    if estimate.bounded and leaves_out(near, far, 0):
        on = "as claimed" if above(near, 0) else "against the claim"
        return (
            "shown" if above(near, 0) else "contradicted"
        ), f"{told}, {on}, and its test leaves out no difference; {runs}"
    if leaves_out(near, far, 0):
        shown = above(near, 0)
        side = "on the claimed side" if shown else "on the side opposite to the claim"
        inside = within(near, far, -enough, enough)
        trivial = (
            f", although all of it is within the {percent(margin)} that count as alike"
            if inside
            else ""
        )
        return ("shown" if shown else "contradicted"), f"{told}, and {runs}, wholly {side}{trivial}"
    if not above(middle, 0):
        return "not shown", f"{told}, not on the claimed side, and {runs}"
    if not above(middle, enough):
        return "not shown", f"{told}, within the {percent(margin)} that count as alike, and {runs}"
    if not below(share_within(estimate, *((0, inf) if sign > 0 else (-inf, 0))), LEANING_SHARE):
        return (
            "leaning",
            f"{told}, and {runs}, mostly on the claimed side but not leaving out that there is no difference",
        )
    return "not shown", f"{told}, but {runs}, too wide to lean on"


def _similar(estimate: RatioInterval, margin: float) -> tuple[Verdict, str]:
    low, high, middle, enough = (
        log(estimate.low),
        log(estimate.high),
        log(estimate.ratio),
        log(margin),
    )
    told = f"The estimate is {amount(estimate.ratio)} and {interval(estimate)}"
    alike = f"the {percent(exp(enough))} that count as alike"
    if within(low, high, -enough, enough):
        return "shown", f"{told}, wholly within {alike}"
    if above(low, enough) or below(high, -enough):
        return "contradicted", f"{told}, wholly beyond {alike}"
    if within(middle, middle, -enough, enough) and not below(
        share_within(estimate, -enough, enough), LEANING_SHARE
    ):
        return "leaning", f"{told}, mostly but not wholly within {alike}"
    return "not shown", f"{told}, so neither likeness nor a difference beyond {alike} can be told"


def _by_directions(claimed: Claimed, directions: Directions) -> Judged:
    if not directions.total:
        return Judged(
            "untested",
            "No study in this handbook has a number or a stated direction for this contrast.",
        )
    counts = {"more": directions.more, "less": directions.less, "similar": directions.neither}
    all_one = next((which for which, n in counts.items() if n == directions.total), None)
    told = (
        f"Nothing can be pooled, and {samples(directions.total)} stated a direction ({directions})"
    )
    if all_one is None:
        return Judged("not shown", f"{told}, which do not agree.")
    if all_one == claimed:
        agree = "all as claimed, which is a lean and no measure of size"
        missing = "no difference found, which is not yet likeness"
        return Judged("leaning", f"{told}, {missing if claimed == 'similar' else agree}.")
    if all_one == "similar":
        return Judged("not shown", f"{told}, so no difference was found.")
    return Judged("contradicted", f"{told}, all against the claim.")
