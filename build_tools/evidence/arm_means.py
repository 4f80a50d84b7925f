"""What one arm of a study showed, as the log of a mean or of a growth factor."""

from __future__ import annotations

from ..catalog.entries import Study, Value
from .conventions import Settings
from .effects.quartiles import from_quartiles
from .effects.ratio import LogMean, log_growth_from_percent, log_growth_from_pre_post, log_mean
from .effects.spread import sd_from_ci, sd_from_se

#: Outcomes whose number is a change; a level after training says nothing of them. Of the others the level counts.
CHANGES = {"growth", "strength"}


class Unusable(Exception):
    """A value or contrast without a usable spread, and why, in plain words. It is listed, not pooled."""


def arm_log_mean(study: Study, arm: str, value: Value, outcome: str, settings: Settings) -> LogMean:
    """Log of an arm's mean (activation) or of its growth factor (growth, strength)."""
    refuse_kind(value, outcome)
    n = people(study, arm, value)
    if n is None:
        raise Unusable("group sizes were not read")
    if value.pre and value.post:
        sds = [_sd(moment, n) for moment in (value.pre, value.post)]
        return log_growth_from_pre_post(value.pre.mean, sds[0], value.post.mean, sds[1], n, settings.pre_post)
    if value.median is not None:
        if value.quartiles is None:
            raise Unusable("a median without its quartiles has no spread")
        return log_mean(*from_quartiles(value.quartiles[0], value.median, value.quartiles[1], n), n)
    sd = _sd(value, n)
    if value.change_percent is not None:
        return log_growth_from_percent(value.change_percent, sd, n)
    assert value.mean is not None  # no other kind is left
    return log_mean(value.mean, sd, n)


def refuse_kind(value: Value, outcome: str) -> None:
    """Refuse a number that is no amount of ``outcome``, so that changes and levels never meet in one ratio."""
    if outcome in CHANGES:
        if value.change is not None:
            raise Unusable("a change without the value before it has no ratio")
        if value.change_percent is None and value.pre is None:
            raise Unusable("a level after training is no change")
    elif value.mean is None and value.median is None:
        raise Unusable("a change over time is no amount of this outcome")


def compared(study: Study) -> int:
    """People in the arms that did an exercise, without those of a control group; all of them when group sizes were not read."""
    sizes = [arm.n for arm in study.arms.values() if arm.exercise]
    return study.people.n if study.same_people or None in sizes else min(study.people.n, sum(sizes))  # type: ignore[arg-type]


def people(study: Study, arm: str, value: Value | None = None) -> int | None:
    """How many people an arm's number rests on; ``None`` when only the whole study's number is known."""
    own = value.n if value and value.n else study.arms[arm].n
    return own or (study.people.n if study.same_people else None)


def _sd(spread: object, n: int) -> float:
    sd, se, ci = getattr(spread, "sd"), getattr(spread, "se"), getattr(spread, "ci95")  # noqa: B009 - Moment or Value
    if sd is not None:
        return sd
    if se is not None:
        return sd_from_se(se, n)
    if ci is not None:
        return sd_from_ci(ci[0], ci[1], n)
    raise Unusable("no spread reported")
