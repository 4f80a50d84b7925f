"""Certainty by GRADE's domains: worked cases, and no cause charged twice.

What GRADE says, and what was read of it, stands in ``tests/reference/statistics.yaml`` (area ``grade``).
"""

from dataclasses import replace
from itertools import product

import pytest
from certainty_cases import CROSSOVER, DOMAINS, TRIAL, body, charges, each, rules
from statistics_reference import entry

from build_tools.evidence.certainty import imprecision, inconsistency
from build_tools.evidence.certainty.information import (
    OIS_DIFFERENCE,
    information,
    people_paired,
    people_per_arm,
)
from build_tools.evidence.certainty.rating import RULES, Incoherence, Override, certainty
from build_tools.evidence.claims.verdict import Directions, RatioInterval

#: The words for levels and sizes: test_certainty_words.py. The steps a domain may cost: test_certainty_properties.py.
COVERS = {
    "grade_start",
    "grade_start_with_robins_i",
    "grade_down",
    "grade_up",
    "grade_up_large",
    "grade_imprecision_2011",
    "grade_imprecision_2022",
    "grade_ois_400",
    "grade_inconsistency",
    "grade_nma_skip_indirect",
    "grade_nma_incoherence",
    "grade_ois_arithmetic",
}


# Start


@pytest.mark.parametrize(
    ("design", "outcome", "measured", "start"),
    [
        ("parallel", "growth", "growth", "high"),
        ("within-participant", "growth", "growth", "high"),
        ("parallel", "activation", "activation", "high"),
        ("acute-crossover", "activation", "activation", "high"),
        ("acute-crossover", "growth", "growth", "low"),
        ("one-group", "growth", "growth", "low"),
        ("observational", "growth", "growth", "low"),
        ("cadaver", "length", "length", "low"),
        ("acute-crossover", "growth", "activation", "low"),  # EMG asked about growth
        ("parallel", "growth", "activation", "low"),
    ],
)
def test_the_start_follows_design_and_question(design, outcome, measured, start):
    rated = certainty(body(*each(design=design, measured=measured), outcome=outcome))
    assert rated.start == rated.level == start


def test_a_small_study_of_another_kind_does_not_move_the_start():
    assert (
        certainty(body(TRIAL, replace(TRIAL, study="b", design="observational", n=100))).start
        == "high"
    )
    assert (
        certainty(body(TRIAL, replace(TRIAL, study="b", design="observational", n=200))).start
        == "low"
    )


def test_activation_for_growth_is_charged_at_the_start_and_not_again():
    rated = certainty(body(*each(CROSSOVER), outcome="growth"))
    assert (
        rated.start == "low"
        and "measured activation, which cannot stand for growth" in rated.steps[0].reason
    )
    assert charges(rated, "indirectness") == 0


# Risk of bias


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
    assert (
        "not appraised" in next(s.reason for s in rated.steps if s.domain == "risk of bias")
    ) == (None in risks)


def test_confounding_is_not_charged_both_at_the_start_and_as_bias():
    """grade_start_with_robins_i: the same end point by either road, never charged twice."""
    observed = certainty(body(*each(design="observational", risk_of_bias=None)))
    assert (observed.start, observed.level, charges(observed, "risk of bias")) == ("low", "low", 0)
    assert certainty(body(*each(risk_of_bias="high"))).level == "low"
    assert (
        charges(certainty(body(*each(design="observational", risk_of_bias="high"))), "risk of bias")
        == 1
    )


# Inconsistency


@pytest.mark.parametrize(
    ("i2", "prediction", "levels"),
    [
        (None, None, 0),
        (0, None, 0),
        (49, None, 0),
        (50, None, 1),
        (74, (0.5, 3), 1),
        (75, None, 1),
        (75, (0.95, 1.8), 1),
        (75, (0.5, 3), 2),
        (20, (0.5, 3), 1),  # either way by an amount that matters, although the estimate is clear
        (20, (0.95, 1.8), 0),
        (90, (0.95, 1.09), 0),  # great consistency is not needed where all of it counts as alike
    ],
)
def test_inconsistency_of_the_spread(i2, prediction, levels):
    assert (
        charges(certainty(body(i2=i2, prediction=prediction, tau2=0.02, q_p=0.03)), "inconsistency")
        == levels
    )


def test_the_bands_of_i2_are_the_published_ones():
    bands = entry("grade_inconsistency")["expected"]["thresholds"]["i2_pct"]
    assert [inconsistency.I2_SUBSTANTIAL, inconsistency.I2_CONSIDERABLE] == [
        bands[2][0],
        bands[3][0],
    ]


