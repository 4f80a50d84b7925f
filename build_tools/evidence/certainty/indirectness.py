"""Indirectness: another exercise, another measurement, or a comparison that nobody made head to head."""

from __future__ import annotations

from collections.abc import Iterator

from ..wording.amounts import percent
from .body import HALF, CertaintyRule, EvidenceBody, RatingStep, charged_once

#: p below which direct and indirect evidence are said to disagree. Convention: the test has little power,
#: so the bar is lower than 0.05.
INCOHERENCE_P = 0.1

_ONCE = (
    "GRADE: intransitivity, indirectness and incoherence are not charged for one and the same cause "
    "(doi:10.1016/j.jclinepi.2018.11.025, abstract)"
)
RULES = (
    CertaintyRule(
        "indirectness-exercise",
        "indirectness",
        f"One level if {HALF:.0%} of the people or more did an exercise that differs from ours.",
        "GRADE's indirectness of the intervention; the share is a convention of this handbook.",
    ),
    CertaintyRule(
        "indirectness-comparison",
        "indirectness",
        f"One level if less than {HALF:.0%} of the estimate's weight comes from studies that compared the two exercises directly.",
        "GRADE: the indirect estimate need not be rated when the direct one contributes at least as much "
        "(doi:10.1016/j.jclinepi.2017.10.005, abstract). "
        "That it costs one level, and for direct evidence of any certainty, is a convention of this handbook.",
    ),
    CertaintyRule(
        "indirectness-incoherence",
        "indirectness",
        f"One level if direct and indirect evidence for this very comparison disagree (p below {INCOHERENCE_P:g}) by more than "
        "counts as alike.",
        "GRADE: a test of the whole network says nothing on one comparison (doi:10.1016/j.jclinepi.2017.10.005, abstract); rate down "
        "when the two differ in a way that matters (doi:10.1016/j.jclinepi.2018.11.025, abstract). The p is a convention.",
    ),
    CertaintyRule(
        "indirectness-once",
        "indirectness",
        "These three (another exercise, indirect comparison, disagreement) cost one level together.",
        _ONCE + ".",
    ),
    CertaintyRule(
        "indirectness-measurement",
        "indirectness",
        f"One level if for {HALF:.0%} of the people or more the part was measured together with others or only as its whole muscle.",
        "GRADE's indirectness of the outcome; the share is a convention of this handbook.",
    ),
    CertaintyRule(
        "indirectness-none",
        "indirectness",
        "The exercises and the part as asked for, compared directly, cost nothing.",
        "Convention of this handbook.",
    ),
)


def indirectness(body: EvidenceBody) -> tuple[RatingStep, ...]:
    """Zero to two levels down: at most one for the comparison, at most one for the measurement."""
    steps = (*charged_once(_comparison(body), "indirectness-once"), *_measurement(body))
    return steps or (
        RatingStep(
            "indirectness-none",
            "indirectness",
            0,
            f"All {body.people} people did the exercises asked for, and the part itself was measured.",
        ),
    )


def _comparison(body: EvidenceBody) -> Iterator[RatingStep]:
    if share := body.share(lambda sample: sample.differs):
        yield RatingStep(
            "indirectness-exercise",
            "indirectness",
            -(share >= HALF),
            f"{share:.0%} of {body.people} people did an exercise that differs from the one asked for.",
        )
    if body.direct_share < 1:
        yield RatingStep(
            "indirectness-comparison",
            "indirectness",
            -(body.direct_share < HALF),
            f"{body.direct_share:.0%} of the estimate's weight comes from studies that compared the two directly.",
        )
    if incoherence := body.incoherence:
        matters = not 1 / body.margin <= incoherence.ratio <= body.margin
        disagree = incoherence.p < INCOHERENCE_P and matters
        yield RatingStep(
            "indirectness-incoherence",
            "indirectness",
            -disagree,
            f"Direct and indirect evidence differ by {percent(incoherence.ratio)} (p {incoherence.p:.2g}), "
            f"which is {'a disagreement that matters' if disagree else 'no clear disagreement'}.",
        )


def _measurement(body: EvidenceBody) -> Iterator[RatingStep]:
    share = body.share(lambda sample: sample.measured_as != "part")
    if share:
        whole = body.share(lambda sample: sample.measured_as == "whole")
        yield RatingStep(
            "indirectness-measurement",
            "indirectness",
            -(share >= HALF),
            f"For {share:.0%} of {body.people} people the part was not measured alone (for {whole:.0%} only the whole muscle was).",
        )
