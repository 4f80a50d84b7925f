"""Starting loads by the page's script: equations side by side, and what can be put on a bar.

Outside values: ``one_rep_max`` entries of tests/reference/statistics.yaml (formulas from memory, evaluated in another program; the two
lines of Reynolds et al. 2006, doi 10.1519/R-15304.1, from the abstract); the international pound of 0.45359237 kg (agreement of 1959, from
memory; NIST Special Publication 811 gives the same factor); mass fractions of de Leva 1996, doi 10.1016/0021-9290(95)00178-6 (forearm 1.62,
hand 0.61 % of men's mass).
"""

from __future__ import annotations

from itertools import combinations
from typing import Any

import pytest
import shipped_made
import yaml
from folders import ROOT
from hypothesis import given
from hypothesis import strategies as st
from script_rules import loads

from build_tools.catalog.entries import LoadPrediction
from build_tools.catalog.load import Catalog
from build_tools.movement.load.body_weight import total_load
from build_tools.planning.planner_data import POUND

REFERENCE = {
    entry["id"]: entry
    for entry in yaml.load(
        (ROOT / "tests" / "reference" / "statistics.yaml").read_text(encoding="utf-8"),
        yaml.CSafeLoader,
    )["entries"]
    if entry["area"] == "one_rep_max"
}
KNOWN = {
    "epley": "rm_epley_0_0333",
    "brzycki": "rm_brzycki_36_37",
    "lombardi": "rm_lombardi",
    "mayhew": "rm_mayhew",
    "oconner": "rm_oconner",
    "wathan": "rm_wathan",
}


@pytest.fixture(scope="module")
def catalog() -> Catalog:
    return shipped_made.catalog()


@pytest.fixture(scope="module")
def prediction(catalog: Catalog) -> LoadPrediction:
    assert catalog.programme
    return catalog.programme.data.load_prediction


def guesses(
    prediction: LoadPrediction, exercise: str, done: int, load: float, planned: int
) -> dict[str, dict[str, Any]]:
    """By equation; repetitions are those to failure."""
    equations = {
        id: equation.model_dump(mode="json") for id, equation in prediction.equations.items()
    }
    return {one["equation"]: one for one in loads.guesses(equations, exercise, done, load, planned)}


@pytest.mark.parametrize("id", KNOWN)
def test_a_set_with_two_left_predicts_what_the_reference_gives_for_two_more(
    id: str, prediction: LoadPrediction
) -> None:
    entry = REFERENCE[KNOWN[id]]
    expected = dict(zip(entry["inputs"]["reps"], entry["expected"]["one_rm_kg"], strict=True))
    found = guesses(prediction, "back-squat", 6 + 2, 100, 3 + 2)[id]
    assert found["maximum"] == pytest.approx(expected[8], rel=1e-9)
    # The load for five to failure: the reference's maximum of five turned round.
    assert found["load"] == pytest.approx(100 * expected[8] / expected[5], rel=1e-9)


def test_the_load_for_a_share_of_the_maximum_is_near_the_table(prediction: LoadPrediction) -> None:
    """The table of repetitions and load (rm_reps_vs_percent_table) and the equations tell of the same people: within 7 points."""
    rows = REFERENCE["rm_reps_vs_percent_table"]
    for repetitions, percent in zip(
        rows["inputs"]["reps"], rows["expected"]["percent_1rm"], strict=True
    ):
        if 2 <= repetitions <= 10:
            # One repetition at 100 kg is a maximum of 100 kg, so loads are per cent.
            found = [
                one["load"]
                for one in guesses(prediction, "back-squat", 1, 100, repetitions).values()
                if one["load"] is not None
            ]
            assert len(found) == 7 and all(abs(load - percent) < 7 for load in found)


def test_the_lines_of_the_chest_and_leg_press_hold_for_five_repetitions_only(
    prediction: LoadPrediction,
) -> None:
    found = guesses(prediction, "leg-press", 5, 100, 8)
    assert found["reynolds-leg-press"]["maximum"] == pytest.approx(
        1.0970 * 100 + 14.2546
    )  # Reynolds et al. 2006
    assert found["reynolds-leg-press"]["load"] is None
    assert "reynolds-bench-press" not in found


def test_beyond_its_range_an_equation_says_nothing(prediction: LoadPrediction) -> None:
    found = guesses(prediction, "back-squat", 10 + 3, 60, 8)
    assert found and all(one["maximum"] is None and one["load"] is None for one in found.values())


def test_the_pound() -> None:
    assert 45 * POUND == pytest.approx(20.41165665, abs=1e-12)
    assert loads.told(100 / POUND) == "220.5" and loads.told(60) == "60"


def test_a_pull_up_moves_all_but_forearms_and_hands(catalog: Catalog) -> None:
    fraction = catalog.exercises["pull-up"].data.body_weight_fraction
    assert fraction and fraction.value == pytest.approx(1 - 2 * (0.0162 + 0.0061), abs=5e-4)
    assert (
        loads.totalLoad(80, fraction.value, 20)
        == pytest.approx(96.4)
        == total_load(80, fraction.value, 20)
    )
    assert loads.toHang(96.4, 80, fraction.value) == pytest.approx(20)
    assert loads.toHang(70, 80, fraction.value) == pytest.approx(-6.4)


def test_what_a_bar_can_hold() -> None:
    pairs = [20, 10, 5, 2.5, 1.25]
    assert [loads.onBar(load, 20, pairs) for load in (77.5, 78, 10, 500)] == [
        [77.5],
        [77.5, 80],
        [20],
        [97.5],
    ]
    assert loads.neighbours(13, [10, 12.5, 15]) == [12.5, 15] and loads.neighbours(9, [10]) == [10]


@given(
    st.floats(1, 200), st.lists(st.sampled_from([25, 20, 15, 10, 5, 2.5, 1.25, 0.5]), max_size=6)
)
def test_the_bar_against_every_choice_of_plates(load: float, pairs: list[float]) -> None:
    every = {
        20 + 2 * sum(some) for size in range(len(pairs) + 1) for some in combinations(pairs, size)
    }
    found = loads.onBar(load, 20, pairs)
    assert set(found) <= every
    below = [one for one in every if one <= load + 1e-9]
    assert max((one for one in found if one <= load + 1e-9), default=None) == max(
        below, default=None
    )
    assert min(abs(one - load) for one in found) == pytest.approx(
        min(abs(one - load) for one in every)
    )
