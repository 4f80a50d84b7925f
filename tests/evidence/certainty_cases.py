"""Bodies of evidence for the tests of certainty: what keeps one high, and how to change it."""

from dataclasses import replace

from build_tools.evidence.certainty.rating import EvidenceBody, RatedSample
from build_tools.evidence.claims.verdict import RatioInterval

DOMAINS = ("risk of bias", "inconsistency", "indirectness", "imprecision", "publication bias")
#: What keeps a body high: a trial with enough people, appraised, read in full.
TRIAL = RatedSample("a", "parallel", 400, "growth", "full text", paired=False, risk_of_bias="low")
CROSSOVER = RatedSample(
    "a",
    "acute-crossover",
    70,
    "activation",
    "full text",
    paired=True,
    correlation=0.7,
    risk_of_bias="low",
)
CLEAR = RatioInterval(1.3, 1.2, 1.41)


def body(*samples, outcome="growth", estimate=CLEAR, **more):
    return EvidenceBody(
        outcome, samples or (TRIAL, replace(TRIAL, study="b")), 1.1, estimate, **more
    )


def each(sample=TRIAL, **changes):
    """Two alike samples with a change to both."""
    return (replace(sample, **changes), replace(sample, study="b", **changes))


def charges(rated, domain):
    return -sum(step.change for step in rated.steps if step.domain == domain)


def rules(rated):
    return {step.rule for step in rated.steps} | {cap.rule for cap in rated.caps}
