"""The answer to one question: what each sample shows, who counts, and what is told beside an estimate."""

from math import exp, log, sqrt

import pytest
from catalogs import LONG, SHORT, A, B, C, D, E, F, answer, engine, growth, result, study
from scipy import stats

from build_tools.evidence.claims.comparison import as_estimate
from build_tools.evidence.claims.conclusions import Question
from build_tools.evidence.claims.verdict import Directions

ARMS = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 10.0}}
MEANS = {"a": {"mean": 50.0}, "b": {"mean": 40.0}}
TEST = {"of": "a", "against": "b"}


def stated(favours, **more):
    return result(contrasts=[TEST | {"favours": favours}], **more)


def test_a_samples_own_interval_takes_its_own_t():
    comparison = answer({"one": study([result(ARMS)])})
    [row] = comparison.rows
    c = (10 / 50) ** 2 / 12, (10 / 40) ** 2 / 12
    y, half = (
        log(50 / 40) + (c[0] - c[1]) / 2,
        stats.t.ppf(0.975, 11) * sqrt(c[0] + c[1] - sqrt(c[0] * c[1])),
    )
    assert (row.estimate.ratio, row.estimate.low, row.estimate.high) == pytest.approx(
        (exp(y), exp(y - half), exp(y + half))
    )
    assert comparison.estimate.low == pytest.approx(row.estimate.low)
    assert (row.study, row.people, row.results, row.read, row.how) == (
        "one",
        12,
        (0,),
        "full text",
        "from the spreads printed for each exercise",
    )


def test_each_pair_of_three_arms_has_its_own_row_from_one_block():
    made = {
        "one": study([result(ARMS | {"c": {"mean": 60.0, "sd": 10.0}})], {"a": A, "b": B, "c": C})
    }
    for first, second, ratio in ((A, B, 50 / 40), (B, C, 40 / 60), (C, A, 60 / 50)):
        [row] = answer(made, first, second).rows
        assert row.estimate.ratio == pytest.approx(ratio, rel=2e-3)
        assert row.estimate.low == pytest.approx(answer(made, first, second).estimate.low)


@pytest.mark.parametrize(
    ("told", "reason", "direction", "stated"),
    [
        (result(MEANS), "no spread reported", "more", False),
        (
            result(MEANS, [TEST | {"favours": "neither", "p_above": 0.05}]),
            "its p value does not say how wide the spread is",
            "neither",
            True,
        ),
        (stated("against"), "no spread reported", "less", True),
        (
            result(MEANS, [TEST | {"favours": "of"}], measure="signal-shift"),
            "values of this measure are no amounts whose ratio could be taken",
            "more",
            True,
        ),
        (
            result(
                {"a": {"mean": 50.0, "sd": 0.0}, "b": {"mean": 40.0}}, [TEST | {"favours": "of"}]
            ),
            "its numbers cannot be weighed",
            "more",
            True,
        ),
        (
            result(
                {"a": {"mean": 50.0, "sd": 300.0}, "b": {"mean": 40.0, "sd": 300.0}},
                [TEST | {"favours": "of"}],
                parts=(LONG,),
            ),
            "its interval is too wide to say anything",
            "more",
            True,
        ),
    ],
)
def test_a_study_without_a_usable_spread_still_stands_in_the_rows(told, reason, direction, stated):
    comparison = answer({"one": study([told], n=2 if reason.startswith("its interval") else 12)})
    [row] = comparison.rows
    assert (row.estimate, row.direction, row.stated, row.how) == (
        None,
        direction,
        stated,
        f"listed, not pooled: {reason}",
    )
    assert comparison.estimate is None and len(row.texts) == 1
    assert (
        comparison.shape == {"more": "more", "less": "less", "neither": "none found"}[direction]
        if stated
        else "read off"
    )


def test_a_pair_that_the_pooled_measurement_does_not_hold_says_so():
    """Site two compares more exercises and is pooled; the pair of site one alone is only listed."""
    data = study(
        [
            stated("of", site={"said": "one"}),
            result(
                {"b": {"mean": 50.0, "sd": 10.0}, "c": {"mean": 40.0, "sd": 10.0}},
                site={"said": "two"},
            ),
        ],
        {"a": A, "b": B, "c": C},
    )
    [row] = answer({"one": data}).rows
    assert (row.estimate, row.how) == (None, "listed, not pooled: no spread reported")


