"""One result as a block, or why it can only be listed: every way without a spread, and every refusal."""

from __future__ import annotations

import numpy as np
import pytest
from catalogs import A, B, C, growth, measured, of, read_study, result, samples_in, study
from hypothesis import given
from hypothesis import strategies as st

from build_tools.evidence.settings import settings
from build_tools.evidence.studies.measurement import is_of_fractions
from build_tools.evidence.studies.samples import Assembly

LEVEL = {"mean": 50.0, "sd": 10.0}
BEFORE_AND_AFTER = {"pre": {"mean": 50.0, "sd": 10.0}, "post": {"mean": 55.0, "sd": 11.0}}
TEST = {"of": "a", "against": "b", "test": "between"}


MEANS = {"a": {"mean": 50.0}, "b": {"mean": 40.0}}


WITHOUT = [
    ("only a direction", result(contrasts=[TEST | {"favours": "of"}]), "no spread reported"),
    ("means alone", result(MEANS), "no spread reported"),
    ("means and a direction", result(MEANS, [TEST | {"favours": "of"}]), "no spread reported"),
    (
        "p above a bound",
        result(MEANS, [TEST | {"p_above": 0.05}]),
        "its p value does not say how wide the spread is",
    ),
    (
        "p below a bound",
        result(MEANS, [TEST | {"p_below": 0.01, "favours": "of"}]),
        "only a bound on p is printed, which does not say how wide the spread is",
    ),
    (
        "a level near zero",
        result({"a": {"mean": 50.0, "sd": 60.0}, "b": {"mean": 40.0, "sd": 60.0}}),
        "its mean is within three standard errors of zero, so no ratio can be taken",
    ),
    (
        "p of 1",
        result(MEANS, [TEST | {"p": 1.0}]),
        "its p value does not say how wide the spread is",
    ),
    ("p without amounts", result(contrasts=[TEST | {"p": 0.01}]), "no spread reported"),
    (
        "equal means with p",
        result({"a": {"mean": 50.0}, "b": {"mean": 50.0}}, [TEST | {"p": 0.5}]),
        "two equal numbers with a test have no spread to take back",
    ),
    (
        "ratio of 1 with p",
        result(contrasts=[TEST | {"ratio": {"value": 1.0}, "p": 0.5}]),
        "two equal numbers with a test have no spread to take back",
    ),
    ("ratio alone", result(contrasts=[TEST | {"ratio": {"value": 1.2}}]), "no spread reported"),
    (
        "difference in another unit",
        result(MEANS, [TEST | {"difference": {"value": 0.1, "unit": "mV", "se": 0.02}}]),
        "no spread reported",
    ),
    (
        "standardised difference",
        result(
            MEANS, [TEST | {"standardised": {"kind": "Cohen d", "value": 0.5, "ci95": [0.1, 0.9]}}]
        ),
        "no spread reported",
    ),
    (
        "median alone",
        result({"a": {"median": 50.0}, "b": {"median": 40.0}}),
        "a median without its quartiles has no spread",
    ),
    (
        "change of activation",
        result({"a": {"change": 5.0, "sd": 2.0}, "b": {"change": 4.0, "sd": 2.0}}),
        "a change over time is no amount of this outcome",
    ),
    (
        "activation before and after",
        result(dict.fromkeys("ab", BEFORE_AND_AFTER)),
        "a change over time is no amount of this outcome",
    ),
    (
        "values that are no amounts",
        result({"a": LEVEL, "b": LEVEL}, measure="signal-shift"),
        "values of this measure are no amounts whose ratio could be taken",
    ),
    (
        "too wide",
        result(contrasts=[TEST | {"ratio": {"value": 1.0001}, "p": 0.9999999}]),
        "its interval is too wide to say anything",
    ),
]


GROWTH_WITHOUT = [
    (
        "growth as a level",
        growth(dict.fromkeys("ab", {"mean": 50.0, "sd": 10.0})),
        "a level after training is no change",
    ),
    (
        "growth as a median",
        growth(dict.fromkeys("ab", {"median": 50.0, "quartiles": [44.0, 56.0]})),
        "a level after training is no change",
    ),
    (
        "growth as a plain change",
        growth(dict.fromkeys("ab", {"change": 3.0, "sd": 1.0})),
        "a change without the value before it has no ratio",
    ),
    (
        "growth as a plain change with p",
        growth({"a": {"change": 3.0}, "b": {"change": 2.0}}, [TEST | {"p": 0.01}]),
        "a change without the value before it has no ratio",
    ),
    (
        "before and after without spread",
        growth(
            {
                a: {"pre": {"mean": 50.0}, "post": {"mean": 50.0 + k}}
                for a, k in (("a", 5), ("b", 4))
            },
            [TEST],
        ),
        "no spread reported",
    ),
]


@pytest.mark.parametrize(
    ("outcome", "told", "reason"),
    [("activation", *row[1:]) for row in WITHOUT]
    + [("growth", *row[1:]) for row in GROWTH_WITHOUT],
    ids=[row[0] for row in WITHOUT + GROWTH_WITHOUT],
)
def test_what_gives_no_spread_is_listed_with_the_reason(outcome, told, reason):
    found = measured(study([told]), outcome)
    assert (found.block, found.how) == (None, reason)


@pytest.mark.parametrize(
    "told", [result({"a": LEVEL, "b": LEVEL}), result(MEANS, [TEST | {"p": 0.01}])]
)
def test_groups_of_unknown_size_are_listed(told):
    found = measured(study([told], same=False))
    assert (found.block, found.how) == (None, "group sizes were not read")


