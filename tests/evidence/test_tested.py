"""What was tested, on what, by whom: only that is told as reported.

The values are worked by hand or by scipy; the demands are those of the study format
(``DEVELOPERS.md``, "Add a study"): silence is no null, a version is no exercise, one number is one finding.
"""

from __future__ import annotations

from dataclasses import replace
from math import log, sqrt
from typing import get_args

import pytest
from catalogs import (
    LONG,
    SHORT,
    A,
    B,
    C,
    answer,
    claim,
    correlated,
    engine,
    growth,
    judged,
    measured,
    of,
    result,
    study,
)
from scipy import stats

from build_tools.catalog.bibliography.references import PublishedNotice
from build_tools.catalog.entries import TESTED, Test
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.claims.conclusions import Question
from build_tools.evidence.claims.engine import Engine
from build_tools.evidence.settings import settings

PAIR = {"of": "a", "against": "b"}
MORE = [{**PAIR, "favours": "of"}]


@pytest.mark.parametrize("test", [test for test in get_args(Test) if test != "not reported"])
def test_only_a_test_of_the_two_sides_is_reported(test):
    comparison = answer(
        {"one": study([result(contrasts=[{**PAIR, "favours": "of", "test": test}])])}
    )
    assert (comparison.shape == "more") == (test in TESTED)
    assert comparison.directions.total == (test in TESTED)
    assert ("reported" in comparison.sentence) == (test in TESTED)
    if test not in TESTED:
        assert (
            comparison.shape == "read off"
            and comparison.sentence.startswith("Untested here")
            and comparison.certainty is None
        )


def test_silence_is_no_null():
    silent = answer(
        {
            "one": study(
                [
                    result(
                        contrasts=[{**PAIR, "test": "not reported", "note": "The paper is silent."}]
                    )
                ]
            )
        }
    )
    assert (silent.shape, silent.rows, silent.sentence) == ("untested", (), "")


def test_a_version_is_a_treatment_of_its_own():
    arms = {
        "a": {"mean": 50.0, "sd": 10.0},
        "b": {"mean": 40.0, "sd": 10.0},
        "c": {"mean": 70.0, "sd": 10.0},
    }
    data = study([result(arms)], {"a": A, "b": B, "c": A})
    data["arms"]["c"]["version"] = "lower-half"
    made = engine({"one": data})
    plain = made.comparison(Question(A, B, LONG, "activation"))
    assert plain.estimate.ratio == pytest.approx(50 / 40, rel=1e-2), (
        "the version is not averaged into the exercise"
    )
    half = made.comparison(Question(f"{A}@lower-half", A, LONG, "activation"))
    assert half.estimate.ratio == pytest.approx(70 / 50, rel=1e-2)
    assert "the alder curl, over the lower half" in half.sentence
    pairs = {
        (c.question.first, c.question.second)
        for c in made.field((LONG, "activation", None)).comparisons
    }
    assert (A, f"{A}@lower-half") in pairs


def test_people_of_other_versions_are_not_counted():
    arms = {arm: {"change_percent": 9.0, "sd": 4.0} for arm in "abc"}
    data = study(
        [growth(arms)], {"a": A, "b": B, "c": A}, same=False, n=36, sizes={"a": 9, "b": 10, "c": 17}
    )
    data["arms"]["c"]["version"] = "lower-half"
    assert answer({"one": data}, outcome="growth").people == 19


def test_what_our_cue_forbids_says_nothing_of_our_exercise():
    data = study([result(contrasts=MORE)])
    data["arms"]["a"]["forbidden_by"] = "Sit tall on the crate."
    comparison = answer({"one": data})
    assert (comparison.shape, comparison.rows) == ("untested", ())


def test_what_is_in_doubt_is_shown_and_never_weighed():
    arms = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 10.0}}
    comparison = answer({"one": study([result(arms, MORE, doubt="A digit may be wrong.")])})
    assert (
        comparison.estimate is None
        and comparison.directions.total == 0
        and len(comparison.rows) == 1
    )
    assert "In doubt: A digit may be wrong." in comparison.rows[0].notes
    beside = answer(
        {
            "one": study([result(arms, MORE, doubt="A digit may be wrong.")]),
            "two": study([result(arms)]),
        }
    )
    alone = answer({"two": study([result(arms)])})
    assert beside.estimate == alone.estimate and beside.people == alone.people


def test_nothing_counts_that_was_retracted():
    catalog = of({"one": study([result(contrasts=MORE)])})
    notice = (PublishedNotice("retraction", "10.0000/gone"),)
    gone = replace(catalog, references={"one": replace(catalog.references["one"], notices=notice)})
    assert Engine(gone, settings(gone)).comparison(Question(A, B, LONG, "activation")).rows == ()


def test_one_number_over_two_parts_is_told_once():
    arms = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 10.0}}
    [conclusion] = conclude(
        of({"one": study([result(arms, parts=(LONG, SHORT))])}, {A: [claim(part=[LONG, SHORT])]})
    ).of(A)
    assert (
        conclusion.sentence.count("interval") == 1
        and "One number covers them together." in conclusion.sentence
    )
    single = judged({"one": study([result(arms, parts=(LONG, SHORT))])})
    assert (
        "One number covers the long head of the lantern muscle and the short head of the lantern muscle together."
        in single.sentence
    )


