"""The answer to one question: what each sample shows, what is weighed, and what is told beside it."""

from math import exp, log, sqrt

import pytest
from catalogs import LONG, SHORT, A, B, C, D, E, F, answer, engine, growth, of, result, study
from scipy import stats

from build_tools.catalog.entries import TESTED, Test
from build_tools.evidence.claims.comparison import behind, is_one_finding
from build_tools.evidence.claims.engine import Engine
from build_tools.evidence.settings import settings
from build_tools.evidence.terms import LEVELS, Directions, Question

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
    # The answer is the average over studies like it, so it is wider by what studies usually differ.
    assert comparison.estimate.low < row.estimate.low
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
        assert row.weighed and row.study == "one"


@pytest.mark.parametrize(
    ("told", "y", "direction", "stated", "why"),
    [
        (result(MEANS), log(50 / 40), "more", False, "no spread reported"),
        (
            result(MEANS, [TEST | {"favours": "neither", "p_above": 0.05}]),
            log(50 / 40),
            "neither",
            True,
            "its p value does not say how wide the spread is",
        ),
        (stated("against"), None, "less", True, "no spread reported"),
        (
            result(MEANS, [TEST | {"favours": "of"}], measure="signal-shift"),
            None,
            "more",
            True,
            "values of this measure are no amounts whose ratio could be taken",
        ),
    ],
)
def test_a_study_without_a_spread_is_weighed_with_a_borrowed_one(told, y, direction, stated, why):
    comparison = answer({"one": study([told])})
    [row] = comparison.rows
    assert (row.estimate, row.direction, row.stated, row.weighed) == (None, direction, stated, True)
    way = (
        "weighed with a spread borrowed from other studies"
        if y
        else "only its direction is weighed"
    )
    assert row.how == f"{way}: {why}" and len(row.texts) == 1
    assert comparison.borrowed and comparison.sized == (y is not None)
    if y:
        assert comparison.estimate.ratio == pytest.approx(exp(y))
    else:
        assert comparison.estimate is None and comparison.side == direction


@pytest.mark.parametrize(
    ("told", "why"),
    [
        (
            result({"a": {"mean": 50.0, "sd": 0.0}, "b": {"mean": 40.0}}),
            "its numbers cannot be weighed",
        ),
        (
            result({"a": {"mean": 50.0, "sd": 90.0}, "b": {"mean": 40.0, "sd": 9.0}}),
            "its mean is within three standard errors of zero, so no ratio can be taken",
        ),
        (
            result(contrasts=[TEST | {"ratio": {"value": 1.1}, "p": 0.9999}]),
            "its interval is too wide to say anything",
        ),
    ],
    ids=["impossible", "near zero", "too wide"],
)
def test_what_cannot_be_weighed_is_not_weighed_by_another_door(told, why):
    """Not even with a spread borrowed from others; its own tested direction still counts."""
    comparison = answer({"one": study([told])})
    [row] = comparison.rows
    assert (comparison.finding, comparison.certainty, comparison.estimate) == (
        "not studied",
        None,
        None,
    )
    assert (row.estimate, row.weighed, row.how) == (None, False, f"listed, not weighed: {why}")
    tested = told | {
        "contrasts": [
            {"test": "between", **TEST, **(told.get("contrasts") or [{}])[0], "favours": "of"}
        ]
    }
    if "ratio" not in tested["contrasts"][0]:
        comparison = answer({"one": study([tested])})
        assert (comparison.finding, comparison.sized, comparison.side) == ("hinted", False, "more")


def test_a_pair_that_the_pooled_measurement_does_not_hold_is_weighed_by_its_test():
    """Site two compares other exercises and is pooled; of the pair of site one only a direction is told."""
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
    assert (row.estimate, row.weighed) == (None, True) and row.how.endswith("no spread reported")


def test_numbers_that_nobody_tested_lean_at_most():
    comparison = answer({"one": study([result({"a": {"mean": 90.0}, "b": {"mean": 9.0}})])})
    assert (comparison.finding, comparison.side, comparison.directions, comparison.studies) == (
        "hinted",
        "more",
        Directions(),
        1,
    )
    assert comparison.certainty.level == "very low" and "but no test" in comparison.sentence


def test_untested_numbers_that_point_both_ways_say_nothing():
    both = {
        "one": study([result(MEANS)]),
        "two": study([result({"a": MEANS["b"], "b": MEANS["a"]})]),
    }
    comparison = answer(both)
    assert (comparison.finding, len(comparison.rows), comparison.conflict) == ("unclear", 2, False)


