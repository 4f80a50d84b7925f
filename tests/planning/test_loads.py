"""Starting loads: equations side by side, and what can be put on a bar.

Outside values: ``one_rep_max`` entries of tests/reference/statistics.yaml (formulas from memory, evaluated in another program; the two
lines of Reynolds et al. 2006, doi 10.1519/R-15304.1, from the abstract); the international pound of 0.45359237 kg (agreement of 1959, from
memory; NIST Special Publication 811 gives the same factor); mass fractions of de Leva 1996, doi 10.1016/0021-9290(95)00178-6 (forearm 1.62,
hand 0.61 % of men's mass).
"""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from build_tools.catalog.entries import LoadPrediction
from build_tools.catalog.load import Catalog, load
from build_tools.planning.load_prediction import share
from build_tools.planning.loads import Bar, Set, down, guesses, in_kilograms, in_unit, nearest, on_bar, on_rack, to_add, told

TESTS = Path(__file__).parents[1]
REFERENCE = {entry["id"]: entry for entry in yaml.load(
    (TESTS / "reference" / "statistics.yaml").read_text(encoding="utf-8"), yaml.CSafeLoader)["entries"] if entry["area"] == "one_rep_max"}
KNOWN = {"epley": "rm_epley_0_0333", "brzycki": "rm_brzycki_36_37", "lombardi": "rm_lombardi", "mayhew": "rm_mayhew",
         "oconner": "rm_oconner", "wathan": "rm_wathan"}


@pytest.fixture(scope="module")
def catalog() -> Catalog:
    return load(TESTS.parent / "catalog")


@pytest.fixture(scope="module")
def prediction(catalog: Catalog) -> LoadPrediction:
    assert catalog.programme
    return catalog.programme.data.load_prediction


@pytest.mark.parametrize("id", KNOWN)
def test_a_set_with_two_left_predicts_what_the_reference_gives_for_two_more(id: str, prediction: LoadPrediction) -> None:
    entry = REFERENCE[KNOWN[id]]
    expected = dict(zip(entry["inputs"]["reps"], entry["expected"]["one_rm_kg"], strict=True))
    found = {guess.equation: guess for guess in guesses(prediction.equations, "back-squat", Set(6, 2), 100, Set(3, 2))}[id]
    assert found.maximum == pytest.approx(expected[8], rel=1e-9)
    # The load for five to failure: the reference's maximum of five turned round.
    assert found.load == pytest.approx(100 * expected[8] / expected[5], rel=1e-9)


def test_the_load_for_a_share_of_the_maximum_is_near_the_table(prediction: LoadPrediction) -> None:
    """The table of repetitions and load (rm_reps_vs_percent_table) and the equations tell of the same people: within 7 points."""
    table = prediction.tables["repetitions-and-load"]
    rows = REFERENCE["rm_reps_vs_percent_table"]
    for repetitions, percent in zip(rows["inputs"]["reps"], rows["expected"]["percent_1rm"], strict=True):
        assert share(table, repetitions) == percent
        if 2 <= repetitions <= 10:
            # One repetition at 100 kg is a maximum of 100 kg, so loads are per cent.
            loads = [g.load for g in guesses(prediction.equations, "back-squat", Set(1), 100, Set(repetitions)) if g.load is not None]
            assert len(loads) == 7 and all(abs(load - percent) < 7 for load in loads)


def test_the_lines_of_the_chest_and_leg_press_hold_for_five_repetitions_only(prediction: LoadPrediction) -> None:
    found = {g.equation: g for g in guesses(prediction.equations, "leg-press", Set(5), 100, Set(8))}
    assert found["reynolds-leg-press"].maximum == pytest.approx(1.0970 * 100 + 14.2546)  # Reynolds et al. 2006
    assert found["reynolds-leg-press"].load is None and "holds for 5 repetitions" in found["reynolds-leg-press"].why
    assert "reynolds-bench-press" not in found


def test_beyond_its_range_an_equation_says_nothing(prediction: LoadPrediction) -> None:
    found = guesses(prediction.equations, "back-squat", Set(10, 3), 60, Set(8))
    assert all(g.maximum is None and g.load is None and "not for 13" in g.why for g in found)


def test_the_pound() -> None:
    assert in_kilograms(45, "lb") == pytest.approx(20.41165665, abs=1e-12)
    assert told(in_unit(100, "lb")) == "220.5" and told(in_unit(60, "kg")) == "60"


def test_a_pull_up_moves_all_but_forearms_and_hands(catalog: Catalog) -> None:
    fraction = catalog.exercises["pull-up"].data.body_weight_fraction
    assert fraction and fraction.value == pytest.approx(1 - 2 * (0.0162 + 0.0061), abs=5e-4)
    assert to_add(96.4, 80, fraction.value) == pytest.approx(20)
    assert to_add(70, 80, fraction.value) == pytest.approx(-6.4)


def test_what_a_bar_can_hold() -> None:
    bar = Bar(20, (20, 10, 5, 2.5, 1.25))
    assert on_bar(77.5, bar) == [77.5] and on_bar(78, bar) == [77.5, 80] and on_bar(10, bar) == [20] and on_bar(500, bar) == [97.5]
    assert on_rack(13, [10, 12.5, 15]) == [12.5, 15]
    assert down(13, [12.5, 15]) == 12.5 and down(9, [10]) is None and nearest(13, [12.5, 15]) == 12.5 and nearest(11, [10, 12]) == 10
    with pytest.raises(ValueError, match="at least one"):
        on_rack(10, [])


@given(st.floats(1, 200), st.lists(st.sampled_from([25, 20, 15, 10, 5, 2.5, 1.25, 0.5]), max_size=6))
def test_the_bar_against_every_choice_of_plates(load: float, pairs: list[float]) -> None:
    every = {20 + 2 * sum(some) for size in range(len(pairs) + 1) for some in combinations(pairs, size)}
    found = on_bar(load, Bar(20, tuple(pairs)))
    assert set(found) <= every
    assert down(load, found) == max((one for one in every if one <= load + 1e-9), default=None)
    assert abs(nearest(load, found) - load) == pytest.approx(min(abs(one - load) for one in every))
