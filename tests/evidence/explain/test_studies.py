"""What each sample says, in text: pooled, weighed by a report, or only listed."""

import pytest
from catalogs import LONG, SHORT, A, B, C, engine, result, study

from build_tools.evidence.explain import studies
from build_tools.evidence.terms import Question

TEST = {"of": "a", "against": "b"}
ARMS = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 10.0}}
MEANS = {"a": {"mean": 50.0}, "b": {"mean": 40.0}}


def told(data, first=A, second=B, within=None, part=LONG):
    made = engine(data)
    question = Question(first, second, part, "activation", None, within)
    comparison = made.comparison(question)
    return [text for _, text in studies.lines(made, question, comparison.rows)]


def test_a_pooled_sample_tells_its_arms_and_its_own_interval():
    lines = told({"one": study([result(ARMS)])})
    assert lines[0] == "one: within-participant, 12 people; read: full text"
    assert lines[1].startswith("Printed: A arm 50% MVIC (SD 10)")
    assert lines[-1].startswith("Its own ratio: exp(") and "t(11) = 2.201" in lines[-1]
    assert "From the spreads printed for each exercise." in lines


@pytest.mark.parametrize(
    ("contrast", "words"),
    [
        ({"favours": "of"}, "found the first ahead"),
        ({"favours": "against"}, "found the second ahead"),
        ({"favours": "neither"}, "found no difference"),
    ],
)
def test_a_report_without_a_spread_tells_how_it_is_weighed(contrast, words):
    lines = told({"one": study([result(contrasts=[TEST | contrast])])})
    assert (
        lines[-1].startswith("Weighed as: no number; a test, at t = 2.201,") and words in lines[-1]
    )


def test_numbers_that_nobody_tested():
    assert "nobody tested the two" in told({"one": study([result(MEANS)])})[-1]


def test_several_measurements_are_said_to_be_averaged():
    sites = [result(ARMS, site={"said": site}) for site in ("one", "two")]
    assert any("2 measurements of the same people" in text for text in told({"one": study(sites)}))


def test_what_makes_it_less_direct_is_noted():
    data = study([result(ARMS)])
    data["arms"]["a"]["differs"] = "lowering phase only"
    assert "Note: a arm: lowering phase only" in told({"one": data})


def test_a_pair_that_follows_from_the_studys_other_contrasts():
    tests = [
        TEST | {"ratio": {"value": 1.2}, "t": 2.0},
        {"of": "b", "against": "c", "ratio": {"value": 1.5}, "t": 3.0},
    ]
    lines = told({"one": study([result(contrasts=tests)], {"a": A, "b": B, "c": C})}, A, C)
    assert any(text.startswith("From the study's contrasts with other exercises") for text in lines)
    assert sum("log ratio ln(" in text for text in lines) == 2


def test_two_parts_within_one_exercise():
    parts = [result({"a": ARMS["a"]}), result({"a": ARMS["b"]}, parts=(SHORT,))]
    lines = told({"one": study(parts)}, LONG, SHORT, within=A)
    assert any(text.startswith("lantern/long-head: a arm") for text in lines)


def test_samples_that_connect_the_two_through_others():
    data = {"one": study([result(ARMS)]), "two": study([result(ARMS)], {"a": B, "b": C})}
    made = engine(data)
    question = Question(A, C, LONG, "activation")
    comparison = made.comparison(question)
    assert comparison.rows == ()
    lines = list(studies.elsewhere(made, question, comparison.rows, {A, B, C}))
    assert [text for _, text in lines] == [f"one: {A}, {B}", f"two: {B}, {C}"]
