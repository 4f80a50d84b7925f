"""Imprecision by what the interval leaves open. The arithmetic of the information size is that of ``statistics.yaml``."""

from dataclasses import replace
from math import exp, log, sqrt

import pytest
from certainty_cases import TRIAL, body, charged, charges, each, rules
from scipy import stats
from statistics_reference import entry

from build_tools.evidence.certainty.imprecision import crossing, information
from build_tools.evidence.certainty.rating import certainty
from build_tools.evidence.terms import RatioInterval

COVERS = {
    "grade_imprecision_2011",
    "grade_imprecision_2022",
    "grade_ois_400",
    "grade_ois_arithmetic",
}
WIDE = RatioInterval(1.2, 0.98, 1.5)


@pytest.mark.parametrize(
    ("estimate", "levels"),
    [
        ((1.3, 1.2, 1.41), 0),
        ((1.3, 1.01, 1.67), 0),
        ((1.0, 0.95, 1.05), 0),  # narrow, and within what counts as alike
        ((1.05, 1.0, 1.09), 0),
        ((1.2, 0.98, 1.5), 1),
        ((0.8, 0.6, 1.02), 1),
        ((1.05, 1.0, 1.12), 1),  # on no difference is not beyond it
        ((1.2, 0.85, 1.7), 2),
        ((1.2, 0.6, 2.4), 3),  # large either way
    ],
)
def test_what_an_interval_leaves_open(estimate, levels):
    """grade_imprecision_2022: by the thresholds crossed, up to three levels."""
    told = RatioInterval(*estimate)
    assert crossing(told, 1.1, 1.5) == levels
    rated = certainty(body(estimate=told))
    assert charges(rated, "imprecision") == levels
    assert ("imprecision-none" in rules(rated)) == (not levels)


def test_information_is_that_of_the_two_sample_formula():
    """grade_ois_arithmetic and grade_ois_400: with n per arm, the standard error of d is sqrt(2 / n), and that body has all the
    information that a difference of d asks for; 400 in all do for d = 0.28. The engine rounds 1.96 + 0.84 to 2.80."""
    given, expected = (entry("grade_ois_arithmetic")[key] for key in ("inputs", "expected"))
    for d, n in zip(given["d"], expected["n_per_arm"], strict=True):
        for share in (1.0, 0.5, 0.25):
            half = stats.norm.ppf(0.975) * sqrt(2 / (share * n))
            told = RatioInterval(exp(d), exp(d - half), exp(d + half))
            assert information(told, exp(d)) == pytest.approx(share, rel=2e-3)
    assert information(RatioInterval(1.2, 1.2, 1.2), 1.1) == float("inf")


@pytest.mark.parametrize(
    ("estimate", "levels"),
    [
        ((1.4, 1.05, 1.87), 0),  # clear, and no large effect: nothing is asked
        ((1.6, 1.45, 1.77), 1),  # large, and wider than what would find 10%
        ((1.6, 1.51, 1.70), 0),
        (
            (1.9, 1.2, 3.0),
            2,
        ),  # twice as far as exercises usually lie (2 x 0.3), with far too little information
        ((0.5, 0.3, 0.83), 2),
        ((1.9, 1.75, 2.06), 1),  # implausibly large, and more than half of the information
    ],
)
def test_a_large_effect_asks_for_enough_information(estimate, levels):
    """grade_imprecision_2011 and _2022: where the interval crosses nothing and the effect is large, the information size counts."""
    rated = certainty(body(estimate=RatioInterval(*estimate)))
    assert charges(rated, "imprecision") == levels
    assert charged(rated, "imprecision") == ({"imprecision-information"} if levels else set())


@pytest.mark.parametrize(
    ("spreads", "levels"),
    [
        (("printed", "printed"), 0),
        (("bounded", "bounded"), 0),
        (("printed", "significant"), 2),
        (("significant", "significant"), 2),
        (("printed", "unknown"), 3),
        (("significant", "unknown"), 3),
    ],
)
def test_a_spread_that_nobody_printed(spreads, levels):
    samples = [replace(TRIAL, study=s + str(n), spread=s) for n, s in enumerate(spreads)]
    rated = certainty(body(*samples))
    assert charges(rated, "imprecision") == levels
    few = certainty(body(replace(TRIAL, n=900), *(replace(s, n=100) for s in samples)))
    assert charges(few, "imprecision") == 0, "of few people it is not charged"


def test_reports_without_a_spread_narrow_nothing():
    """What is charged is the wider of the answer and of what samples with a spread of their own say."""
    rated = certainty(body(known=WIDE))
    assert charges(rated, "imprecision") == 1
    assert charges(certainty(body(estimate=WIDE, known=body().estimate)), "imprecision") == 1
    assert charges(certainty(body(known=None)), "imprecision") == 0


def test_a_finding_that_hangs_on_the_imputed_correlation_costs_a_level():
    assert charges(certainty(body(findings=("found", "found"))), "imprecision") == 0
    rated = certainty(body(findings=("hinted", "found", "found")))
    assert charges(rated, "imprecision") == 1 and charged(rated) == {"imprecision-correlation"}
    assert '"found" or "hinted"' in next(
        s.reason for s in rated.steps if s.rule == "imprecision-correlation"
    )


def test_signs_of_imprecision_are_charged_once():
    rated = certainty(body(*each(spread="unknown"), estimate=WIDE, findings=("hinted", "unclear")))
    assert charges(rated, "imprecision") == 3 and charged(rated) == {"imprecision-unknown"}
    assert sum(step.rule == "imprecision-once" for step in rated.steps) == 2


def test_no_number_at_all():
    rated = certainty(body(*each(spread="unknown", clear=0), estimate=None))
    assert charges(rated, "imprecision") == 3
    assert log(1.1) < 0.1  # the margin of these bodies
