"""Where the rating starts: by design, and by whether the outcome asked for is the one that was measured."""

from __future__ import annotations

from ..wording.amounts import samples
from .body import MOST, CertaintyRule, EvidenceBody, Level, RatedSample, RatingStep

TRIALS = frozenset({"within-participant", "parallel"})
#: What a single session can answer: activation differs at once, growth cannot.
SINGLE_SESSION = "acute-crossover"
SINGLE_SESSION_OUTCOMES = frozenset({"activation"})

RULES = (
    CertaintyRule(
        "start-design",
        "start",
        "Trials start high, and so do single-session comparisons when activation is asked for. Everything else starts low. "
        f"The body starts high when at least {MOST:.0%} of its people are in samples that do.",
        "GRADE: randomised trials start high, observational studies low (doi:10.1016/j.jclinepi.2018.01.012, Table 1). "
        "That a single session counts as a trial of activation, and the share, are conventions of this handbook.",
    ),
    CertaintyRule(
        "start-outcome",
        "start",
        "A sample in which another outcome was measured than the one asked for, such as activation for growth, starts low.",
        "GRADE's indirectness, charged at the start so that it is not charged again. Convention of this handbook.",
    ),
)


def start(body: EvidenceBody) -> tuple[Level, RatingStep]:
    """The starting level, ``high`` or ``low``, and why."""
    share = body.share(lambda sample: starts_high(sample, body.outcome))
    level: Level = "high" if share >= MOST else "low"
    other = [sample for sample in body.samples if sample.measured != body.outcome]
    if level == "low" and other:
        kinds = " and ".join(sorted({sample.measured for sample in other}))
        return level, RatingStep(
            "start-outcome",
            "start",
            0,
            f"Starts low: {len(other)} of {samples(len(body.samples))} measured {kinds}, "
            f"which cannot stand for {body.outcome}.",
        )
    designs = "trials or single-session comparisons suited to the question"
    return level, RatingStep(
        "start-design",
        "start",
        0,
        f"Starts {level}: {share:.0%} of {body.people} people took part in {designs}.",
    )


def starts_high(sample: RatedSample, outcome: str) -> bool:
    """Whether this sample alone would start high for the outcome asked for."""
    if sample.measured != outcome:
        return False
    return sample.design in TRIALS or (
        sample.design == SINGLE_SESSION and outcome in SINGLE_SESSION_OUTCOMES
    )
