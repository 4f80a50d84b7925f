"""The rating as a whole: five reasons, authors' overrides, and every published rule shown at work.

What GRADE says, and what was read of it, stands in ``statistics.yaml`` (area ``grade``).
"""

from dataclasses import replace

import pytest
from certainty_cases import DOMAINS, TRIAL, body, each, rules
from statistics_reference import entry

from build_tools.evidence.certainty.body import Incoherence
from build_tools.evidence.certainty.imprecision import IMPLAUSIBLE
from build_tools.evidence.certainty.rating import RULES, Override, certainty
from build_tools.evidence.terms import RatioInterval

COVERS = {"grade_down", "grade_up", "grade_up_large"}


def test_the_five_reasons_are_each_considered_exactly_as_named():
    """grade_down: five reasons; every rating says something on each."""
    assert {rule.domain for rule in RULES} - {"start", "cap", "authored"} == set(DOMAINS)
    assert {step.domain for step in certainty(body()).steps} == {"start", *DOMAINS}


@pytest.mark.parametrize("ratio", [2.5, 6, 0.3])
def test_nothing_is_rated_up_by_rule(ratio):
    """grade_up and grade_up_large: the thresholds are for relative risks; a large ratio of means lifts nothing here."""
    estimate = RatioInterval(ratio, ratio * 0.98, ratio * 1.02)
    assert certainty(body(*each(design="observational"), estimate=estimate)).level == "low"
    assert IMPLAUSIBLE == entry("grade_up_large")["expected"]["thresholds"]["rr_one_level"][1]


def test_an_override_needs_a_reason_and_a_reference():
    for because, cites in (("", ("key",)), ("Reason.", ()), (" ", ("key",)), ("Reason.", ("",))):
        with pytest.raises(ValueError, match="both a reason and a reference"):
            Override("low", because, cites)
    with pytest.raises(ValueError, match="a level is one of"):
        Override("good", "Reason.", ("key",))


def test_an_override_is_shown_as_a_step_and_lifts_no_cap():
    lowered = certainty(body(), Override("low", "The trainers measured.", ("lantern2020",)))
    last = lowered.steps[-1]
    assert (lowered.level, last.rule, last.change) == ("low", "authored", -2)
    assert last.reason == "Set to low by the authors: The trainers measured (lantern2020)."
    raised = certainty(
        body(*each(read="abstract", risk_of_bias="high")),
        Override("high", "Dose and response.", ("lantern2020",)),
    )
    assert raised.level == "moderate" and "held at moderate by a cap" in raised.steps[-1].reason


def test_rules_are_ready_for_publication():
    ids = [rule.id for rule in RULES]
    assert len(ids) == len(set(ids))
    for rule in RULES:
        assert rule.says.endswith(".") and rule.source.endswith(".")


WIDE = RatioInterval(1.2, 0.98, 1.5)
CONTRARY = (TRIAL, replace(TRIAL, study="b", clear=-1))
#: Each rule and a body in which it speaks, so that the Methods page lists none that never could.
CASES = {
    "start-design": body(),
    "start-allocation": body(*each(allocation="self-chosen")),
    "risk-of-bias": body(*each(risk_of_bias="high")),
    "risk-of-bias-once": body(*each(design="observational", risk_of_bias="high")),
    "inconsistency-single": body(TRIAL),
    "inconsistency-contrary": body(*CONTRARY),
    "inconsistency-spread": body(heterogeneity_p=0.01, spread=0.2),
    "inconsistency-once": body(*CONTRARY, heterogeneity_p=0.01, spread=0.2),
    "inconsistency-none": body(),
    "indirectness-exercise": body(*each(differs=True)),
    "indirectness-comparison": body(direct_share=0.2),
    "indirectness-incoherence": body(incoherence=Incoherence(0.01, 1.5)),
    "indirectness-once": body(*each(differs=True), direct_share=0.2),
    "indirectness-measurement": body(*each(measured_as="whole")),
    "indirectness-none": body(),
    "imprecision-interval": body(estimate=WIDE),
    "imprecision-information": body(estimate=RatioInterval(1.6, 1.45, 1.77)),
    "imprecision-unknown": body(*each(spread="unknown")),
    "imprecision-correlation": body(findings=("found", "hinted")),
    "imprecision-once": body(estimate=WIDE, findings=("unclear", "hinted")),
    "imprecision-none": body(),
    "publication-bias": body(),
    "cap-read": body(*each(read="record")),
    "cap-directions": body(*each(spread="significant"), estimate=None),
}


@pytest.mark.parametrize("rule", [rule.id for rule in RULES])
def test_every_rule_speaks_for_some_body(rule):
    if rule == "authored":
        assert rule in rules(certainty(body(), Override("moderate", "Reason.", ("key",))))
    else:
        assert rule in rules(certainty(CASES[rule]))


def test_no_rule_speaks_that_is_not_published():
    said = set().union(*(rules(certainty(told)) for told in CASES.values()))
    assert said | {"authored"} == {rule.id for rule in RULES}