def test_a_difference_of_changes_has_a_ratio_with_its_start():
    """2.5 cm2 more, SE 0.7, from 50 cm2: ln(1 + 0.05); the SE over the logarithmic mean of 1.05 and 1."""
    difference = {"value": 2.5, "unit": "cm3", "se": 0.7, "start": 50.0}
    block = measured(
        study(
            [growth(contrasts=[{**PAIR, "favours": "of", "difference": difference}], unit="cm3")],
            same=False,
            n=24,
            sizes={"a": 12, "b": 12},
        ),
        "growth",
    ).block
    assert abs(block.y[0]) == pytest.approx(log(1.05))
    assert sqrt(block.v[0, 0]) == pytest.approx(0.7 / 50 / (0.05 / log(1.05)))


def test_the_spread_of_a_change_gives_the_correlation_of_before_and_after():
    """SDs 10 and 11 before and after, 5 of the change: r = (100 + 121 - 25) / 220 (Cochrane Handbook, 6.5.2.8)."""
    value = {
        "pre": {"mean": 50.0, "sd": 10.0},
        "post": {"mean": 55.0, "sd": 11.0},
        "change": 5.0,
        "sd": 5.0,
    }
    groups = {"same": False, "n": 24, "sizes": {"a": 12, "b": 12}}
    told = measured(study([growth({"a": value, "b": value}, unit="cm3")], **groups), "growth")
    r = (100 + 121 - 25) / 220
    c = ((10 / 50) ** 2 + (11 / 55) ** 2 - 2 * r * (10 / 50) * (11 / 55)) / 12
    assert told.block.v[0, 0] == pytest.approx(2 * c) and not told.imputed
    printed = {key: x for key, x in value.items() if key in ("pre", "post")} | {"correlation": r}
    assert measured(
        study([growth({"a": printed, "b": printed}, unit="cm3")], **groups), "growth"
    ).block.v == pytest.approx(told.block.v)


def test_correlations_are_those_of_the_measure():
    """Of two limbs, thickness and MRI have their own (``conventions.correlations.arms``)."""
    base = settings(of({"one": study([result({"a": {"mean": 1}})])}))
    other = base.correlations.arms[0].model_copy(
        update={"measures": ["mri-volume"], "value": 0.9, "range": [0, 0.95]}
    )
    fixed = replace(
        base,
        correlations=base.correlations.model_copy(
            update={"arms": [*base.correlations.arms, other]}
        ),
    )
    assert fixed.correlation("arms", "growth", "mri-volume") == 0.9
    assert (
        fixed.correlation("arms", "growth", "ultrasound-thickness")
        == base.correlations.arms[0].value
    )
    moved = [
        s.correlation("arms", "growth", "mri-volume")
        for s in fixed.variations()
        if s.moved[0] == "arms"
    ]
    assert (
        moved == [0, 0.95]
        and correlated(fixed, "arms", 0.4).correlation("arms", "growth", "mri-volume") == 0.4
    )


def test_a_pair_is_told_as_its_own_paper_tested_it():
    """Three arms, three printed bounds: each pair's answer leaves out no difference exactly as its own bound does (scipy's t)."""
    means = {"a": {"mean": 50.0}, "b": {"mean": 40.0}, "c": {"mean": 39.0}}
    contrasts = [
        {**PAIR, "favours": "of", "p_below": 0.05},
        {"of": "a", "against": "c", "favours": "of", "p_below": 0.001},
    ]
    made = engine({"one": study([result(means, contrasts)], {"a": A, "b": B, "c": C})})
    for second, mean, bound in ((B, 40.0, 0.05), (C, 39.0, 0.001)):
        comparison = made.comparison(Question(A, second, LONG, "activation"))
        half = log(50 / mean) / stats.t.ppf(1 - bound / 2, 11) * stats.t.ppf(0.975, 11)
        assert comparison.shape == "more" and comparison.estimate.bounded
        assert log(comparison.estimate.low) == pytest.approx(log(50 / mean) - half, abs=1e-6)
        assert "only a bound on p is printed" in comparison.sentence


def test_two_groups_of_one_exercise_are_different_people():
    """The average of two groups' contrasts has half of one group's variance; of two limbs of the same people it has more."""
    arms = {"a": {"change_percent": 9.0, "sd": 4.0}, "again": {"change_percent": 9.0, "sd": 4.0}}
    other = {"a": {"change_percent": 5.0, "sd": 4.0}, "again": {"change_percent": 5.0, "sd": 4.0}}
    both = [growth(arms), growth(other, parts=(SHORT,))]
    groups = {"same": False, "n": 24, "sizes": {"a": 12, "again": 12}}
    asked = Question(LONG, SHORT, LONG, "growth", within=A)

    def variance(data):
        [sample] = engine({"one": data}).samples_of(asked)
        return float(sample.block.v[0, 0])

    single = [growth({"a": arms["a"]}), growth({"a": other["a"]}, parts=(SHORT,))]
    one = variance(study(single, {"a": A}, same=False, n=12, sizes={"a": 12}))
    assert variance(study(both, {"a": A, "again": A}, **groups)) == pytest.approx(one / 2)
    assert variance(study(both, {"a": A, "again": A}, n=12)) > one / 2
