"""What a distribution of a log ratio amounts to: found, hinted, alike or unclear."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import exp, log

from ..terms import EvidenceFinding, RatioInterval, Side
from ..threshold import above, below
from .posterior import Posterior, interval, quantile

#: Chance of being on its side from which an answer leans there. Convention: for a normal distribution it puts the
#: middle about one standard error away from no difference.
LEANING = 0.85
#: Chance that lies beyond either end of a 95% interval.
TAIL = 0.025


@dataclass(frozen=True, eq=False)
class Weighed:
    """An answer in numbers. Each is worked out when it is asked for: chances are cheap, ends of intervals are not."""

    posterior: Posterior
    margin: float
    """Ratio within which two count as alike."""

    @cached_property
    def _below(self) -> tuple[float, float, float]:
        """Chances of less than the margin to the second's side, than no difference, than the margin to the first's."""
        enough = log(self.margin)
        return tuple(self.posterior.below(x) for x in (-enough, 0.0, enough))  # type: ignore[return-value]

    @cached_property
    def classified(self) -> tuple[EvidenceFinding, Side | None]:
        """The finding and its side."""
        return classify(*self._below)

    @property
    def finding(self) -> EvidenceFinding:
        """What it amounts to."""
        return self.classified[0]

    @property
    def side(self) -> Side | None:
        """Which side is ahead, or leans ahead."""
        return self.classified[1]

    @property
    def more(self) -> float:
        """Chance that the first is ahead at all, 0 to 1."""
        return 1 - self._below[1]

    @property
    def matters(self) -> float:
        """Chance that one side, whichever is likelier, is ahead by at least the margin."""
        return max(self._below[0], 1 - self._below[2])

    @cached_property
    def estimate(self) -> RatioInterval:
        """The median ratio with its 95% interval."""
        return ratio_interval(quantile(self.posterior, 0.5), *interval(self.posterior))

    def mirrored(self) -> Weighed:
        """The same from the other side."""
        return Weighed(self.posterior.mirrored(), self.margin)


def classify(
    below_less: float, below_none: float, below_more: float
) -> tuple[EvidenceFinding, Side | None]:
    """The finding and its side, from the chances of less than the margin on the second's side, than none, than it on the first's.

    A difference that is found counts before likeness: an interval inside the margin that leaves out no difference
    is told as a difference too small to matter.
    """
    if below(below_none, TAIL):
        return "found", "more"
    if above(below_none, 1 - TAIL):
        return "found", "less"
    if not above(below_less, TAIL) and not below(below_more, 1 - TAIL):
        return "alike", None
    # The middle lies beyond the margin, and the chance of the side is enough.
    if below(below_more, 0.5) and not above(below_none, 1 - LEANING):
        return "hinted", "more"
    if above(below_less, 0.5) and not below(below_none, LEANING):
        return "hinted", "less"
    return "unclear", None


def ratio_interval(y: float, low: float, high: float) -> RatioInterval:
    """A ratio with its interval, from log ratios."""
    # exp of equal logs may differ in the last digit, which must not turn an interval inside out.
    ratio = exp(y)
    return RatioInterval(ratio, min(exp(low), ratio), max(exp(high), ratio))
