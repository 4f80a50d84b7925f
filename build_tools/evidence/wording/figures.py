"""Numbers in a sentence: what both sides gained, how far off that could be, on how many people and weeks.

``could be`` always tells the ends of the 95% interval.
"""

from __future__ import annotations

from typing import NamedTuple

from ...english import counted
from ..terms import Answer, Gains, RatioInterval
from ..threshold import above, below, leaves_out, meets
from .amounts import TIMES_FROM, amount, in_words, percent
from .amounts import people as counted_people
from .clauses import Compared
from .turning import once

#: Below so many people in each, studies are called small. Convention: two groups of 63 find half a standard deviation with 80% power
#: (the usual two-sample formula); those who do both need fewer.
SMALL = 100
#: From here a ratio's interval can be told in times at both ends.
_TOLD_IN_TIMES = 1.1


def size(answer: Answer, contrast: Compared, whose: bool) -> str:
    """What both sides gained or did, with the interval: ``about 18% against 11% (18% could be 14% to 22%)``.

    ``whose`` says which side a ratio is of, where the sentence has not named one that is ahead.
    """
    estimate = answer.estimate
    assert estimate is not None
    if answer.gains and fits(answer.gains, estimate):
        return gained(answer.gains, estimate)
    told = ratio(estimate, contrast, whose)
    if answer.printed and " against " in answer.printed:
        return f"{once(answer.printed)}, {told}"
    return told if whose or estimate.ratio == 1 else f"about {told}"


class GainsTold(NamedTuple):
    """What both sides gained, and what the first could be, as told: ``18%``, ``2% lost``."""

    first: str
    second: str
    low: str
    high: str

    @property
    def could(self) -> str:
        """The interval of the first's gain: ``14% to 22%``, ``from 2% lost to 15% gained``."""
        if self.low.endswith("lost"):
            high = self.high if self.high.endswith("lost") else f"{self.high} gained"
            return f"from {self.low} to {high}"
        return f"{self.low} to {self.high}"


def gains_told(gains: Gains, estimate: RatioInterval) -> GainsTold:
    """The gains of both sides; what the first could be follows from the second's and the ratio's interval.

    Whole per cent, or as many decimals as keep apart what the interval keeps apart.
    """
    low, high = (gains.second * end for end in (estimate.low, estimate.high))
    near = low if estimate.ratio > 1 else high
    apart = leaves_out(estimate.low, estimate.high, 1)
    decimals = next((d for d in (0, 1) if not apart or _gain(near, d) != _gain(gains.second, d)), 2)
    first, second = (_gain(x, decimals) for x in (gains.first, gains.second))
    return GainsTold(first, second, _gain(low, decimals), _gain(high, decimals))


def gained(gains: Gains, estimate: RatioInterval) -> str:
    """The gains of both sides in one clause: ``about 18% against 11% (18% could be 14% to 22%)``."""
    told = gains_told(gains, estimate)
    return f"about {told.first} against {told.second} ({told.first} could be {told.could})"


def ratio(estimate: RatioInterval, contrast: Compared, whose: bool) -> str:
    """A ratio with its interval: ``6% larger at the end (could be 3% to 9%)``; across no difference both ends say which way."""
    r, low, high = estimate.ratio, estimate.low, estimate.high
    told = "no difference" if meets(r, 1) else _told(r, contrast)
    if whose and not meets(r, 1):
        told += f" {contrast.of_first}"
    if not leaves_out(low, high, 1):
        could = f"{_end(low, contrast)} to {_end(high, contrast)}"
    elif r >= TIMES_FROM and low >= _TOLD_IN_TIMES:
        could = f"{low:.2g} to {high:.2g} times"
    elif high >= TIMES_FROM:
        could = f"{_end(low, contrast)} to {_end(high, contrast)}"
    else:
        near, far = (low, high) if r > 1 else (high, low)
        could = f"{_percent(near)} to {_percent(far)}"
    return f"{told}{contrast.after} (could be {could})"


