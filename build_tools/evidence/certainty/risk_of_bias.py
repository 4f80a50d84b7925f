"""Risk of bias: what the authors appraised, or that nobody has."""

from __future__ import annotations

from collections import Counter

from ..terms import Level
from ..wording.amounts import samples
from .appraisal import RULE
from .body import CertaintyRule, EvidenceBody, RatingStep, Risk

#: Points a sample counts, weighted by its people; the rounded mean is the number of levels. Not appraised
#: costs as much as some concerns: an unread risk is no low risk. Convention.
POINTS: dict[Risk | None, int] = {"low": 0, "some": 1, None: 1, "high": 2}
_CALLED = {
    "low": "at low risk",
    "some": "with some concerns",
    None: "not appraised",
    "high": "at high risk",
}

RULES = (
    CertaintyRule(
        "risk-of-bias",
        "risk of bias",
        "Each sample counts 0 (low risk), 1 (some concerns, or not appraised) or 2 (high risk); the mean over the people, rounded, "
        f"is the number of levels down. The risk follows from answers that a study's own page lists. {RULE}",
        "GRADE: serious costs one level, very serious two (doi:10.1016/j.jclinepi.2022.07.014, abstract). RoB 2: a judgement follows "
        "from signalling questions (doi:10.1136/bmj.l4898, abstract and tool site). Which questions are asked, which answers make "
        "which judgement, the points, and that not appraised costs one, are conventions of this handbook.",
    ),
    CertaintyRule(
        "risk-of-bias-once",
        "risk of bias",
        "Evidence that already starts low is charged one level less here.",
        "GRADE: confounding is charged either by starting low or under risk of bias, never twice (doi:10.1016/j.jclinepi.2018.01.012; "
        "the detail from memory).",
    ),
)


def risk_of_bias(body: EvidenceBody, start: Level) -> RatingStep:
    """Zero to two levels down, one fewer for a body that starts low."""
    mean = sum(POINTS[sample.risk_of_bias] * sample.n for sample in body.samples) / body.people
    levels = int(mean + 0.5)
    counts = Counter(sample.risk_of_bias for sample in body.samples)
    told = ", ".join(f"{counts[risk]} {_CALLED[risk]}" for risk in POINTS if counts[risk])
    reason = f"Of {samples(len(body.samples))} with {body.people} people: {told}"
    if start == "low" and levels:
        return RatingStep(
            "risk-of-bias-once",
            "risk of bias",
            -(levels - 1),
            f"{reason}; one level of this is already charged by starting low.",
        )
    return RatingStep("risk-of-bias", "risk of bias", -levels, f"{reason}.")
