"""How samples became one answer, in text."""

import pytest
from catalogs import LONG, A, B, C, D, engine, result, study

from build_tools.evidence.explain import pooling
from build_tools.evidence.terms import Question

TEST = {"of": "a", "against": "b"}
ARMS = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 10.0}}


def told(data, first=A, second=B):
    made = engine(data)
    comparison = made.comparison(Question(first, second, LONG, "activation"))
    return [text for _, text in pooling.lines(made, comparison)], comparison


def test_nothing_weighed():
    lines, _ = told({})
    assert lines == ["Nothing connects the two with a number or a test, so nothing is weighed."]


def test_one_sample():
    lines, comparison = told({"one": study([result(ARMS)])})
    assert (
        "One sample has a spread of its own, so nothing shows how studies differ: the handbook's expectation stands in."
        in lines
    )
    estimate = comparison.estimate
    assert any(
        f"(ratio {estimate.ratio:.4g}, {estimate.low:.4g} to {estimate.high:.4g})" in text
        for text in lines
    )
    assert any(
        text.startswith("Over the stated ranges of the assumed correlations") for text in lines
    )
    assert sum("the spread between studies expected" in text for text in lines) == 2
    assert any(
        f"changes the finding with a chance of {comparison.outlook.chance:.0%}" in text
        for text in lines
    )


def test_a_direction_alone_has_no_ratio():
    lines, _ = told({"one": study([result(contrasts=[TEST | {"favours": "of"}])])})
    assert "No number says how much, so only the chances below are told." in lines


def test_samples_with_a_spread_are_told_apart_from_the_rest():
    lines, _ = told(
        {
            "one": study([result(ARMS)]),
            "two": study([result(contrasts=[TEST | {"favours": "neither"}])]),
        }
    )
    assert any(text.startswith("Samples with a spread of their own alone: ") for text in lines)


def test_a_loop_tells_both_sides_and_a_chain_that_nobody_compared_the_two():
    chain = {"one": study([result(ARMS)]), "two": study([result(ARMS)], {"a": B, "b": C})}
    lines, _ = told(chain, A, C)
    assert "No sample compares the two itself: all of it comes through other exercises." in lines
    lines, _ = told(chain | {"three": study([result(ARMS)], {"a": A, "b": C})}, A, C)
    assert any(
        text.startswith("Direct evidence alone gives a ratio of 1.2")
        and "p of their difference" in text
        for text in lines
    )


@pytest.mark.parametrize("sd", [1.0, 10.0])
def test_what_would_settle_it_is_told_unless_it_is_settled(sd):
    means = {"a": {"mean": 500.0, "sd": sd}, "b": {"mean": 40.0, "sd": sd}}
    many = {f"s{n}": study([result(means)], {"a": A, "b": D}) for n in range(9)}
    lines, comparison = told(many, A, D)
    assert comparison.finding == "found" and not any("settle it" in text for text in lines)
    lines, comparison = told({"one": study([result(ARMS)])})
    assert comparison.finding != "found" and any("settle it" in text for text in lines)
