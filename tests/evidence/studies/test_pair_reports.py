"""What a sample says of a pair without a spread of its own."""

from __future__ import annotations

from math import log

import pytest
from catalogs import LONG, A, B, engine, growth, result, study
from scipy import stats

from build_tools.evidence.studies.pair_reports import pair_report, printed_log_ratio, side_factor
from build_tools.evidence.terms import Question

TEST = {"of": "a", "against": "b"}
MEANS = {"a": {"mean": 50.0}, "b": {"mean": 40.0}}


def reported(*results, outcome="activation", turned=False, unfit=(), **more):
    made = engine({"one": study(list(results), **more)})
    pair = (B, A) if turned else (A, B)
    contrasts = made.contrasts(Question(*pair, LONG, outcome))
    return pair_report(made.catalog, made.spreads, "one", contrasts, unfit)


@pytest.mark.parametrize(
    ("told", "y", "sign"),
    [
        (result(contrasts=[TEST | {"favours": "of"}]), None, 1),
        (result(contrasts=[TEST | {"favours": "against"}]), None, -1),
        (result(contrasts=[TEST | {"favours": "neither"}]), None, 0),
        (result(MEANS), log(50 / 40), None),
        (result(MEANS, [TEST | {"favours": "of", "p_below": 0.05}]), log(50 / 40), 1),
        (result(MEANS, [TEST | {"favours": "neither", "p_above": 0.05}]), log(50 / 40), 0),
        (result({"a": {"median": 50.0}, "b": {"median": 40.0}}), log(50 / 40), None),
        (result(contrasts=[TEST | {"favours": "of", "ratio": {"value": 1.2}}]), log(1.2), 1),
        # no test of the two was read: the direction is not told as tested
        (result(contrasts=[TEST | {"favours": "of", "test": "within"}]), None, None),
    ],
)
@pytest.mark.parametrize("turned", [False, True])
def test_number_and_test(told, y, sign, turned):
    found, way = reported(told, turned=turned), -1 if turned else 1
    if y is None and sign is None:
        assert found is None
        return
    assert found.y == (None if y is None else pytest.approx(way * y))
    assert found.sign == (None if sign is None else way * sign)


@pytest.mark.parametrize(
    ("values", "y"),
    [
        ({"a": {"change_percent": 14.0}, "b": {"change_percent": 9.0}}, log(1.14 / 1.09)),
        (
            {
                "a": {"pre": {"mean": 50.0}, "post": {"mean": 55.0}},
                "b": {"pre": {"mean": 40.0}, "post": {"mean": 42.0}},
            },
            log(1.1 / 1.05),
        ),
        (
            {
                "a": {"pre": {"mean": 50.0}, "change": 5.0},
                "b": {"pre": {"mean": 40.0}, "change": 2.0},
            },
            log(1.1 / 1.05),
        ),
        # a level after training, a change without its start and a muscle that is gone make no ratio
        ({"a": {"mean": 14.0}, "b": {"mean": 9.0}}, None),
        ({"a": {"change": 3.0}, "b": {"change": 2.0}}, None),
        ({"a": {"change_percent": -100.0}, "b": {"change_percent": 2.0}}, None),
    ],
)
def test_growth_is_the_ratio_of_growth_factors(values, y):
    found = reported(growth(values), outcome="growth")
    assert (found and found.y) == (y if y is None else pytest.approx(y))


def test_a_difference_with_its_start_is_a_number_too():
    given = {"value": 2.5, "unit": "cm3", "start": 50.0}
    found = reported(
        growth(contrasts=[TEST | {"favours": "of", "difference": given}], unit="cm3"),
        outcome="growth",
    )
    assert (found.y, found.sign) == (pytest.approx(log(1.05)), 1)


