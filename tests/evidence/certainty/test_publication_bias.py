"""Publication bias is said and never charged; the number of studies is common practice, from memory."""

from dataclasses import replace

import pytest
from certainty_cases import TRIAL, body

from build_tools.evidence.certainty.publication_bias import ENOUGH_STUDIES
from build_tools.evidence.certainty.rating import certainty


@pytest.mark.parametrize("k", [1, 9, 10, 30])
def test_publication_bias_is_said_and_not_charged(k):
    rated = certainty(body(*(replace(TRIAL, study=str(n)) for n in range(k))))
    (step,) = [step for step in rated.steps if step.domain == "publication bias"]
    assert step.change == 0 and ("would be enough to look" in step.reason) == (k >= ENOUGH_STUDIES)


def test_two_samples_of_one_study_are_one_study():
    rated = certainty(body(*(replace(TRIAL, n=n) for n in range(1, 12))))
    assert "fewer than 10" in next(s.reason for s in rated.steps if s.domain == "publication bias")
