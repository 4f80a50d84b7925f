"""Inconsistency: whether studies agree, by their spread and by the directions stated beside the estimate."""

from __future__ import annotations

from ..claims.verdict import RatioInterval
from ..threshold import above, below, within
from ..wording.amounts import samples, span
from .body import CertaintyRule, EvidenceBody, RatingStep, charged_once

#: Where I² (per cent) is called substantial and considerable: the lower ends of the overlapping ranges
#: 50-90 and 75-100 (doi:10.1186/1471-2288-8-79, Table 3, quoting the Cochrane Handbook).
I2_SUBSTANTIAL = 50.0
I2_CONSIDERABLE = 75.0
#: Shares of samples stating the contrary from which one and two levels are charged. Convention.
CONTRARY_SERIOUS = 1 / 3
CONTRARY_VERY_SERIOUS = 1 / 2

_TOGETHER = (
    "GRADE judges the spread of estimates, the overlap of their intervals, the test and I² together "
    "(doi:10.1186/1471-2288-8-79, Table 3, for the ranges of I²)"
)
RULES = (
    CertaintyRule(
        "inconsistency-single",
        "inconsistency",
        "A single sample can neither agree nor disagree with another: said, not charged.",
        "Convention of this handbook.",
    ),
    CertaintyRule(
        "inconsistency-i2",
        "inconsistency",
        f"I² of {I2_SUBSTANTIAL:.0f}% or more costs one level; {I2_CONSIDERABLE:.0f}% or more costs two if the prediction interval also "
        "reaches differences that matter in both directions. Nothing is charged while that interval stays within what counts as alike.",
        f"{_TOGETHER}. Which range costs what is a convention of this handbook.",
    ),
    CertaintyRule(
        "inconsistency-prediction",
        "inconsistency",
        "One level if a new study could find a difference that matters in either direction although the estimate's own interval does not.",
        f"{_TOGETHER}. The use of the prediction interval is a convention of this handbook.",
    ),
    CertaintyRule(
        "inconsistency-directions",
        "inconsistency",
        "One level if at least a third of all samples state the contrary direction, two if more than half do.",
        "Convention of this handbook: studies without a usable spread still count against a number they contradict.",
    ),
    CertaintyRule(
        "inconsistency-once",
        "inconsistency",
        "Spread and contrary directions are signs of one cause: only the weightiest costs.",
        "Convention of this handbook.",
    ),
    CertaintyRule(
        "inconsistency-none", "inconsistency", "Samples that agree cost nothing.", _TOGETHER + "."
    ),
)


def inconsistency(body: EvidenceBody) -> tuple[RatingStep, ...]:
    """Zero to two levels down; spread and contrary directions are signs of one cause."""
    if body.voices < 2:
        return (
            RatingStep(
                "inconsistency-single",
                "inconsistency",
                0,
                "There is 1 sample, so whether studies agree cannot be judged.",
            ),
        )
    steps = [*_spread(body), *_directions(body)]
    told = body.directions
    nulls = (
        f"; {samples(told.neither)} found no difference"
        if told.neither and (told.more or told.less or body.estimate)
        else ""
    )
    i2 = f" (I² {body.i2:.0f}%)" if body.i2 is not None else ""
    return charged_once(steps, "inconsistency-once") or (
        RatingStep(
            "inconsistency-none",
            "inconsistency",
            0,
            f"The {samples(body.voices)}{i2} point no opposite ways{nulls}.",
        ),
    )


def spread_levels(body: EvidenceBody) -> int:
    """Levels charged for the spread between studies that contrary directions alone would not have cost."""
    spread, contrary = (
        [-step.change for step in steps] for steps in (_spread(body), _directions(body))
    )
    return max(0, max(spread, default=0) - max(contrary, default=0))


def both_ways(low: float, high: float, margin: float) -> bool:
    """Whether an interval holds differences that matter in both directions."""
    return below(low, 1 / margin) and above(high, margin)


def _spread(body: EvidenceBody) -> list[RatingStep]:
    if body.estimate is None or len(body.samples) < 2:
        return []
    return [step for step in (_i2(body), _prediction(body, body.estimate)) if step]


def _i2(body: EvidenceBody) -> RatingStep | None:
    if body.i2 is None or body.i2 < I2_SUBSTANTIAL:
        return None
    figures = [f"I² is {body.i2:.0f}%"]
    figures += [f"tau² {body.tau2:.2g}"] if body.tau2 is not None else []
    figures += [f"p of the test for heterogeneity {body.q_p:.2g}"] if body.q_p is not None else []
    told, levels = ", ".join(figures), 1
    if body.prediction:
        low, high = body.prediction
        told += f"; a new study would be expected {span(low, high)}"
        if within(low, high, 1 / body.margin, body.margin):
            levels, told = 0, told + ", all of which counts as alike"
        elif body.i2 >= I2_CONSIDERABLE and both_ways(low, high, body.margin):
            levels = 2
    return RatingStep("inconsistency-i2", "inconsistency", -levels, f"{told}.")


def _prediction(body: EvidenceBody, estimate: RatioInterval) -> RatingStep | None:
    if (
        not body.prediction
        or not both_ways(*body.prediction, body.margin)
        or both_ways(estimate.low, estimate.high, body.margin)
    ):
        return None
    return RatingStep(
        "inconsistency-prediction",
        "inconsistency",
        -1,
        f"A new study would be expected {span(*body.prediction)}, either way by an amount that matters, "
        f"while the estimate's interval runs {span(estimate.low, estimate.high)}.",
    )


def _directions(body: EvidenceBody) -> list[RatingStep]:
    told = body.directions
    if body.estimate is None or body.estimate.ratio == 1:
        contrary = min(told.more, told.less)
    else:
        contrary = told.less if body.estimate.ratio > 1 else told.more
    if not contrary:
        return []
    share = contrary / body.voices
    levels = 2 if share > CONTRARY_VERY_SERIOUS else 1 if share >= CONTRARY_SERIOUS else 0
    return [
        RatingStep(
            "inconsistency-directions",
            "inconsistency",
            -levels,
            f"{contrary} of {samples(body.voices)} state the contrary direction ({told}).",
        )
    ]
