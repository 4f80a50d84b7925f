"""Imprecision: how much the interval leaves open, and whether enough people stand behind it."""

from __future__ import annotations

from collections.abc import Iterator

from ...english import upper_first
from ..claims.verdict import RatioInterval, interval
from ..threshold import leaves_out, within
from ..wording.amounts import people, percent
from .body import CertaintyRule, EvidenceBody, RatingStep, charged_once
from .inconsistency import both_ways, spread_levels
from .information import OIS_DIFFERENCE, information

#: Share of the people needed below which a body is far too small. Convention.
FAR_BELOW = 0.5
#: Upper over lower bound from which an interval says next to nothing. Convention: the guidance allows
#: three levels, and what was read of it gives no width.
EXTREME_WIDTH = 3.0
#: Ratio from which an effect is implausibly large for a small body: the two-fold change that GRADE calls
#: large (doi:10.1016/j.jclinepi.2011.06.004, abstract; stated for relative risks). Convention for a ratio of means.
IMPLAUSIBLE = 2.0

_2022 = "GRADE guidance 34 (doi:10.1016/j.jclinepi.2022.07.014, abstract)"
#: What the formula in ``information`` gives, written out so that the formula is worked only when needed.
OIS_IN_WORDS = "200 in each of two groups, or 60 who do both at a correlation of 0.7"
RULES = (
    CertaintyRule(
        "imprecision-interval",
        "imprecision",
        "One level if the interval holds no difference and more than what counts as alike; two if it holds differences that matter "
        f"in both directions; three if it does and there are fewer than {FAR_BELOW:.0%} of the people needed or its upper bound is "
        f"{EXTREME_WIDTH:g} times its lower or more.",
        f"{_2022}: set the thresholds beforehand; an interval that clearly crosses them can cost two or three levels. "
        "Which crossing costs what is a convention of this handbook.",
    ),
    CertaintyRule(
        "imprecision-people",
        "imprecision",
        f"One level if fewer people took part than one adequately powered study needs ({OIS_IN_WORDS}, to find "
        f"{OIS_DIFFERENCE:g} standard deviations); two if fewer than {FAR_BELOW:.0%} of them did "
        f"and the effect is {IMPLAUSIBLE:g}-fold or more.",
        f"GRADE's optimal information size (doi:10.1016/j.jclinepi.2011.01.012, abstract) and {_2022}; the size from the two-sample "
        "normal formula, reduced for the same people on both sides, so that a crossover of a dozen is not held to 400.",
    ),
    CertaintyRule(
        "imprecision-correlation",
        "imprecision",
        "One level if the verdict changes over the stated range of within-person correlations.",
        "Convention of this handbook: a verdict that rests on an imputed number is less sure than its interval looks.",
    ),
    CertaintyRule(
        "imprecision-once",
        "imprecision",
        "These are signs of one cause, so only the weightiest counts; and width that comes from the spread between studies is not charged "
        "again where inconsistency was.",
        "GRADE: never charge twice. How it is counted is a convention of this handbook.",
    ),
    CertaintyRule(
        "imprecision-none",
        "imprecision",
        "A narrow interval with enough people behind it costs nothing.",
        _2022 + ".",
    ),
)


def imprecision(body: EvidenceBody) -> tuple[RatingStep, ...]:
    """Zero to three levels down."""
    enough = information(body)
    steps = charged_once(
        [*_interval(body, enough), *_people(body, enough), *_correlation(body)], "imprecision-once"
    )
    if steps:
        return steps
    told = (
        upper_first(interval(body.estimate)) if body.estimate else "There is no interval to judge"
    )
    return (
        RatingStep(
            "imprecision-none",
            "imprecision",
            0,
            f"{told}, and {people(body.people)} are {enough:.0%} of those needed.",
        ),
    )


def crossing(estimate: RatioInterval, margin: float, enough: float) -> int:
    """Levels for what an interval leaves open; ``enough`` is the share of the people needed."""
    if within(estimate.low, estimate.high, 1 / margin, margin) or leaves_out(
        estimate.low, estimate.high, 1
    ):
        return 0
    if not both_ways(estimate.low, estimate.high, margin):
        return 1
    return 3 if enough < FAR_BELOW or estimate.high / estimate.low >= EXTREME_WIDTH else 2


def _interval(body: EvidenceBody, enough: float) -> Iterator[RatingStep]:
    if body.estimate is None:
        return
    whole = crossing(body.estimate, body.margin, enough)
    levels = whole
    if body.common is not None:
        levels = max(crossing(body.common, body.margin, enough), whole - spread_levels(body))
    told = f"{upper_first(interval(body.estimate))}, where differences within {percent(body.margin)} count as alike"
    if levels < whole:
        yield RatingStep(
            "imprecision-once",
            "imprecision",
            -levels,
            f"{told}; what the spread between studies adds to its width is charged as inconsistency.",
        )
    elif levels:
        yield RatingStep("imprecision-interval", "imprecision", -levels, f"{told}.")


def _people(body: EvidenceBody, enough: float) -> Iterator[RatingStep]:
    if enough >= 1:
        return
    large = body.estimate is not None and not 1 / IMPLAUSIBLE < body.estimate.ratio < IMPLAUSIBLE
    levels = 2 if large and enough < FAR_BELOW else 1
    implausible = ", too few for an effect this large" if levels == 2 else ""
    yield RatingStep(
        "imprecision-people",
        "imprecision",
        -levels,
        f"{people(body.people)} are {enough:.0%} of those that one adequately powered study needs{implausible}.",
    )


def _correlation(body: EvidenceBody) -> Iterator[RatingStep]:
    if len(set(body.verdicts)) > 1:
        verdicts = " or ".join(f'"{verdict}"' for verdict in sorted(set(body.verdicts)))
        yield RatingStep(
            "imprecision-correlation",
            "imprecision",
            -1,
            f"The verdict is {verdicts} depending on the within-person correlation, which was imputed "
            f"({len(body.verdicts)} values tried).",
        )
