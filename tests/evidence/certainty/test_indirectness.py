"""Indirectness: at most one level for the comparison, at most one for the measurement."""

from dataclasses import replace
from itertools import product

import pytest
from certainty_cases import TRIAL, body, charges, each, rules

from build_tools.evidence.certainty.body import Incoherence
from build_tools.evidence.certainty.rating import certainty

COVERS = {"grade_nma_skip_indirect", "grade_nma_incoherence"}


@pytest.mark.parametrize(
    ("differs", "indirect", "incoherent"), list(product([False, True], repeat=3))
)
def test_one_cause_of_indirect_comparison_is_charged_once(differs, indirect, incoherent):
    """grade_nma_incoherence: intransitivity, indirectness and incoherence are not charged for one cause."""
    rated = certainty(
        body(
            *each(differs=differs),
            direct_share=0.2 if indirect else 1.0,
            incoherence=Incoherence(0.01, 1.5) if incoherent else None,
        )
    )
    present = sum((differs, indirect, incoherent))
    assert charges(rated, "indirectness") == min(1, present)
    assert sum(step.rule == "indirectness-once" for step in rated.steps) == max(0, present - 1)


@pytest.mark.parametrize(("measured_as", "levels"), [("part", 0), ("together", 1), ("whole", 1)])
def test_what_was_measured_costs_at_most_one_level(measured_as, levels):
    rated = certainty(body(*each(measured_as=measured_as)))
    assert charges(rated, "indirectness") == levels
    assert ("indirectness-none" in rules(rated)) == (not levels)
    both = certainty(body(*each(measured_as=measured_as, differs=True)))
    assert charges(both, "indirectness") == levels + 1


def test_a_weakness_of_few_people_is_said_but_not_charged():
    few = replace(TRIAL, study="b", n=100, differs=True, measured_as="together")
    rated = certainty(body(TRIAL, few))
    assert {"indirectness-exercise", "indirectness-measurement"} <= rules(rated)
    assert rated.level == "high"


@pytest.mark.parametrize(("share", "levels"), [(1, 0), (0.5, 0), (0.49, 1), (0, 1)])
def test_direct_evidence_that_weighs_as_much_spares_the_indirect(share, levels):
    """grade_nma_skip_indirect."""
    assert charges(certainty(body(direct_share=share)), "indirectness") == levels


@pytest.mark.parametrize(
    ("p", "ratio", "levels"), [(0.01, 1.5, 1), (0.01, 1.05, 0), (0.3, 1.5, 0), (0.01, 0.8, 1)]
)
def test_incoherence_must_be_clear_and_matter(p, ratio, levels):
    assert charges(certainty(body(incoherence=Incoherence(p, ratio))), "indirectness") == levels
    mirrored = body(incoherence=Incoherence(p, ratio).mirrored())
    assert charges(certainty(mirrored), "indirectness") == levels
