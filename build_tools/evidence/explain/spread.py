"""How the log ratio of one result and its standard error were had, in words with the numbers.

Each sentence repeats a formula of ``arm_means``, ``arm_blocks`` or ``printed_contrasts`` with
what went into it; the results themselves are asked of those modules, never reckoned twice.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import sqrt

from ...catalog.entries import Contrast, Result, Value
from ..effects.ratio import LogMean
from ..effects.spread import critical, t_from_p
from ..studies.arm_blocks import correlations
from ..studies.arm_means import ASSUMED, CHANGES, Unusable, arm_log_mean, before_after, factor
from ..studies.printed_contrasts import contrast_log_ratio, degrees_of_freedom
from ..studies.reading import Reading
from .text import figure, interval


def of_arms(reading: Reading, arms: Mapping[str, str], pair: tuple[str, str]) -> Iterator[str]:
    """Arms that print a spread each (arm to exercise), then how those of ``pair`` make a ratio."""
    means = {id: arm_log_mean(reading, id) for id in arms}
    sides = [[id for id in arms if arms[id] == exercise] for exercise in pair]
    for id in sides[0] + sides[1]:
        yield _arm(reading, id, means[id])
    if any(len(side) > 1 for side in sides):
        yield "Several arms of one exercise stand for it with their average."
        return
    [a], [b] = sides
    if reading.study.same_people:
        r, taken_back = correlations(reading, means)
        correlation = float(r[list(arms).index(a), list(arms).index(b)])
        back = taken_back and correlation != reading.correlation("arms")
        yield _same_people(
            means[a], means[b], correlation, "taken back from the paired test" if back else ASSUMED
        )
    else:
        yield _different_people(means[a], means[b])


def of_parts(readings: tuple[Reading, Reading], arm: str) -> Iterator[str]:
    """Two parts in one arm, each with a spread."""
    means = [arm_log_mean(reading, arm) for reading in readings]
    for reading, mean in zip(readings, means, strict=True):
        yield f"{', '.join(reading.result.parts)}: {_arm(reading, arm, mean)}"
    yield _same_people(means[0], means[1], readings[0].correlation("parts"), ASSUMED)


def of_contrast(reading: Reading, contrast: Contrast) -> str:
    """A contrast whose standard error is taken back from what the paper prints of it."""
    if contrast.of_part:
        df: float = (reading.people(contrast.of) or 0) - 1
        named = f"{contrast.of_part} against {contrast.against_part}"
    else:
        df = degrees_of_freedom(reading, contrast)
        arms = reading.study.arms
        named = f"{arms[contrast.of].called} against {arms[contrast.against].called}"
    try:
        estimate, how = contrast_log_ratio(reading, contrast, df)
    except Unusable as why:
        return f"{named}: {why}."
    y, se = figure(estimate.y), figure(estimate.se)
    size = f"|{y}|"
    if contrast.ratio and contrast.ratio.ci95:
        low, high = contrast.ratio.ci95
        told = (
            f"its printed 95% interval is {interval(low, high)}; ln({figure(high)} / {figure(low)}) over 2 × {figure(critical(df))}, "
            f"the t of {df:g} degrees of freedom, gives a standard error of {se}"
        )
    elif "printed spread" in how:
        told = f"the printed spread of the difference, over the logarithmic mean of the two amounts, gives a standard error of {se}"
    elif contrast.t:
        told = f"t = {figure(contrast.t)}, and {size} over it gives a standard error of {se}"
    else:
        p = contrast.p or 1.0
        told = (
            f"p = {p:g} with {df:g} degrees of freedom gives t = {figure(t_from_p(p, df))}, and {size} over it gives "
            f"a standard error of {se}"
        )
    return f"{named}: log ratio {_ratio(reading.result, contrast, estimate.y)} = {y}; {told}."


def _ratio(result: Result, contrast: Contrast, y: float) -> str:
    if contrast.ratio:
        return f"ln({figure(contrast.ratio.value)})"
    if contrast.of not in result.values and contrast.difference and contrast.difference.start:
        return f"ln(1 + {figure(contrast.difference.value)} / {figure(contrast.difference.start)})"
    of, against = (_amount(result.values[arm]) for arm in (contrast.of, contrast.against))
    return f"ln({of} / {against})"


def _amount(value: Value) -> str:
    return figure(value.mean) if value.mean is not None else figure(factor(value))


def _arm(reading: Reading, id: str, mean: LogMean) -> str:
    value, n = reading.result.values[id], reading.people(id)
    called = reading.study.arms[id].called
    if value.pre and value.post and n:
        r, source = before_after(reading, value, n)
        return (
            f"{called}: ln({figure(value.post.mean)} / {figure(value.pre.mean)}) = {figure(mean.log)} in {n} people, whose values "
            f"before and after correlate by {figure(r)} ({source}): variance {figure(mean.c)}, {_corrected(mean)}"
        )
    if value.median is not None and value.quartiles:
        given = f"median {figure(value.median)}, quartiles {interval(*value.quartiles)}, which make a mean and an SD by the closed formulae"
    else:
        spread = next(
            (
                f"{name} {figure(x)}"
                for name, x in (("SD", value.sd), ("SE", value.se))
                if x is not None
            ),
            "",
        )
        if value.se is not None:
            spread += f" (SD {figure(value.se)} × √{n} = {figure(value.se * sqrt(n or 0))})"
        if value.ci95:
            spread = f"95% interval {interval(*value.ci95)}, read with t"
        growth = f"growth factor {figure(factor(value))}" if reading.outcome in CHANGES else ""
        given = f"{growth or 'mean ' + figure(value.mean or 0.0)}, {spread}"
    return f"{called}: {given}, {n} people: log {figure(mean.log)}, variance (SD / mean)² / n = {figure(mean.c)}, {_corrected(mean)}"


def _corrected(mean: LogMean) -> str:
    return f"and {figure(mean.correction)} added for the small sample: {figure(mean.y)}."


def _different_people(a: LogMean, b: LogMean) -> str:
    return (
        f"Different people: log ratio {figure(a.y)} − {figure(b.y)} = {figure(a.y - b.y)}, variance {figure(a.c)} + {figure(b.c)} = "
        f"{figure(a.c + b.c)}, standard error {figure(sqrt(a.c + b.c))}."
    )


def _same_people(a: LogMean, b: LogMean, r: float, source: str) -> str:
    v = a.c + b.c - 2 * r * sqrt(a.c * b.c)
    return (
        f"The same people: log ratio {figure(a.y)} − {figure(b.y)} = {figure(a.y - b.y)}, correlation {figure(r)} ({source}), "
        f"variance {figure(a.c)} + {figure(b.c)} − 2 × {figure(r)} × √({figure(a.c)} × {figure(b.c)}) = {figure(v)}, "
        f"standard error {figure(sqrt(v))}."
    )