def test_numbers_read_off_are_untested_and_have_no_certainty():
    comparison = answer({"one": study([result(MEANS)])})
    assert (comparison.shape, comparison.certainty, comparison.directions, comparison.studies) == (
        "read off",
        None,
        Directions(),
        1,
    )
    assert comparison.sentence == (
        "Untested here: activity of the long head of the lantern muscle was higher in the alder curl than in "
        "the birch curl in 1 study of 12 people (50% MVIC against 40% MVIC), "
        "but no test of the difference was read."
    )


def test_untested_numbers_that_point_both_ways_say_nothing():
    comparison = answer(
        {"one": study([result(MEANS)]), "two": study([result({"a": MEANS["b"], "b": MEANS["a"]})])}
    )
    assert (comparison.shape, comparison.sentence, len(comparison.rows)) == ("untested", "", 2)


def test_a_stated_direction_counts_before_one_that_is_read_off():
    comparison = answer(
        {
            "one": study(
                [stated("against", site={"said": "one"}), result(MEANS, site={"said": "two"})]
            )
        }
    )
    assert (comparison.rows[0].direction, comparison.directions) == ("less", Directions(less=1))


def test_measurements_that_point_different_ways_are_told_from_no_difference():
    comparison = answer(
        {
            "one": study(
                [stated("of", site={"said": "one"}), stated("neither", site={"said": "two"})]
            )
        }
    )
    assert (comparison.rows[0].direction, comparison.rows[0].stated) == (None, True)
    assert (comparison.directions, comparison.shape) == (Directions(mixed=1), "split")
    assert comparison.sentence == (
        "Reports differ on activity of the long head of the lantern muscle between the alder curl and the birch "
        "curl: 1 study found different answers in different measurements."
    )


def test_several_measurements_of_one_sample_are_one_voice():
    sites = study([stated("of", site={"said": "one"}), stated("of", site={"said": "two"})])
    comparison = answer(
        {
            "one": sites,
            "two": study([stated("of")], same_sample_as="one"),
            "three": study([stated("of")], n=20),
        }
    )
    assert (comparison.directions, comparison.studies, comparison.people) == (
        Directions(more=2),
        2,
        32,
    )
    assert [row.study for row in comparison.rows] == ["one", "three"]


def test_people_behind_an_estimate_are_counted_once():
    two_sites = [result(ARMS, site={"said": "one"}), result(ARMS, site={"said": "two"})]
    comparison = answer(
        {
            "one": study(two_sites),
            "two": study([result(ARMS)], same_sample_as="one"),
            "three": study([result(ARMS)], n=20),
        }
    )
    assert (comparison.studies, comparison.people) == (2, 32)
    assert comparison.rows[0].how == (
        "from the spreads printed for each exercise; 3 measurements of the same people combined into one"
    )
    [alone] = answer({"one": study([result(ARMS)])}).rows
    assert comparison.rows[0].estimate.low >= alone.estimate.low - 1e-12, (
        "measuring again is no new person"
    )


def test_directions_are_counted_beside_the_estimate_and_not_into_it():
    plain = answer({"one": study([result(ARMS)])})
    both = answer({"one": study([result(ARMS)]), "two": study([stated("against")], n=500)})
    assert both.estimate == plain.estimate and both.directions == Directions(less=1)
    assert (both.studies, both.people) == (1, 12)
    assert [row.estimate is None for row in both.rows] == [False, True]


def test_a_direction_stated_beside_a_spread_is_not_counted_again():
    comparison = answer({"one": study([result(ARMS, [TEST | {"favours": "of"}])])})
    assert (comparison.directions, comparison.rows[0].direction) == (Directions(), "more")


