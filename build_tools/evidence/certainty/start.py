"""Where the rating starts: by design, and by how people came to the sides."""

from __future__ import annotations

from ..terms import Level
from .body import MOST, CertaintyRule, EvidenceBody, RatedSample, RatingStep

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
        "start-allocation",
        "start",
        "A sample whose people chose their own side starts low. One whose allocation was not read starts as its design does: "
        "not knowing is charged under risk of bias.",
        "GRADE: without random allocation a comparison is observational (doi:10.1016/j.jclinepi.2018.01.012, Table 1). "
        "That silence is charged elsewhere is a convention of this handbook.",
    ),
)


def start(body: EvidenceBody) -> tuple[Level, RatingStep]:
    """The starting level, ``high`` or ``low``, and why."""
    share = body.share(lambda sample: starts_high(sample, body.outcome))
    level: Level = "high" if share >= MOST else "low"
    chosen = body.share(lambda sample: sample.allocation == "self-chosen")
    if level == "low" and chosen:
        return level, RatingStep(
            "start-allocation",
            "start",
            0,
            f"Starts low: {chosen:.0%} of {body.people} people chose their side themselves.",
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
    if sample.allocation == "self-chosen":
        return False
    return sample.design in TRIALS or (
        sample.design == SINGLE_SESSION and outcome in SINGLE_SESSION_OUTCOMES
    )
