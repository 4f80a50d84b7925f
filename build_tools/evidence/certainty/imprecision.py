"""Imprecision: how much the answer leaves open, told by its width and never by a count of people."""

from __future__ import annotations

from collections.abc import Iterator
from math import log

from ...english import upper_first
from ..terms import RatioInterval
from ..threshold import above, below, leaves_out, within
from ..wording.amounts import percent, span
from .body import HALF, CertaintyRule, EvidenceBody, RatingStep, charged_once

#: Information below this share is far too little. Convention.
FAR_BELOW = 0.5
#: An effect this many times as far from no difference as exercises usually lie is implausibly large for a small body.
#: Convention, after the two-fold change that GRADE calls large (doi:10.1016/j.jclinepi.2011.06.004, abstract; stated
#: for relative risks): what is large differs between growth and activation.
IMPLAUSIBLE = 2.0
#: Standard errors from no difference at which a study finds a difference of the margin in 80 of 100 cases
#: (1.96 + 0.84), the two-sample normal formula that the optimal information size rests on.
_POWERED = 2.80
_STANDARD_ERRORS = 2 * 1.96

_2022 = "GRADE guidance 34 (doi:10.1016/j.jclinepi.2022.07.014, abstract)"
RULES = (
    CertaintyRule(
        "imprecision-interval",
        "imprecision",
        "One level if the interval holds no difference and more than what counts as alike; two if it holds differences that matter "
        "in both directions; three if it holds large ones in both.",
        f"{_2022}: set the thresholds beforehand; an interval that clearly crosses them can cost two or three levels. "
        "Which crossing costs what is a convention of this handbook.",
    ),
    CertaintyRule(
        "imprecision-information",
        "imprecision",
        "Only for an interval that leaves out no difference, and a large effect: one level if it is wider than that of a body that would "
        "find the smallest difference that matters in 8 of 10 cases; "
        f"two if there is less than {FAR_BELOW:.0%} of that information and the effect is {IMPLAUSIBLE:g} times as far from no "
        "difference as exercises usually lie, or more.",
        f"GRADE's optimal information size (doi:10.1016/j.jclinepi.2011.01.012, abstract) and {_2022}. Here it is read off the width "
        "itself, so that no correlation has to be assumed for it.",
    ),
    CertaintyRule(
        "imprecision-unknown",
        "imprecision",
        f"Where no spread was printed for {HALF:.0%} of the people or more, nobody knows how wide the interval is. Three levels; two if "
        "every such report is of a test that left out no difference.",
        "Convention of this handbook: the charge of the widest interval that the report allows, so that a paper never gains by "
        "printing less.",
    ),
    CertaintyRule(
        "imprecision-correlation",
        "imprecision",
        "One level if the finding changes over the stated range of within-person correlations.",
        "Convention of this handbook: a finding that rests on an imputed number is less sure than its interval looks.",
    ),
    CertaintyRule(
        "imprecision-once",
        "imprecision",
        "These are signs of one cause, so only the weightiest counts.",
        "GRADE: never charge twice. How it is counted is a convention of this handbook.",
    ),
    CertaintyRule(
        "imprecision-none",
        "imprecision",
        "A narrow interval costs nothing.",
        _2022 + ".",
    ),
)


def imprecision(body: EvidenceBody) -> tuple[RatingStep, ...]:
    """Zero to three levels down."""
    told = _widest(body)
    steps = charged_once(
        [
            *(_interval(told, body) if told else ()),
            *(_information(told, body) if told else ()),
            *_unknown(body),
            *_correlation(body),
        ],
        "imprecision-once",
    )
    if steps:
        return steps
    assert told is not None  # without an interval the spread is unknown, which is charged
    return (
        RatingStep(
            "imprecision-none",
            "imprecision",
            0,
            f"{upper_first(_runs(told))}, narrow enough.",
        ),
    )


def information(estimate: RatioInterval, margin: float) -> float:
    """What a body tells as a share of what is needed: 1 when it would find a difference of the margin in 8 of 10 cases."""
    se = log(estimate.high / estimate.low) / _STANDARD_ERRORS
    return (log(margin) / _POWERED / se) ** 2 if se else float("inf")


def crossing(estimate: RatioInterval, margin: float, large: float) -> int:
    """Levels for what an interval leaves open."""
    if within(estimate.low, estimate.high, 1 / margin, margin) or leaves_out(
        estimate.low, estimate.high, 1
    ):
        return 0
    if not _both_ways(estimate, margin):
        return 1
    return 3 if _both_ways(estimate, large) else 2


def _both_ways(estimate: RatioInterval, ratio: float) -> bool:
    """Whether an interval holds such differences in both directions."""
    return below(estimate.low, 1 / ratio) and above(estimate.high, ratio)


def _widest(body: EvidenceBody) -> RatioInterval | None:
    """The interval that is charged: what reports without a spread narrow is not believed."""
    found = [estimate for estimate in (body.estimate, body.known) if estimate]
    return max(
        found,
        key=lambda e: (crossing(e, body.margin, body.large), log(e.high / e.low)),
        default=None,
    )


def _runs(estimate: RatioInterval) -> str:
    return f"the 95% interval runs {span(estimate.low, estimate.high)}"


def _interval(estimate: RatioInterval, body: EvidenceBody) -> Iterator[RatingStep]:
    if levels := crossing(estimate, body.margin, body.large):
        yield RatingStep(
            "imprecision-interval",
            "imprecision",
            -levels,
            f"{upper_first(_runs(estimate))}, where differences within {percent(body.margin)} count as alike.",
        )


def _information(estimate: RatioInterval, body: EvidenceBody) -> Iterator[RatingStep]:
    enough = information(estimate, body.margin)
    large = not below(abs(log(estimate.ratio)), log(body.large))
    if not below(enough, 1) or not large or not leaves_out(estimate.low, estimate.high, 1):
        return
    implausible = not below(abs(log(estimate.ratio)), IMPLAUSIBLE * body.usual)
    levels = 2 if implausible and below(enough, FAR_BELOW) else 1
    much = ", too little for an effect this large" if levels == 2 else ""
    yield RatingStep(
        "imprecision-information",
        "imprecision",
        -levels,
        f"The width of the interval is {enough:.0%} of the information that a difference of {percent(body.margin)} asks for{much}.",
    )


def _unknown(body: EvidenceBody) -> Iterator[RatingStep]:
    share = body.share(lambda sample: sample.spread in ("significant", "unknown"))
    if share < HALF:
        return
    bare = body.share(lambda sample: sample.spread == "unknown")
    levels = 3 if bare else 2
    why = "" if bare else ", only that a test left out no difference"
    yield RatingStep(
        "imprecision-unknown",
        "imprecision",
        -levels,
        f"For {share:.0%} of {body.people} people no spread was printed{why}.",
    )


def _correlation(body: EvidenceBody) -> Iterator[RatingStep]:
    if len(set(body.findings)) > 1:
        findings = " or ".join(f'"{finding}"' for finding in sorted(set(body.findings)))
        yield RatingStep(
            "imprecision-correlation",
            "imprecision",
            -1,
            f"The finding is {findings} depending on the within-person correlation, which was imputed "
            f"({len(body.findings)} values tried).",
        )
