"""Risk of bias as charged: averaged over people, never twice with the start."""

from dataclasses import replace

import pytest
from certainty_cases import TRIAL, body, charges, each

from build_tools.evidence.certainty.rating import certainty

COVERS = {"grade_start_with_robins_i"}


@pytest.mark.parametrize(
    ("risks", "levels"),
    [
        (("low", "low"), 0),
        (("low", "some"), 1),
        (("some", "some"), 1),
        ((None, None), 1),
        (("low", None), 1),
        (("high", "low"), 1),
        (("high", "some"), 2),
        (("high", None), 2),
        (("high", "high"), 2),
    ],
)
def test_risk_of_bias_is_averaged_over_people(risks, levels):
    rated = certainty(
        body(*(replace(TRIAL, study=str(n), risk_of_bias=risk) for n, risk in enumerate(risks)))
    )
    assert charges(rated, "risk of bias") == levels
    [told] = [step.reason for step in rated.steps if step.domain == "risk of bias"]
    assert ("not appraised" in told) == (None in risks)


def test_confounding_is_not_charged_both_at_the_start_and_as_bias():
    """grade_start_with_robins_i: the same end point by either road, never charged twice."""
    observed = certainty(body(*each(design="observational", risk_of_bias=None)))
    assert (observed.start, observed.level, charges(observed, "risk of bias")) == ("low", "low", 0)
    assert certainty(body(*each(risk_of_bias="high"))).level == "low"
    high = certainty(body(*each(design="observational", risk_of_bias="high")))
    assert charges(high, "risk of bias") == 1
