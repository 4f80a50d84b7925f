"""Inconsistency: whether studies point opposite ways, and whether they differ more than chance gives."""

from __future__ import annotations

from math import exp, log

from ..threshold import above, below
from ..wording.amounts import percent, samples
from .body import CertaintyRule, EvidenceBody, RatingStep, charged_once

#: p of the test for heterogeneity below which studies are said to differ. Convention: the test has little power
#: with few studies, so the bar is lower than 0.05.
HETEROGENEITY_P = 0.1
#: Shares of samples on the other side from which one and two levels are charged. Convention.
CONTRARY_SERIOUS = 1 / 3
CONTRARY_VERY_SERIOUS = 1 / 2

_TOGETHER = (
    "GRADE judges the spread of estimates, the overlap of their intervals and the test for heterogeneity together "
    "(doi:10.1186/1471-2288-8-79, Table 3)"
)
RULES = (
    CertaintyRule(
        "inconsistency-single",
        "inconsistency",
        "A single sample can neither agree nor disagree with another: said, not charged, because the spread that studies usually "
        "have is already in its interval.",
        "Convention of this handbook.",
    ),
    CertaintyRule(
        "inconsistency-contrary",
        "inconsistency",
        "One level if at least a third of the samples clearly show the other side (an interval or a test of their own that leaves "
        "out no difference), two if more than half do. Finding no difference is not the other side.",
        f"{_TOGETHER}. The shares are conventions of this handbook.",
    ),
    CertaintyRule(
        "inconsistency-spread",
        "inconsistency",
        f"One level if studies differ more than chance gives (p below {HETEROGENEITY_P:g}) and by more than counts as alike.",
        f"{_TOGETHER}. The p is a convention of this handbook.",
    ),
    CertaintyRule(
        "inconsistency-once",
        "inconsistency",
        "Spread and contrary sides are signs of one cause: only the weightiest costs.",
        "Convention of this handbook.",
    ),
    CertaintyRule(
        "inconsistency-none", "inconsistency", "Samples that agree cost nothing.", _TOGETHER + "."
    ),
)


def inconsistency(body: EvidenceBody) -> tuple[RatingStep, ...]:
    """Zero to two levels down."""
    if len(body.samples) < 2:
        return (
            RatingStep(
                "inconsistency-single",
                "inconsistency",
                0,
                "There is 1 sample, so whether studies agree cannot be judged.",
            ),
        )
    return charged_once([*_contrary(body), *_spread(body)], "inconsistency-once") or (
        RatingStep(
            "inconsistency-none",
            "inconsistency",
            0,
            f"No sample of {len(body.samples)} clearly points the other way.",
        ),
    )


def _contrary(body: EvidenceBody) -> list[RatingStep]:
    contrary = sum(sample.clear == -body.side for sample in body.samples)
    if not contrary:
        return []
    share = contrary / len(body.samples)
    levels = 2 if share > CONTRARY_VERY_SERIOUS else 1 if not below(share, CONTRARY_SERIOUS) else 0
    return [
        RatingStep(
            "inconsistency-contrary",
            "inconsistency",
            -levels,
            f"{contrary} of {samples(len(body.samples))} clearly {'shows' if contrary == 1 else 'show'} the other side.",
        )
    ]


def _spread(body: EvidenceBody) -> list[RatingStep]:
    p, spread = body.heterogeneity_p, body.spread
    if p is None or spread is None or p >= HETEROGENEITY_P or not above(spread, log(body.margin)):
        return []
    return [
        RatingStep(
            "inconsistency-spread",
            "inconsistency",
            -1,
            f"The studies differ more than chance gives (p {p:.2g}): their answers scatter by about {percent(exp(spread))}.",
        )
    ]
