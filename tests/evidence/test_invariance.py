"""The whole way from study files to an answer, against itself: the order of files, names, sides, units and what is beside the question change
nothing. Studies are made by Hypothesis."""

import numpy as np
import pytest
from catalogs import (
    LONG,
    SHORT,
    A,
    B,
    C,
    D,
    E,
    F,
    answer,
    claim,
    close,
    engine,
    growth,
    of,
    result,
    samples_in,
    study,
)
from hypothesis import given
from hypothesis import settings as examples
from hypothesis import strategies as st

from build_tools.committed import files as committed
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.terms import Question

TOPIC = (LONG, "activation", None)

means = st.integers(20, 90).map(float)
spreads = st.integers(2, 15).map(float)
arm_values = st.fixed_dictionaries({"mean": means, "sd": spreads})


@st.composite
def small_studies(
    draw,
    names=("one", "two", "three", "four"),
    exercises=(A, B, C, D),
    kinds=("spreads", "spreads", "test", "direction"),
):
    """Up to four studies on up to four exercises: with spreads, with a test alone, or with a direction alone."""
    studies = {}
    for name in names[: draw(st.integers(1, len(names)))]:
        chosen = draw(st.lists(st.sampled_from(exercises), min_size=2, max_size=3, unique=True))
        ids = "abc"[: len(chosen)]
        values = {id: draw(arm_values) for id in ids}
        kind = draw(st.sampled_from(kinds))
        pairs = [("a", "b"), ("b", "c"), ("c", "a")][: 1 if len(ids) == 2 else 3]
        contrasts = [
            {"of": i, "against": j, "favours": draw(st.sampled_from(["of", "against", "neither"]))}
            for i, j in pairs
        ]
        if kind == "direction":
            told = result(contrasts=contrasts)
        elif kind == "test":
            told = result(
                {id: {"mean": v["mean"]} for id, v in values.items()},
                [c | {"p": draw(st.sampled_from([0.001, 0.03, 0.2]))} for c in contrasts],
            )
        else:
            told = result(values)
        same_people = draw(st.booleans())
        sizes = None if same_people else dict.fromkeys(ids, 9)
        studies[name] = study(
            [told],
            dict(zip(ids, chosen, strict=True)),
            same=same_people,
            n=draw(st.integers(9, 40)),
            sizes=sizes,
        )
    return studies


def all_pairs(studies, **more):
    made = engine(studies, **more)
    return {(c.question.first, c.question.second): c for c in made.field(*TOPIC).comparisons}


@given(small_studies(), st.randoms(use_true_random=False))
@examples(max_examples=25)
def test_the_order_of_the_files_does_not_change_a_byte(studies, random):
    turned = list(studies.items())
    random.shuffle(turned)
    claims = {A: [claim(cites=[{"key": next(iter(sorted(studies))), "at": "abstract"}])]}
    plain, other = (of(dict(order), claims) for order in (sorted(studies.items()), turned))
    assert committed.files(conclude(plain), plain) == committed.files(conclude(other), other)


@given(small_studies(), st.permutations([A, B, C, D]))
@examples(max_examples=25)
def test_other_names_for_the_exercises_give_the_same_answers_under_them(studies, names):
    new = dict(zip((A, B, C, D), names, strict=True))
    renamed = {
        key: data
        | {
            "arms": {
                id: arm | {"exercise": new[arm["exercise"]]} for id, arm in data["arms"].items()
            }
        }
        for key, data in studies.items()
    }
    other = engine(renamed)
    for (first, second), found in all_pairs(studies).items():
        again = other.comparison(Question(new[first], new[second], *TOPIC))
        assert close(found.estimate, again.estimate) and (
            found.finding,
            found.side,
            found.directions,
            found.studies,
            found.people,
            found.path,
        ) == (again.finding, again.side, again.directions, again.studies, again.people, again.path)
        assert level(found) == level(again)


def level(comparison):
    return comparison.certainty and comparison.certainty.level


MIRROR = {"more": "less", "less": "more"}


@given(small_studies())
@examples(max_examples=25)
def test_turning_a_question_mirrors_its_answer(studies):
    made = engine(studies)
    for (first, second), forth in all_pairs(studies).items():
        back = made.comparison(Question(second, first, *TOPIC))
        assert (back.finding, back.side) == (forth.finding, MIRROR.get(forth.side, forth.side))
        assert (back.more, back.matters) == pytest.approx(
            (forth.more and 1 - forth.more, forth.matters), abs=1e-9
        )
        assert (back.directions.more, back.directions.less, back.directions.neither) == (
            forth.directions.less,
            forth.directions.more,
            forth.directions.neither,
        )
        assert [row.direction for row in back.rows] == [
            MIRROR.get(row.direction, row.direction) for row in forth.rows
        ]
        assert (forth.estimate is None) == (back.estimate is None)
        if forth.estimate:
            assert np.allclose(
                np.log([forth.estimate.ratio, forth.estimate.low, forth.estimate.high]),
                -np.log([back.estimate.ratio, back.estimate.high, back.estimate.low]),
                atol=1e-9,
            )
        assert (forth.certainty and forth.certainty.level) == (
            back.certainty and back.certainty.level
        )


