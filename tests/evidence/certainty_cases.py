"""Bodies of evidence for the tests of certainty: what keeps one high, and how to change it."""

from dataclasses import replace

from build_tools.evidence.certainty.body import EvidenceBody, RatedSample
from build_tools.evidence.terms import RatioInterval

DOMAINS = ("risk of bias", "inconsistency", "indirectness", "imprecision", "publication bias")
#: What keeps a body high: a trial, drawn by chance, appraised, read in full, with its spread printed.
TRIAL = RatedSample(
    "a", "parallel", "random", 400, "growth", "full text", risk_of_bias="low", clear=1
)
CROSSOVER = replace(
    TRIAL, design="acute-crossover", allocation="counterbalanced", n=70, outcome="activation"
)
CLEAR = RatioInterval(1.3, 1.2, 1.41)


def body(*samples, outcome="growth", estimate=CLEAR, **more):
    """Alike within 10%, large from 1.5, exercises usually 30% apart; the known interval is the answer's own unless told."""
    return EvidenceBody(
        outcome,
        samples or (TRIAL, replace(TRIAL, study="b")),
        margin=1.1,
        large=1.5,
        usual=0.3,
        estimate=estimate,
        **{"known": estimate, **more},
    )


def each(sample=TRIAL, **changes):
    """Two alike samples with a change to both."""
    return (replace(sample, **changes), replace(sample, study="b", **changes))


def charges(rated, domain):
    return -sum(step.change for step in rated.steps if step.domain == domain)


def charged(rated, domain=None):
    """The rules that cost something."""
    return {step.rule for step in rated.steps if step.change < 0 and domain in (None, step.domain)}


def rules(rated):
    return {step.rule for step in rated.steps} | {cap.rule for cap in rated.caps}