@pytest.mark.parametrize(
    ("ratio", "directions", "levels"),
    [
        (1.3, Directions(3, 0, 0), 0),
        (1.3, Directions(1, 1, 1), 0),
        (1.3, Directions(0, 1, 0), 1),
        (1.3, Directions(0, 2, 0), 1),
        (1.3, Directions(0, 3, 0), 2),
        (0.7, Directions(3, 0, 0), 2),
        (0.7, Directions(0, 3, 0), 0),
        (1.0, Directions(0, 3, 0), 0),
    ],
)
def test_contrary_directions_count_against_the_number(ratio, directions, levels):
    estimate = RatioInterval(ratio, ratio * 0.99, ratio * 1.01)
    assert (
        charges(certainty(body(estimate=estimate, directions=directions)), "inconsistency")
        == levels
    )


def test_a_single_sample_cannot_be_inconsistent():
    rated = certainty(body(replace(TRIAL, n=500), i2=80))
    assert "inconsistency-single" in rules(rated) and rated.level == "high"


# Indirectness


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


@pytest.mark.parametrize(
    ("jointly", "whole", "levels"),
    [(False, False, 0), (True, False, 1), (False, True, 1), (True, True, 1)],
)
def test_what_was_measured_costs_at_most_one_level(jointly, whole, levels):
    rated = certainty(body(*each(jointly=jointly, whole_muscle=whole)))
    assert charges(rated, "indirectness") == levels
    assert (
        charges(
            certainty(body(*each(jointly=jointly, whole_muscle=whole, differs=True))),
            "indirectness",
        )
        == levels + 1
    )


def test_a_weakness_of_few_people_is_said_but_not_charged():
    rated = certainty(body(TRIAL, replace(TRIAL, study="b", n=100, differs=True, jointly=True)))
    assert {"indirectness-exercise", "indirectness-measurement"} <= rules(
        rated
    ) and rated.level == "high"


@pytest.mark.parametrize(("share", "levels"), [(1, 0), (0.5, 0), (0.49, 1), (0, 1)])
def test_direct_evidence_that_weighs_as_much_spares_the_indirect(share, levels):
    """grade_nma_skip_indirect."""
    assert charges(certainty(body(direct_share=share)), "indirectness") == levels


@pytest.mark.parametrize(
    ("p", "ratio", "levels"), [(0.01, 1.5, 1), (0.01, 1.05, 0), (0.3, 1.5, 0), (0.01, 0.8, 1)]
)
def test_incoherence_must_be_clear_and_matter(p, ratio, levels):
    assert charges(certainty(body(incoherence=Incoherence(p, ratio))), "indirectness") == levels


# Imprecision


@pytest.mark.parametrize(
    ("estimate", "levels"),
    [
        ((1.3, 1.2, 1.41), 0),
        ((1.3, 1.01, 1.67), 0),
        ((1.0, 0.95, 1.05), 0),
        ((1.2, 0.98, 1.5), 1),
        ((0.8, 0.6, 1.02), 1),
        ((1.05, 1.0, 1.12), 1),
        ((1.2, 0.85, 1.7), 2),
        ((1.2, 0.6, 2.4), 3),
    ],
)
def test_what_an_interval_leaves_open(estimate, levels):
    """grade_imprecision_2022: by the thresholds crossed, up to three levels."""
    assert charges(certainty(body(estimate=RatioInterval(*estimate))), "imprecision") == levels


def test_a_wide_interval_from_very_few_people_costs_three():
    assert (
        charges(
            certainty(body(replace(TRIAL, n=30), estimate=RatioInterval(1.2, 0.85, 1.7))),
            "imprecision",
        )
        == 3
    )


def test_a_clear_interval_still_needs_enough_people():
    """grade_imprecision_2011: adequate when no effect is excluded and the information size is met."""
    assert charges(certainty(body(replace(TRIAL, n=402))), "imprecision") == 0
    assert charges(certainty(body(replace(TRIAL, n=398))), "imprecision") == 1
    assert charges(certainty(body(replace(TRIAL, n=100))), "imprecision") == 1
    assert (
        charges(
            certainty(body(replace(TRIAL, n=100), estimate=RatioInterval(2.5, 1.5, 4.2))),
            "imprecision",
        )
        == 2
    )


def test_a_dozen_who_do_both_are_not_held_to_four_hundred():
    """grade_ois_arithmetic, note: a within-participant study needs (1 - r) of one arm of the parallel trial."""
    dozens = [replace(CROSSOVER, study=str(n), n=12) for n in range(6)]
    assert charges(certainty(body(*dozens, outcome="activation")), "imprecision") == 0
    assert charges(certainty(body(*dozens[:4], outcome="activation")), "imprecision") == 1
    unknown = [replace(sample, correlation=0.0) for sample in dozens]
    assert information(body(*unknown, outcome="activation")) == pytest.approx(
        72 / people_per_arm(OIS_DIFFERENCE)
    )


