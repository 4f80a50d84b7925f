"""Borrowed spreads: by hand from the printed ones, and what they lean on where few are printed."""

from __future__ import annotations

from math import exp, log, sqrt

import numpy as np
import pytest
from catalogs import A, B, C, engine, measured, result, study

from build_tools.evidence.model.blocks import Block
from build_tools.evidence.studies.unit_spreads import (
    USUAL,
    UnitSpread,
    UnitSpreads,
    contributing,
    middle,
    of_block,
)


def told(*values: float, measure: str = "emg", outcome: str = "activation") -> list[UnitSpread]:
    return [UnitSpread(outcome, measure, value) for value in values]


@pytest.mark.parametrize("outcome", USUAL)
def test_what_is_usual_stands_in_where_nothing_is_printed(outcome):
    found = UnitSpreads([]).of(outcome, "any", 16)
    assert found.middle == pytest.approx(USUAL[outcome] / 4) and found.factor > 0.5


def test_printed_spreads_move_it_towards_themselves_and_make_it_surer():
    spreads = [UnitSpreads(told(*[0.2] * k)).of("activation", "emg", 1) for k in (0, 1, 4, 50)]
    middles = [s.middle for s in spreads]
    assert middles == sorted(middles, reverse=True) and middles[-1] == pytest.approx(0.2, rel=0.05)
    factors = [s.factor for s in spreads]
    assert factors[-1] == min(factors)


def test_a_measure_leans_on_its_outcome_and_that_on_what_is_usual():
    """Two prints of 0.2 of one measure: the outcome at the mean of these and two usual, the measure with four of that."""
    found = UnitSpreads(told(0.2, 0.2)).of("activation", "emg", 9)
    all_measures = (2 * log(0.2) + 2 * log(0.45)) / 4
    assert found.middle == pytest.approx(exp((2 * log(0.2) + 4 * all_measures) / 6) / 3)
    other = UnitSpreads(told(0.2, 0.2)).of("activation", "another", 9)
    assert other.middle == pytest.approx(exp(all_measures) / 3) and other.factor > found.factor
    assert UnitSpreads(told(0.2, 0.2)).of("growth", "emg", 9).middle == pytest.approx(0.02)


def test_spreads_that_differ_more_are_borrowed_with_more_doubt():
    alike, unlike = (
        UnitSpreads(told(*v)).of("activation", "emg", 9) for v in ([0.3] * 6, [0.1, 0.9] * 3)
    )
    assert (
        alike.middle == pytest.approx(unlike.middle, rel=1e-9)
        and unlike.factor > 1.5 * alike.factor
    )


@pytest.mark.parametrize(("n", "m"), [(10, 10), (8, 24)])
def test_the_unit_of_a_block_no_longer_depends_on_how_many_took_part(n, m):
    """A contrast of groups has variance s^2 (1/n + 1/m); of people who do both, s^2 / n."""
    arms = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 50.0, "sd": 10.0}}
    groups = measured(study([result(arms)], same=False, n=n + m, sizes={"a": n, "b": m})).block
    assert contributing((n, m), same_people=False) == pytest.approx(1 / (1 / n + 1 / m))
    if n == m:
        assert of_block(groups, same_people=False) == pytest.approx(10 / 50)
    paired = measured(study([result(arms)], n=n)).block
    assert of_block(paired, same_people=True) == pytest.approx(10 / 50 * sqrt(2 * (1 - 0.5)))
    assert contributing((n, m), same_people=True) == n


def test_a_block_of_unknown_people_gives_none():
    assert of_block(Block("s", ("a", "b"), np.zeros(1), np.eye(1)), True) is None
    assert middle([0.1, 0.4]) == pytest.approx(0.2)


def test_the_engine_borrows_from_every_study_once_a_measure():
    arms = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 50.0, "sd": 10.0}}
    made = engine(
        {
            "one": study([result(arms), result(arms, site={"said": "again"})]),
            "two": study([result(arms)], {"a": A, "b": C}),
            "mute": study(
                [result(contrasts=[{"of": "a", "against": "b", "favours": "of"}])], {"a": B, "b": C}
            ),
        }
    )
    assert [(s.outcome, s.measure) for s in made.spreads.printed] == [
        ("activation", "surface-emg")
    ] * 2
    wanted = UnitSpreads([UnitSpread("activation", "surface-emg", 0.2)] * 2).of(
        "activation", "surface-emg", 4
    )
    assert made.spreads.of("activation", "surface-emg", 4) == wanted