@given(small_studies(), st.sampled_from([1000.0, 0.001]))
@examples(max_examples=25)
def test_another_unit_changes_nothing(studies, factor):
    scaled = {
        key: data
        | {
            "results": [
                r
                | {
                    "unit": "other",
                    **(
                        {
                            "values": {
                                id: {k: x * factor for k, x in v.items()}
                                for id, v in r["values"].items()
                            }
                        }
                        if "values" in r
                        else {}
                    ),
                }
                for r in data["results"]
            ]
        }
        for key, data in studies.items()
    }
    plain, other = all_pairs(studies), all_pairs(scaled)
    assert plain.keys() == other.keys()
    for pair, found in plain.items():
        assert close(found.estimate, other[pair].estimate) and found.finding == other[pair].finding


@given(small_studies())
@examples(max_examples=25)
def test_a_study_that_says_nothing_moves_no_estimate(studies):
    """Its test was within each exercise, and its number is in doubt."""
    told = result(
        {"a": {"mean": 61.0}, "b": {"mean": 60.0}},
        [{"of": "a", "against": "b", "favours": "of", "test": "within"}],
        doubt="Misprinted.",
    )
    plain, other = (
        all_pairs(studies),
        all_pairs(studies | {"zero": study([told], {"a": A, "b": D}, n=99)}),
    )
    for pair, found in plain.items():
        again = other[pair]
        assert found.estimate == again.estimate and found.path == again.path
        assert (found.studies, found.people) == (again.studies, again.people)


@given(
    st.dictionaries(st.sampled_from("ab"), arm_values, min_size=2),
    st.integers(9, 40),
    st.floats(0, 0.9),
)
@examples(max_examples=25)
def test_a_further_arm_that_others_did_not_test_leaves_the_first_pair_as_it_was(
    values, n, correlation
):
    """In one sample a third arm adds a contrast and an unknown: nothing is learned of the first two."""
    plain = answer({"one": study([result(values)], n=n)}, arms=correlation)
    three = study([result(values | {"c": values["a"]})], {"a": A, "b": B, "c": C}, n=n)
    more = answer({"one": three}, arms=correlation)
    assert close(plain.estimate, more.estimate)


@given(arm_values, arm_values, st.integers(9, 40))
@examples(max_examples=25)
def test_an_arm_given_twice_under_one_exercise_is_averaged_with_what_the_two_share(a, b, n):
    """The mean of two values that correlate by r has (1 + r)/2 of their variance: only what is truly apart is averaged away."""
    once, made = (
        answer({"one": study([result({"a": a, "b": b})], n=n)}),
        engine(
            {
                "one": study(
                    [result({"a": a, "again": a, "b": b})], {"a": A, "again": A, "b": B}, n=n
                )
            }
        ),
    )
    assert made.comparison(Question(A, B, *TOPIC)).estimate.ratio == pytest.approx(
        once.estimate.ratio
    )
    c, r = (
        [(v["sd"] / v["mean"]) ** 2 / n for v in (a, b)],
        made.settings.correlation("arms", "activation", "surface-emg"),
    )
    assert samples_in(made.assembly, *TOPIC)[0].block.v[0, 0] == pytest.approx(
        c[0] * (1 + r) / 2 + c[1] - 2 * r * np.sqrt(c[0] * c[1])
    )


#: Studies that print a spread: those that do not borrow one from every study of their measure, as the handbook says.
SIZED = ("spreads",)


@given(
    small_studies(kinds=SIZED), small_studies(names=("uno", "due"), exercises=(E, F), kinds=SIZED)
)
@examples(max_examples=25)
def test_nothing_is_said_between_exercises_that_no_study_connects(here, there):
    made = engine(here | there)
    for first in (A, B, C, D):
        for second in (E, F):
            found = made.comparison(Question(first, second, *TOPIC))
            assert (found.estimate, found.finding, found.rows, found.sentence) == (
                None,
                "not studied",
                (),
                "",
            )
    apart = all_pairs(here)
    assert all(
        close(found.estimate, apart[pair].estimate)
        for pair, found in all_pairs(here | there).items()
        if pair in apart
    )
    assert {frozenset(pair) for pair in all_pairs(here | there)} >= {
        frozenset(pair) for pair in all_pairs(there)
    }


GROWN = {"a": {"change_percent": 9.0, "sd": 4.0}, "b": {"change_percent": 5.0, "sd": 4.0}}


@given(small_studies(kinds=SIZED))
@examples(max_examples=15)
def test_what_is_measured_of_one_outcome_says_nothing_of_another(studies):
    """Growth, strength and the other part, however they were measured, leave activation where it was."""
    beside = {
        "beside": study(
            [
                growth(GROWN),
                result(GROWN, measure="one-repetition-maximum"),
                result(
                    {"a": {"mean": 90.0, "sd": 1.0}, "b": {"mean": 10.0, "sd": 1.0}}, parts=(SHORT,)
                ),
                result(
                    {"a": {"mean": 90.0, "sd": 1.0}, "b": {"mean": 10.0, "sd": 1.0}},
                    relative_to=SHORT,
                ),
            ],
            n=400,
        )
    }
    plain, other = all_pairs(studies), all_pairs(studies | beside)
    assert plain.keys() == other.keys()
    for pair, found in plain.items():
        assert (found.estimate, found.finding, found.rows) == (
            other[pair].estimate,
            other[pair].finding,
            other[pair].rows,
        )
    for outcome in ("growth", "strength"):
        assert engine(studies).comparison(Question(A, B, LONG, outcome)).finding == "not studied"