def missed(answer: Answer, contrast: Compared) -> str:
    """What a report of no difference leaves open: ``. It was too small to rule out a difference of 6% in size either way``."""
    estimate, one = answer.estimate, answer.studies <= 1
    if estimate is None:
        return f". How large a difference {'it' if one else 'they'} could have missed is not known"
    who = "It was" if one else "Together they were"
    low, high = (f"{abs(x - 1) * 100:.0f}" for x in (1 / estimate.low, estimate.high))
    if low == high and estimate.high < TIMES_FROM:
        open_ = f"a difference of {_percent(estimate.high)}{contrast.quantity} either way"
    else:
        open_ = (
            f"{_end(estimate.low, contrast)} or {_end(estimate.high, contrast)} {contrast.of_first}"
        )
    how = ", going by similar studies" if answer.borrowed else ""
    return f". {who} too small to rule out {open_}{how}"


def support(answer: Answer, studies_told: bool) -> str:
    """On whom it rests: ``28 people, 12 weeks``; ``3 studies of 75 people, 6 to 12 weeks``; of a signal ``one session``.

    Studies that the sentence has told are not counted again.
    """
    people, n = _people(answer), answer.studies
    who = people if n <= 1 or studies_told else f"{counted(n, 'study', 'studies')} of {people}"
    return ", ".join(filter(None, (who if answer.people else "", weeks(answer))))


def who(answer: Answer) -> str:
    """Who found it, where the sentence must say so: ``one small study``."""
    if answer.path == "indirect":
        return "a comparison through other exercises"
    if not answer.studies:
        return "studies"
    small = "small " if answer.people < SMALL * answer.studies else ""
    return f"{in_words(answer.studies)} {small}{'study' if answer.studies == 1 else 'studies'}"


def whom(answer: Answer, of: int | None = None) -> str:
    """Who reported it, with all that is told of them: ``one study of 20 people over 12 weeks``, ``one of two studies (41 people)``."""
    long = weeks(answer)
    time = f" {'in' if long == _SESSION else 'over'} {long}" if long else ""
    n = answer.studies
    if of is not None and of < n:
        told = f"{in_words(of)} of {in_words(n)} studies"
        return f"{told} ({_people(answer)}{time})" if answer.people else told
    told = f"{in_words(n)} {'study' if n == 1 else 'studies'}" if n else "studies"
    return f"{told} of {_people(answer)}{time}" if answer.people else f"{told}{time}"


_SESSION = "one session"


def weeks(answer: Answer) -> str:
    """``12 weeks``, ``6 to 12 weeks``; a signal is of one session; nothing where it is not known."""
    return lasting(answer.question.outcome, answer.weeks)


def lasting(outcome: str, weeks: tuple[float, float] | None) -> str:
    """How long people trained, from the shortest to the longest; of a signal ``one session``."""
    if outcome in ("activation", "length"):
        return _SESSION if outcome == "activation" else ""
    if weeks is None:
        return ""
    shortest, longest = (f"{x:g}" for x in weeks)
    if shortest != longest:
        return f"{shortest} to {longest} weeks"
    return f"{shortest} week" if shortest == "1" else f"{shortest} weeks"


def _people(answer: Answer) -> str:
    groups = f" in {answer.groups} groups" if answer.groups else ""
    return f"{counted_people(answer.people)}{groups}"


def fits(gains: Gains, estimate: RatioInterval) -> bool:
    """Whether the gains tell the same as the estimate; else only the estimate is told."""
    own = gains.first / gains.second
    return not below(own, estimate.low) and not above(own, estimate.high)


def _gain(factor: float, decimals: int) -> str:
    """``18%``; a loss says so: ``2% lost``."""
    told = f"{abs(factor - 1) * 100:.{decimals}f}"
    if decimals:
        told = told.rstrip("0").rstrip(".")
    return f"{told}% lost" if factor < 1 and told != "0" else f"{told}%"


def _told(r: float, contrast: Compared) -> str:
    if r >= TIMES_FROM:
        return amount(r)
    return f"{_percent(r)} {contrast.larger if r > 1 else contrast.smaller}"


def _end(r: float, contrast: Compared) -> str:
    if r >= TIMES_FROM or meets(r, 1):
        return amount(r)
    return f"{_percent(r)} {(contrast.larger if r > 1 else contrast.smaller).split()[0]}"


def _percent(r: float) -> str:
    """A share in whole per cent, below one in its first digits: 1.053 -> ``5%``."""
    off = abs(r - 1) * 100
    return f"{off:.0f}%" if off >= 1 else percent(r)
