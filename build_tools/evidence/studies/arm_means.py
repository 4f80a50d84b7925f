"""What one arm of a study showed, as the log of a mean or of a growth factor."""

from __future__ import annotations

from collections.abc import Collection
from math import sqrt

from ...catalog.entries import Moment, Study, Value
from ..effects import inputs
from ..effects.quartiles import from_quartiles
from ..effects.ratio import (
    LogMean,
    growth_factor,
    log_growth_from_percent,
    log_growth_from_pre_post,
    log_mean,
)
from ..effects.spread import sd_from_ci, sd_from_se, within_person_correlation
from ..threshold import below
from .reading import Reading

#: Outcomes whose number is a change; a level after training says nothing of them. Of the others the level counts.
CHANGES = {"growth", "strength"}


#: A mean must lie this many standard errors above zero for a ratio to be taken of it: below, the logarithm of a mean is neither
#: normal nor near its first-order variance (Geary's test as Lajeunesse applies it to log response ratios, Ecology archive
#: E096-181, summary seen; the threshold from memory).
FROM_ZERO = 3.0

#: Where a correlation is from when nobody printed it.
ASSUMED = "the handbook's convention"


class Unusable(Exception):
    """A value or contrast without a usable spread, and why, in plain words. It is listed, not pooled."""


def arm_log_mean(reading: Reading, arm: str) -> LogMean:
    """Log of an arm's mean (activation) or of its growth factor (growth, strength).

    Of a change printed in several ways, the one whose spread asks for the least guessing counts.
    """
    value = reading.result.values[arm]
    refuse_kind(value, reading.outcome)
    n = reading.people(arm)
    if n is None:
        raise Unusable("group sizes were not read")
    if (
        value.pre
        and value.post
        and _spread_is_printed(value.pre)
        and _spread_is_printed(value.post)
    ):
        sds = [_sd(moment, n) for moment in (value.pre, value.post)]
        correlation, _ = before_after(reading, value, n)
        return log_growth_from_pre_post(
            value.pre.mean, sds[0], value.post.mean, sds[1], n, correlation
        )
    if value.pre and value.change is not None:
        # The spread of the change, as a share of the mean before, is that of people's growth factors to first order.
        before = inputs.mean(value.pre.mean)
        return log_growth_from_percent(100 * value.change / before, 100 * _sd(value, n) / before, n)
    if value.median is not None and value.quartiles is None:
        raise Unusable("a median without its quartiles has no spread")
    refuse_near_zero(value, n)
    if value.median is not None and value.quartiles is not None:
        return log_mean(*from_quartiles(value.quartiles[0], value.median, value.quartiles[1], n), n)
    sd = _sd(value, n)
    if value.change_percent is not None:
        return log_growth_from_percent(value.change_percent, sd, n)
    assert value.mean is not None  # no other kind is left
    return log_mean(value.mean, sd, n)


def before_after(reading: Reading, value: Value, n: int) -> tuple[float, str]:
    """Correlation of people's values before and after, and where it is from: printed, taken back from the change, or assumed."""
    if value.correlation is not None:
        return value.correlation, "printed"
    if value.pre and value.post and value.change is not None and _spread_is_printed(value):
        return within_person_correlation(
            _sd(value.pre, n), _sd(value.post, n), _sd(value, n)
        ), "taken back from the spread of the change"
    return reading.correlation("before_after"), ASSUMED


def rests_on_correlation(reading: Reading, arm: str) -> bool:
    """Whether the spread of an arm's change was had with an assumed correlation."""
    value, n = reading.result.values[arm], reading.people(arm)
    moments = (
        value.pre
        and value.post
        and _spread_is_printed(value.pre)
        and _spread_is_printed(value.post)
    )
    return bool(moments and n and before_after(reading, value, n)[1] == ASSUMED)


def refuse_kind(value: Value, outcome: str) -> None:
    """Refuse a number that is no amount of ``outcome``, so that changes and levels never meet in one ratio."""
    if outcome in CHANGES:
        if value.change is not None and value.pre is None:
            raise Unusable("a change without the value before it has no ratio")
        if value.change_percent is None and value.pre is None:
            raise Unusable("a level after training is no change")
    elif value.mean is None and value.median is None:
        raise Unusable("a change over time is no amount of this outcome")


def refuse_near_zero(value: Value, n: int) -> None:
    """Refuse a level of ``n`` people whose printed spread leaves it within three standard errors of zero."""
    mean, sd = value.mean, 0.0
    if value.median is not None and value.quartiles is not None:
        mean, sd = from_quartiles(value.quartiles[0], value.median, value.quartiles[1], n)
    elif mean is not None and _spread_is_printed(value):
        sd = _sd(value, n)
    if mean is not None and mean > 0 and sd > 0 and below(mean * sqrt(n) / sd, FROM_ZERO):
        raise Unusable("its mean is within three standard errors of zero, so no ratio can be taken")


def factor(value: Value) -> float:
    """Growth factor of a change, whichever way it was printed. Raises ``EvidenceError`` when there was nothing before."""
    if value.pre and value.post:
        return value.post.mean / inputs.mean(value.pre.mean)
    if value.pre and value.change is not None:
        return 1 + value.change / inputs.mean(value.pre.mean)
    assert value.change_percent is not None  # refuse_kind lets nothing else through
    return growth_factor(value.change_percent)


def compared(study: Study, treatments: Collection[str] | None = None) -> int:
    """People in the arms that did an exercise (one of ``treatments`` if given), without those of a control group.

    All of them when group sizes were not read.
    """
    sizes = [
        arm.n
        for arm in study.arms.values()
        if arm.treatment and (treatments is None or arm.treatment in treatments)
    ]
    return study.people.n if study.same_people or None in sizes else min(study.people.n, sum(sizes))  # type: ignore[arg-type]


def groups(study: Study) -> int | None:
    """Over how many groups the people of ``compared`` spread, when the sizes of those that count were not read; else ``None``."""
    if (
        study.same_people
        or len(study.arms) < 3
        or None not in [arm.n for arm in study.arms.values() if arm.treatment]
    ):
        return None
    return len(study.arms)


def _spread_is_printed(spread: Moment | Value) -> bool:
    return (spread.sd, spread.se, spread.ci95) != (None, None, None)


def _sd(spread: Moment | Value, n: int) -> float:
    sd, se, ci = spread.sd, spread.se, spread.ci95
    if sd is not None:
        return sd
    if se is not None:
        return sd_from_se(se, n)
    if ci is not None:
        return sd_from_ci(ci[0], ci[1], n)
    raise Unusable("no spread reported")
