"""The spread in words is the spread that is weighed; the whole way stands in ``test_claim``."""

from math import log, sqrt

import pytest
from catalogs import growth, read_study, result, study

from build_tools.evidence.explain import spread

TEST = {"of": "a", "against": "b"}
ARMS = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "se": 2.0}}
PAIR = ("alder-curl", "birch-curl")
DOING = {"a": "alder-curl", "b": "birch-curl"}


def test_two_arms_of_the_same_people():
    told = list(spread.of_arms(read_study(study([result(ARMS)])), DOING, PAIR))
    assert told[0].startswith(
        "a arm: mean 50, SD 10, 12 people: log 3.912, variance (SD / mean)\u00b2 / n = 0.003333"
    )
    assert "SE 2 (SD 2 \u00d7 \u221a12 = 6.928)" in told[1]
    v = 0.04 / 12 + 0.0025 - sqrt(0.04 / 12 * 0.0025)
    assert "correlation 0.5 (the handbook's convention)" in told[2] and f"{v:.4g}" in told[2]


def test_two_groups():
    data = study([result(ARMS)], same=False, n=24, sizes={"a": 12, "b": 12})
    told = list(spread.of_arms(read_study(data), DOING, PAIR))
    assert told[2].startswith("Different people:") and f"{0.04 / 12 + 0.0025:.4g}" in told[2]


def test_several_arms_of_one_exercise():
    data = study(
        [result(ARMS | {"c": ARMS["a"]})], {"a": "alder-curl", "b": "birch-curl", "c": "alder-curl"}
    )
    told = list(spread.of_arms(read_study(data), {**DOING, "c": "alder-curl"}, PAIR))
    assert (
        told[-1] == "Several arms of one exercise stand for it with their average."
        and len(told) == 4
    )


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"correlation": 0.7}, "correlate by 0.7 (printed)"),
        ({}, "correlate by 0.8 (the handbook's convention)"),
        ({"change": 5.0, "sd": 5.0}, "(taken back from the spread of the change)"),
    ],
)
def test_before_and_after(more, words):
    value = {"pre": {"mean": 50.0, "sd": 10.0}, "post": {"mean": 55.0, "sd": 11.0}, **more}
    reading = read_study(study([growth({"a": value, "b": value})]), "growth")
    assert words in next(spread.of_arms(reading, DOING, PAIR))


def test_two_parts_of_one_arm():
    reading = read_study(study([result(ARMS)]))
    told = list(spread.of_parts((reading, reading), "a"))
    assert len(told) == 3 and "lantern/long-head: a arm" in told[0] and "correlation 0.5" in told[2]


@pytest.mark.parametrize(
    ("contrast", "words"),
    [
        (
            {"ratio": {"value": 1.25, "ci95": [1.1, 1.42]}},
            "its printed 95% interval is 1.1 to 1.42",
        ),
        (
            {"difference": {"value": 10.0, "unit": "% MVIC", "se": 3.0}},
            "the printed spread of the difference",
        ),
        ({"t": 2.5}, "t = 2.5, and |0.2231| over it"),
        ({"p": 0.01}, "p = 0.01 with 11 degrees of freedom gives t = 3.106"),
        ({"p_below": 0.01, "favours": "of"}, "only a bound on p is printed"),
    ],
)
def test_a_contrast(contrast, words):
    values = None if "ratio" in contrast else {"a": {"mean": 50.0}, "b": {"mean": 40.0}}
    reading = read_study(study([result(values, [TEST | contrast])]))
    told = spread.of_contrast(reading, reading.result.contrasts[0])
    assert told.startswith("a arm against b arm: ") and words in told
    if "p_below" not in contrast and values:
        assert f"log ratio ln(50 / 40) = {log(50 / 40):.4g}" in told