def test_information_size_arithmetic():
    arithmetic = entry("grade_ois_arithmetic")
    given, expected, off = (
        arithmetic["inputs"],
        arithmetic["expected"],
        arithmetic["tolerance"]["abs"],
    )
    for d, arm, paired in zip(
        given["d"], expected["n_per_arm"], expected["n_paired_by_d_then_r"], strict=True
    ):
        assert people_per_arm(d, given["alpha"], given["power"]) == pytest.approx(arm, abs=off)
        assert [people_paired(d, r) for r in given["r"]] == pytest.approx(paired, abs=off)


def test_the_difference_to_find_is_what_four_hundred_people_amount_to():
    """grade_ois_400: 400 in all is 80% power for d = 0.28; d = 0.2 needs 785."""
    assert 2 * people_per_arm(OIS_DIFFERENCE) == pytest.approx(400, abs=1)
    assert 2 * people_per_arm(0.2) == pytest.approx(785, abs=0.5)
    words = f"{people_per_arm(OIS_DIFFERENCE):.0f} in each of two groups, or {people_paired(OIS_DIFFERENCE, 0.7):.0f} who do both"
    assert imprecision.OIS_IN_WORDS.startswith(words)


def test_a_verdict_that_hangs_on_the_imputed_correlation_costs_a_level():
    assert charges(certainty(body(verdicts=("shown", "shown"))), "imprecision") == 0
    rated = certainty(body(verdicts=("leaning", "shown", "shown")))
    assert charges(rated, "imprecision") == 1 and "imprecision-correlation" in rules(rated)


def test_signs_of_imprecision_are_charged_once():
    few = body(
        replace(TRIAL, n=150),
        estimate=RatioInterval(1.2, 0.98, 1.5),
        verdicts=("leaning", "not shown"),
    )
    rated = certainty(few)
    assert charges(rated, "imprecision") == 1
    assert sum(step.rule == "imprecision-once" for step in rated.steps) == 2


def test_spread_between_studies_is_not_charged_again_as_imprecision():
    wide, narrow = RatioInterval(1.3, 0.98, 1.72), RatioInterval(1.3, 1.2, 1.41)
    rated = certainty(body(estimate=wide, common=narrow, i2=60))
    assert (charges(rated, "inconsistency"), charges(rated, "imprecision")) == (1, 0)
    assert "imprecision-once" in rules(rated)
    assert charges(certainty(body(estimate=wide, common=wide, i2=60)), "imprecision") == 1
    assert charges(certainty(body(estimate=wide, common=narrow, i2=20)), "imprecision") == 1
    # Where contrary directions cost the level anyway, the spread has paid for nothing and the width still counts.
    contrary = certainty(body(estimate=wide, common=narrow, i2=60, directions=Directions(0, 1, 0)))
    assert (charges(contrary, "inconsistency"), charges(contrary, "imprecision")) == (1, 1)


# Publication bias, rating up, caps, overrides


@pytest.mark.parametrize("k", [1, 9, 10, 30])
def test_publication_bias_is_said_and_not_charged(k):
    rated = certainty(body(*(replace(TRIAL, study=str(n)) for n in range(k))))
    (step,) = [step for step in rated.steps if step.domain == "publication bias"]
    assert step.change == 0 and ("would be enough to look" in step.reason) == (k >= 10)


@pytest.mark.parametrize("ratio", [2.5, 6, 0.3])
def test_nothing_is_rated_up_by_rule(ratio):
    """grade_up and grade_up_large: the thresholds are for relative risks; a large ratio of means lifts nothing here."""
    estimate = RatioInterval(ratio, ratio * 0.95, ratio * 1.05)
    assert certainty(body(*each(design="observational"), estimate=estimate)).level == "low"
    assert (
        imprecision.IMPLAUSIBLE
        == entry("grade_up_large")["expected"]["thresholds"]["rr_one_level"][1]
    )


@pytest.mark.parametrize(
    ("read", "level"),
    [
        ("full text", "high"),
        ("abstract", "moderate"),
        ("part of abstract", "low"),
        ("record", "low"),
        ("memory", "very low"),
    ],
)
def test_what_was_read_caps_the_level(read, level):
    rated = certainty(body(*each(read=read)))
    assert rated.level == level and ("cap-read" in rules(rated)) == (read != "full text")