@pytest.mark.parametrize(
    ("given", "level"),
    [
        ({"favours": "of"}, 0.05),
        ({"favours": "of", "p_below": 0.001}, 0.001),
        ({"favours": "neither", "p_above": 0.1}, 0.1),
    ],
)
def test_the_test_asked_for_its_own_t(given, level):
    """scipy's t, 11 degrees of freedom for a dozen people who do both."""
    assert reported(result(contrasts=[TEST | given])).critical == pytest.approx(
        stats.t.ppf(1 - level / 2, 11)
    )


def test_groups_have_the_degrees_of_freedom_of_both_and_share_the_people_where_sizes_were_not_read():
    told = result(contrasts=[TEST | {"favours": "of"}])
    read = reported(told, same=False, n=30, sizes={"a": 10, "b": 20})
    assert read.critical == pytest.approx(stats.t.ppf(0.975, 28))
    unread = reported(told, same=False, n=30)
    assert unread.critical == pytest.approx(stats.t.ppf(0.975, 28))
    # The spread is that of the people who make the contrast: 1 / (1/10 + 1/20), and of two equal groups 7.5.
    assert read.spread.middle / unread.spread.middle == pytest.approx(
        (7.5 / (1 / (1 / 10 + 1 / 20))) ** 0.5
    )


def test_several_measurements_of_the_same_people_are_one_report():
    sites = [
        result(
            {"a": {"mean": 50.0}, "b": {"mean": b}},
            [TEST | {"favours": "of"}],
            site={"said": f"{b}"},
        )
        for b in (40.0, 25.0)
    ]
    found = reported(*sites)
    assert found.y == pytest.approx((log(50 / 40) + log(2)) / 2) and found.sign == 1
    mixed = reported(
        *sites, result(contrasts=[TEST | {"favours": "neither"}], site={"said": "third"})
    )
    assert (mixed.sign, mixed.mixed, found.mixed) == (0, True, False), (
        "tests that disagree show neither side"
    )
    beside = reported(
        *sites, result({"a": {"mean": 90.0}, "b": {"mean": 10.0}}, site={"said": "untested"})
    )
    assert beside.y == found.y, "a number that was tested comes before one that was not"


def test_what_is_in_doubt_says_nothing_and_what_is_unfit_only_its_direction():
    told = result(MEANS, [TEST | {"favours": "of"}])
    assert reported(told | {"doubt": "A digit may be wrong."}) is None
    unfit = reported(told, unfit={("one", 0)})
    assert (unfit.y, unfit.sign) == (None, 1)
    assert reported(result(MEANS), unfit={("one", 0)}) is None


@pytest.mark.parametrize(
    "value",
    [
        {"mean": 40.0, "sd": 70.0},
        {"median": 40.0, "quartiles": [50.0, 60.0]},
    ],
    ids=["near zero", "out of order"],
)
def test_a_level_of_which_no_ratio_can_be_taken_only_says_its_direction(value):
    found = reported(
        result({"a": {"mean": 50.0, "sd": 9.0}, "b": value}, [TEST | {"favours": "of"}])
    )
    assert (found.y, found.sign) == (None, 1)


def test_what_is_listed_only_or_no_amount_gives_no_number():
    made = engine(
        {
            "one": study(
                [result(MEANS, measure="signal-shift"), result(MEANS, measure="fibre-angle")]
            )
        }
    )
    for outcome in ("activation", "architecture"):
        [contrast] = made.contrasts(Question(A, B, LONG, outcome))
        assert printed_log_ratio(made.catalog, contrast) is None


def test_a_side_tells_its_growth_factor_and_nothing_of_activation():
    made = engine(
        {
            "one": study(
                [
                    growth({"a": {"change_percent": 14.0}, "b": {"change_percent": 9.0}}),
                    result(MEANS),
                ]
            )
        }
    )
    [grown] = made.contrasts(Question(A, B, LONG, "growth"))
    assert side_factor(grown.first, "growth") == pytest.approx(1.14)
    [felt] = made.contrasts(Question(A, B, LONG, "activation"))
    assert side_factor(felt.first, "activation") is None
