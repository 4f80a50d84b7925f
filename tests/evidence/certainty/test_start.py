"""Where the rating starts. What GRADE says, and what was read of it, stands in ``statistics.yaml`` (area ``grade``)."""

from dataclasses import replace

import pytest
from certainty_cases import CROSSOVER, TRIAL, body, each, rules

from build_tools.evidence.certainty.rating import certainty
from build_tools.evidence.certainty.start import start, starts_high

COVERS = {"grade_start"}


@pytest.mark.parametrize(
    ("design", "outcome", "level"),
    [
        ("parallel", "growth", "high"),
        ("within-participant", "growth", "high"),
        ("parallel", "activation", "high"),
        ("acute-crossover", "activation", "high"),
        ("acute-crossover", "growth", "low"),
        ("one-group", "growth", "low"),
        ("observational", "growth", "low"),
        ("cadaver", "length", "low"),
    ],
)
def test_the_start_follows_design_and_question(design, outcome, level):
    rated = certainty(body(*each(design=design), outcome=outcome))
    assert rated.start == rated.level == level
    assert starts_high(replace(TRIAL, design=design), outcome) == (level == "high")


@pytest.mark.parametrize(
    ("allocation", "level", "rule"),
    [
        ("random", "high", "start-design"),
        ("counterbalanced", "high", "start-design"),
        # silence is charged under risk of bias
        ("not stated", "high", "start-design"),
        ("self-chosen", "low", "start-allocation"),
    ],
)
def test_people_who_chose_their_side_are_no_trial(allocation, level, rule):
    """grade_start: without random allocation a comparison is observational."""
    found, step = start(body(*each(allocation=allocation)))
    assert (found, step.rule, step.change) == (level, rule, 0)
    assert (
        certainty(body(*each(CROSSOVER, allocation=allocation), outcome="activation")).start
        == level
    )


@pytest.mark.parametrize("weakness", [{"design": "observational"}, {"allocation": "self-chosen"}])
def test_a_small_study_of_another_kind_does_not_move_the_start(weakness):
    small, large = (replace(TRIAL, study="b", n=n, **weakness) for n in (100, 200))
    assert certainty(body(TRIAL, small)).start == "high"
    assert certainty(body(TRIAL, large)).start == "low"


def test_the_step_says_how_many():
    rated = certainty(body(TRIAL, replace(TRIAL, study="b", n=100, design="observational")))
    assert rated.steps[0].reason.startswith(
        "Starts high: 80% of 500 people"
    ) and "start-design" in rules(rated)