def test_most_of_the_people_must_have_been_read_of():
    assert certainty(body(TRIAL, replace(TRIAL, study="b", n=130, read="abstract"))).level == "high"
    assert (
        certainty(body(TRIAL, replace(TRIAL, study="b", n=140, read="abstract"))).level
        == "moderate"
    )
    assert (
        certainty(body(TRIAL, replace(TRIAL, study="b", n=140, read="memory"))).level == "very low"
    )


def test_directions_alone_are_low_at_most():
    rated = certainty(body(estimate=None, directions=Directions(2, 0, 0)))
    assert rated.level == "low" and [cap.rule for cap in rated.caps] == ["cap-directions"]
    assert (
        charges(certainty(body(estimate=None, directions=Directions(1, 1, 0))), "inconsistency")
        == 1
    )


def test_caps_limit_and_do_not_add():
    assert certainty(body(*each(read="abstract", risk_of_bias=None))).level == "moderate"
    assert (
        certainty(
            body(*each(read="part of abstract"), estimate=None, directions=Directions(2, 0, 0))
        ).level
        == "low"
    )


def test_an_override_needs_a_reason_and_a_reference():
    for because, cites in (("", ("key",)), ("Reason.", ()), (" ", ("key",)), ("Reason.", ("",))):
        with pytest.raises(ValueError, match="both a reason and a reference"):
            Override("low", because, cites)
    with pytest.raises(ValueError, match="a level is one of"):
        Override("good", "Reason.", ("key",))


def test_an_override_is_shown_as_a_step_and_lifts_no_cap():
    lowered = certainty(body(), Override("low", "The trainers measured.", ("lantern2020",)))
    assert (
        lowered.level == "low"
        and lowered.steps[-1].rule == "authored"
        and lowered.steps[-1].change == -2
    )
    assert (
        lowered.steps[-1].reason
        == "Set to low by the authors: The trainers measured (lantern2020)."
    )
    raised = certainty(
        body(*each(read="abstract", risk_of_bias="high")),
        Override("high", "Dose and response.", ("lantern2020",)),
    )
    assert raised.level == "moderate" and "held at moderate by a cap" in raised.steps[-1].reason


# The rules as a whole


@pytest.mark.parametrize(
    "changes", [{"samples": ()}, {"margin": 1.0}, {"direct_share": 1.2}, {"estimate": None}]
)
def test_an_unratable_body_is_refused(changes):
    with pytest.raises(ValueError):
        replace(body(), **changes)


@pytest.mark.parametrize("changes", [{"n": 0}, {"correlation": 1.0}])
def test_an_impossible_sample_is_refused(changes):
    with pytest.raises(ValueError, match="a: a sample needs people"):
        replace(TRIAL, **changes)


def test_the_five_reasons_are_each_considered_exactly_as_named():
    """grade_down: five reasons; every rating says something on each."""
    assert {rule.domain for rule in RULES} - {"start", "cap", "authored"} == set(DOMAINS)
    assert {step.domain for step in certainty(body()).steps} == {"start", *DOMAINS}


def test_rules_are_ready_for_publication():
    ids = [rule.id for rule in RULES]
    assert len(ids) == len(set(ids))
    for rule in RULES:
        assert rule.says.endswith(".") and rule.source.endswith(".")


WORST = dict(
    i2=80,
    prediction=(0.5, 3.0),
    directions=Directions(0, 4, 0),
    tau2=0.1,
    q_p=0.001,
    direct_share=0.2,
    incoherence=Incoherence(0.01, 1.5),
    verdicts=("shown", "not shown"),
)
CASES = [
    (body(), None),
    (body(*each(measured="activation")), None),
    (body(*each(design="observational", risk_of_bias="high")), None),
    (body(TRIAL), None),
    (body(i2=60, prediction=(0.5, 3.0)), None),
    (body(prediction=(0.5, 3.0)), None),
    (body(directions=Directions(0, 1, 0)), None),
    (body(*each(differs=True, jointly=True)), None),
    (body(incoherence=Incoherence(0.01, 1.5)), None),
    (body(**WORST), None),
    (body(direct_share=0.1, verdicts=("shown", "leaning")), None),
    (body(estimate=RatioInterval(1.2, 0.98, 1.5), verdicts=("shown", "leaning")), None),
    (
        body(replace(TRIAL, n=20, read="memory"), estimate=None, directions=Directions(1, 0, 0)),
        None,
    ),
    (body(), Override("moderate", "Reason.", ("key",))),
]


def test_every_rule_is_reached_and_listed():
    reached = set().union(*(rules(certainty(*case)) for case in CASES))
    assert reached == {rule.id for rule in RULES}