def test_a_tested_direction_counts_before_numbers_that_nobody_tested():
    told = study([stated("against", site={"said": "one"}), result(MEANS, site={"said": "two"})])
    comparison = answer({"one": told})
    assert (comparison.rows[0].direction, comparison.directions, comparison.side) == (
        "less",
        Directions(less=1),
        "less",
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


@pytest.mark.parametrize(("favours", "way"), [("of", 1), ("against", -1), ("neither", -1)])
def test_a_stated_direction_beside_an_estimate_moves_it_its_way(favours, way):
    """Significant and null reports enter alike: a null pulls towards no difference."""
    plain = answer({"one": study([result(ARMS)])})
    both = answer({"one": study([result(ARMS)]), "two": study([stated(favours)], n=60)})
    assert way * (both.estimate.ratio - plain.estimate.ratio) > 0
    assert (both.studies, both.people, both.directions.total) == (2, 72, 1)
    assert [row.estimate is None for row in both.rows] == [False, True]


def test_a_direction_stated_beside_a_spread_is_not_counted_again():
    comparison = answer({"one": study([result(ARMS, [TEST | {"favours": "of"}])])})
    assert (comparison.directions, comparison.rows[0].direction) == (Directions(), "more")


def test_samples_that_clearly_point_opposite_ways_are_a_conflict_and_a_null_is_none():
    against = answer({"one": study([stated("of")]), "two": study([stated("against")])})
    assert against.conflict and against.finding == "unclear"
    beside = answer({"one": study([stated("of")]), "two": study([stated("neither")])})
    assert not beside.conflict


def test_what_makes_a_row_less_than_direct_is_noted():
    data = study([result(ARMS, parts=(LONG, SHORT))])
    data["arms"]["a"]["differs"] = "lowering phase only"
    comparison = answer({"one": data})
    [row] = comparison.rows
    assert row.notes == ("a arm: lowering phase only", "Measured together with other parts.")
    assert (row.differs, row.cover, comparison.measured) == (True, "jointly", "together")
    assert {"indirectness-exercise", "indirectness-measurement"} <= rules_charged(comparison)


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
    found = {"answer": "yes", "because": "Invented.", "at": "Table 1"}
    appraised = {"appraisal": {"fair-lamp": found, "told-all": found}}
    aside = {
        "three": study([result(ARMS)], {"a": C, "b": D}, n=900, **appraised),
        "four": study([result(ARMS)], {"a": E, "b": F}, n=900, **appraised),
    }
    alone, both = answer(chain, A, C), answer(chain | aside, A, C)
    assert (both.studies, both.people) == (2, 32) == (alone.studies, alone.people)
    assert both.certainty == alone.certainty


def test_the_whole_muscle_answers_for_its_part_only_as_the_whole_and_never_finds():
    """One mark lower: found of the muscle, hinted of its part, and the sentence says what was measured."""
    many = {f"s{n}": study([result(FAR, parts=("lantern",))], n=30) for n in range(12)}
    whole, part = answer(many, part="lantern"), answer(many)
    assert (whole.finding, whole.measured) == ("found", "part")
    assert (part.finding, part.side, part.measured) == ("hinted", "more", "whole")
    assert part.estimate == whole.estimate and LEVELS.index(part.certainty.level) < LEVELS.index(
        whole.certainty.level
    )


def test_a_parts_own_measurement_answers_before_a_joint_one_and_that_before_the_whole():
    own, joint, whole = (
        stated("against"),
        result(ARMS, parts=(LONG, SHORT)),
        result(ARMS, parts=("lantern",)),
    )
    for results, measured in (
        ([own, joint, whole], "part"),
        ([joint, whole], "together"),
        ([whole], "whole"),
    ):
        assert (
            answer({f"s{n}": study([told]) for n, told in enumerate(results)}).measured == measured
        )


FAR = {"a": {"mean": 90.0, "sd": 8.0}, "b": {"mean": 40.0, "sd": 4.0}}


def test_what_was_read_limits_the_certainty():
    studies = {f"s{n}": study([result(FAR)], n=200) for n in range(12)}
    levels = [
        answer(studies, read=read).certainty.level for read in ("full text", "abstract", "memory")
    ]
    assert levels == sorted(levels, key=LEVELS.index, reverse=True) and levels[0] != levels[-1]


def test_growth_is_told_as_what_people_gained():
    told = growth(
        {"a": {"change_percent": 20.0, "sd": 4.0}, "b": {"change_percent": 5.0, "sd": 4.0}}
    )
    one = answer({"one": study([told])}, outcome="growth")
    assert one.estimate.ratio == pytest.approx(1.2 / 1.05, rel=1e-3)
    assert (one.gains.first, one.gains.second, one.gains.pooled) == (
        pytest.approx(1.2),
        pytest.approx(1.05),
        False,
    )
    two = answer({"one": study([told]), "two": study([told], n=36)}, outcome="growth")
    assert two.gains.pooled and two.gains.second == pytest.approx(1.05)
    assert two.gains.first == pytest.approx(1.05 * two.estimate.ratio)


@pytest.mark.parametrize("test", [test for test in Test.__args__ if test != "not reported"])
def test_only_a_test_of_the_two_sides_is_reported(test):
    comparison = answer(
        {"one": study([result(contrasts=[{**TEST, "favours": "of", "test": test}])])}
    )
    assert (comparison.finding == "hinted") == (test in TESTED) == comparison.directions.total
    if test not in TESTED:
        assert (comparison.finding, comparison.certainty) == ("not studied", None)
        assert "untested here" in comparison.sentence and len(comparison.rows) == 1


def test_silence_is_no_null():
    silent = answer(
        {
            "one": study(
                [
                    result(
                        contrasts=[{**TEST, "test": "not reported", "note": "The paper is silent."}]
                    )
                ]
            )
        }
    )
    assert (silent.finding, silent.rows, silent.sentence) == ("not studied", (), "")


def test_what_our_cue_forbids_says_nothing_of_our_exercise():
    data = study([stated("of")])
    data["arms"]["a"]["forbidden_by"] = "Sit tall on the crate."
    comparison = answer({"one": data})
    assert (comparison.finding, comparison.rows) == ("not studied", ())


def test_what_is_in_doubt_is_shown_and_never_weighed():
    doubted = result(ARMS, [TEST | {"favours": "of"}], doubt="A digit may be wrong.")
    comparison = answer({"one": study([doubted])})
    assert comparison.finding == "not studied" and len(comparison.rows) == 1
    assert "In doubt: A digit may be wrong." in comparison.rows[0].notes
    beside = answer({"one": study([doubted]), "two": study([result(ARMS)])})
    alone = answer({"two": study([result(ARMS)])})
    assert beside.estimate == alone.estimate and beside.people == alone.people


def test_people_of_other_versions_are_not_counted():
    arms = {arm: {"change_percent": 9.0, "sd": 4.0} for arm in "abc"}
    data = study(
        [growth(arms)], {"a": A, "b": B, "c": A}, same=False, n=36, sizes={"a": 9, "b": 10, "c": 17}
    )
    data["arms"]["c"]["version"] = "lower-half"
    assert answer({"one": data}, outcome="growth").people == 19


def test_an_answer_rests_on_what_is_weighed_else_on_what_tells_a_direction():
    both = answer(
        {
            "one": study([stated("of")]),
            "two": study([result(contrasts=[TEST | {"favours": "of", "test": "within"}])]),
        }
    )
    assert [row.study for row in behind(both)] == ["one"] and len(both.rows) == 2
    listed = answer(
        {"two": study([result(contrasts=[TEST | {"favours": "of", "test": "within"}])])}
    )
    assert [row.study for row in behind(listed)] == ["two"]


def test_one_number_over_several_parts_is_one_finding():
    made = engine({"one": study([result(ARMS, parts=(LONG, SHORT))])})
    both = [made.comparison(Question(A, B, part, "activation")) for part in (LONG, SHORT)]
    assert is_one_finding(both)
    apart = engine({"one": study([result(ARMS), result(ARMS, parts=(SHORT,))])})
    assert not is_one_finding(
        [apart.comparison(Question(A, B, part, "activation")) for part in (LONG, SHORT)]
    )


def test_the_question_stays_with_the_answer():
    question = Question(A, B, LONG, "activation")
    catalog = of({"one": study([result(ARMS)])})
    made = Engine(catalog, settings(catalog))
    assert made.comparison(question).question == question
    assert made.weighing(Question(A, C, LONG, "activation")) is None