def test_what_makes_a_row_less_than_direct_is_noted():
    data = study([result(ARMS, parts=(LONG, SHORT))])
    data["arms"]["a"]["differs"] = "lowering phase only"
    [row] = answer({"one": data}).rows
    assert row.notes == ("a arm: lowering phase only", "Measured together with other parts.")
    assert (row.differs, row.cover) == (True, "jointly")
    assert {"indirectness-exercise", "indirectness-measurement"} <= rules_charged(
        answer({"one": data})
    )


def rules_charged(comparison):
    return {step.rule for step in comparison.certainty.steps if step.change < 0}


@pytest.mark.parametrize("rule", ["indirectness-exercise", "indirectness-measurement"])
def test_what_makes_the_studies_of_an_indirect_answer_less_direct_counts_too(rule):
    """Charged in full once: being indirect costs the same level as another exercise."""
    parts = (LONG, SHORT) if rule == "indirectness-measurement" else (LONG,)
    studies = {
        "one": study([result(ARMS, parts=parts)], {"a": A, "b": B}),
        "two": study([result(ARMS, parts=parts)], {"a": B, "b": C}),
    }
    if rule == "indirectness-exercise":
        for data in studies.values():
            data["arms"]["a"]["differs"] = "lowering phase only"
    comparison = answer(studies, A, C)
    assert comparison.path == "indirect" and rule in rules_charged(comparison)
    plain = {
        "one": study([result(ARMS)], {"a": A, "b": B}),
        "two": study([result(ARMS)], {"a": B, "b": C}),
    }
    assert rule not in rules_charged(answer(plain, A, C))


def test_an_indirect_answer_is_rated_and_counted_by_the_studies_that_carry_it():
    """Neither a branch of the same network that leads elsewhere nor another network is behind it."""
    chain = {
        "one": study([result(ARMS)], {"a": A, "b": B}),
        "two": study([result(ARMS)], {"a": B, "b": C}, n=20),
    }
    appraised = {"risk_of_bias": {"judgement": "low", "because": "Invented."}}
    aside = {
        "three": study([result(ARMS)], {"a": C, "b": D}, n=900, **appraised),
        "four": study([result(ARMS)], {"a": E, "b": F}, n=900, **appraised),
    }
    alone, both = answer(chain, A, C), answer(chain | aside, A, C)
    assert (both.studies, both.people) == (2, 32) == (alone.studies, alone.people)
    assert both.certainty == alone.certainty


def test_the_whole_muscle_does_not_answer_for_its_part():
    assert answer({"one": study([result(ARMS, parts=("lantern",))])}).rows == ()
    assert (
        answer({"one": study([result(ARMS, parts=("lantern",))])}, part="lantern").estimate
        is not None
    )


def test_what_was_read_limits_the_certainty():
    studies = {
        f"s{n}": study(
            [result({"a": {"mean": 90.0, "sd": 2.0}, "b": {"mean": 40.0, "sd": 2.0}})], n=200
        )
        for n in range(6)
    }
    levels = [
        answer(studies, read=read).certainty.level for read in ("full text", "abstract", "memory")
    ]
    assert (
        levels == sorted(levels, key=["very low", "low", "moderate", "high"].index, reverse=True)
        and levels[0] != levels[-1]
    )


def test_an_estimate_holds_its_interval_whatever_rounding_does():
    for y in (0.1, -0.3, 1e-17, 5.0):
        same = as_estimate(y, y, y)
        assert same.low == same.ratio == same.high
    e = as_estimate(0.2, 0.2 + 1e-18, 0.2)
    assert e.low <= e.ratio <= e.high


def test_growth_is_told_as_size_at_the_end():
    comparison = answer(
        {
            "one": study(
                [
                    growth(
                        {
                            "a": {"change_percent": 20.0, "sd": 4.0},
                            "b": {"change_percent": 5.0, "sd": 4.0},
                        }
                    )
                ]
            )
        },
        outcome="growth",
    )
    assert comparison.estimate.ratio == pytest.approx(1.2 / 1.05, rel=1e-3)
    assert "14% larger at the end" in comparison.sentence


def test_the_question_stays_with_the_answer():
    question = Question(A, B, LONG, "activation")
    made = engine({"one": study([result(ARMS)])})
    assert made.comparison(question).question == question
    assert made.combined(Question(A, C, LONG, "activation")) is None