def test_architecture_is_listed_only():
    told = result(
        dict.fromkeys("ab", {"mean": 12.0, "sd": 2.0}), measure="fibre-angle", unit="degrees"
    )
    found = measured(study([told]), "architecture")
    assert (found.block, found.how) == (None, "this outcome is listed only")


IMPOSSIBLE = [
    ("SD 0", result({"a": {"mean": 50.0, "sd": 0.0}, "b": LEVEL}), "zero"),
    (
        "SE 0 of a difference",
        result(MEANS, [TEST | {"difference": {"value": 10.0, "unit": "% MVIC", "se": 0.0}}]),
        "zero",
    ),
    ("negative mean", result({"a": {"mean": -5.0, "sd": 1.0}, "b": LEVEL}), "above zero"),
    (
        "zero mean",
        result({"a": {"mean": 0.0}, "b": {"mean": 5.0}}, [TEST | {"p": 0.01}]),
        "above zero",
    ),
    (
        "interval the wrong way round",
        result({"a": {"mean": 50.0, "ci95": [55.0, 45.0]}, "b": LEVEL}),
        "lower limit comes first",
    ),
    (
        "ratio outside its interval",
        result(contrasts=[TEST | {"ratio": {"value": 2.0, "ci95": [1.1, 1.4]}}]),
        "does not lie in",
    ),
    ("t against the means", result(MEANS, [TEST | {"t": -2.5}]), "opposite ways"),
    (
        "quartiles out of order",
        result({"a": {"median": 60.0, "quartiles": [44.0, 56.0]}, "b": LEVEL}),
        "in order",
    ),
]


@pytest.mark.parametrize(
    ("outcome", "told", "says"),
    [("activation", *row[1:]) for row in IMPOSSIBLE]
    + [
        (
            "growth",
            growth(
                {
                    "a": {"change_percent": -100.0, "sd": 5.0},
                    "b": {"change_percent": 5.0, "sd": 5.0},
                }
            ),
            "leaves nothing",
        ),
        (
            "growth",
            growth(
                {
                    "a": {"change_percent": 0.08, "sd": 0.04},
                    "b": {"change_percent": 0.05, "sd": 0.04},
                }
            ),
            "looks like fractions of 1",
        ),
        (
            "growth",
            growth(
                {"a": {"change_percent": -100.0}, "b": {"change_percent": 5.0}},
                [TEST | {"p": 0.01}],
            ),
            "leaves nothing",
        ),
    ],
    ids=[row[0] for row in IMPOSSIBLE] + ["all lost", "fractions for per cent", "all lost, with p"],
)
def test_numbers_that_cannot_be_weighed_are_a_finding_and_no_block(outcome, told, says):
    catalog = of({"one": study([told])})
    assembly = Assembly(catalog, settings(catalog))
    for _ in range(2):  # asking again reports nothing twice
        [sample] = samples_in(assembly, outcome=outcome)
    assert (
        sample.block is None and sample.sources[0].measured.how == "its numbers cannot be weighed"
    )
    [finding] = assembly.trouble
    assert finding.rule == "unusable-number" and says in finding.message


def test_one_person_has_no_spread():
    catalog = of({"one": study([result(dict.fromkeys("ab", LEVEL))], n=1)})
    assembly = Assembly(catalog, settings(catalog))
    assert samples_in(assembly)[0].block is None
    assert "at least 2" in assembly.trouble[0].message


def test_arms_that_leave_a_contrast_all_but_no_variance_are_refused():
    """Two tiny spreads beside a wide one: the network's arithmetic could not hold such a block."""
    values = {
        "a": {"mean": 50.0, "sd": 30.0},
        "b": {"mean": 50.0, "sd": 1e-7},
        "c": {"mean": 50.0, "sd": 1e-7},
    }
    catalog = of(
        {
            "one": study(
                [result(values)],
                {"a": A, "b": B, "c": C},
                same=False,
                n=36,
                sizes=dict.fromkeys("abc", 12),
            )
        }
    )
    assembly = Assembly(catalog, settings(catalog))
    assert samples_in(assembly)[0].block is None and assembly.trouble


@given(
    values=st.lists(st.floats(1e-8, 1e8), min_size=4, max_size=4),
    n=st.integers(1, 40),
    r=st.floats(0, 0.95),
)
def test_any_positive_numbers_give_a_block_a_reason_or_a_finding(values, n, r):
    told = result(
        {"a": {"mean": values[0], "sd": values[1]}, "b": {"mean": values[2], "sd": values[3]}}
    )
    found = measured(study([told], n=n), arms=r)
    if found.block:
        assert found.block.v[0, 0] > 0 and np.isfinite(found.block.y).all()
    else:
        assert found.how in (
            "its interval is too wide to say anything",
            "its numbers cannot be weighed",
            "its mean is within three standard errors of zero, so no ratio can be taken",
        )


@pytest.mark.parametrize(
    ("values", "fractions"),
    [
        ([(0.08, 0.04), (0.05, 0.04)], True),
        ([(0.08, 0.04), (-0.05, 0.9)], True),
        # a small change among others, or a small change whose people differed by per cents
        ([(0.08, 0.04), (5.0, 4.0)], False),
        ([(0.4, 5.0), (0.2, 4.0)], False),
        # without spreads a small change is only small
        ([(0.4, None), (0.2, None)], False),
        ([(0.0, 0.5), (0.0, 0.5)], False),
    ],
)
def test_changes_that_look_like_fractions_of_one(values, fractions):
    told = {
        id: {"change_percent": change, **({"sd": sd} if sd else {})}
        for id, (change, sd) in zip("ab", values, strict=True)
    }
    assert is_of_fractions(read_study(study([growth(told)]), "growth")) == fractions
