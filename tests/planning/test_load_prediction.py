"""Published equations against values worked out elsewhere: tests/reference/statistics.yaml, entries ``rm_*``.

Those values come from the formulas evaluated in another program. Brzycki's formula was since seen in print with its article (1993,
doi 10.1080/07303084.1993.10606684), Lombardi's in the abstract of Roberts et al. 2024 (doi 10.12691/ajssm-12-2-2), the two lines of Reynolds
et al. 2006 (doi 10.1519/R-15304.1) in theirs. Two predict: the page's script ``rules/loads.js``, which turns the equation round too, and
``load_prediction`` for the programme's table; both are held here.
"""

from __future__ import annotations

from math import inf, nan
from typing import Any

import pytest
import script_rules
import shipped_made
import yaml
from folders import ROOT
from pydantic import ValidationError

from build_tools.catalog.entries import Citation, Equation, LoadPrediction
from build_tools.planning.load_prediction import NotCovered, one_repetition_maximum

REFERENCE = {
    entry["id"]: entry
    for entry in yaml.load(
        (ROOT / "tests" / "reference" / "statistics.yaml").read_text(encoding="utf-8"),
        yaml.CSafeLoader,
    )["entries"]
    if entry["area"] == "one_rep_max"
}
#: Reference entry -> form and coefficients, from its `formula`.
FORMULAS = {
    "rm_brzycki": ("inverse", [1 / 0.0278, 1.0278 / 0.0278]),
    "rm_brzycki_36_37": ("inverse", [36, 37]),
    "rm_lander": ("inverse", [100 / 2.67123, 101.3 / 2.67123]),
    "rm_lombardi": ("power", [0.1]),
}
#: Formulas of the reference whose form the catalog no longer has: nobody has read where they come from.
UNREAD = {"rm_epley", "rm_epley_0_0333", "rm_mayhew", "rm_oconner", "rm_wathan"}
COVERS = {*FORMULAS, *UNREAD, "rm_validity", "rm_reps_vs_percent_table"}
#: Equation of the shipped catalog -> the reference entry it must reproduce.
SHIPPED = {"brzycki": "rm_brzycki_36_37", "lombardi": "rm_lombardi"}


@pytest.fixture(scope="module")
def shipped() -> LoadPrediction:
    programme = shipped_made.catalog().programme
    assert programme
    return programme.data.load_prediction


def equation(
    form: str, coefficients: list[float], repetitions: tuple[float, float] = (1, 12), **more: Any
) -> Equation:
    return Equation(
        name="Lamp",
        form=form,
        coefficients=coefficients,
        repetitions=list(repetitions),
        error="None.",
        **{"cites": [Citation(key="wick2030", at="abstract")], **more},
    )


def predicted(given: Equation, load: float, repetitions: int) -> float | None:
    """The maximum by the page's script, which must be that of Python; None where both say nothing."""
    found = _guess(given, repetitions, load, repetitions)["maximum"]
    try:
        assert found == pytest.approx(one_repetition_maximum(given, load, repetitions), rel=1e-12)
    except NotCovered:
        assert found is None
    return found


def load_for(given: Equation, maximum: float, repetitions: int) -> float | None:
    """The load by the page's script: one repetition at the maximum was done, ``repetitions`` are wanted."""
    return _guess(given, 1, maximum, repetitions)["load"]


def _guess(given: Equation, done: int, load: float, planned: int) -> dict[str, Any]:
    [found] = script_rules.loads.guesses(
        {"one": given.model_dump(mode="json")},
        given.exercises[0] if given.exercises else "",
        done,
        load,
        planned,
    )
    return found


def test_every_formula_of_the_reference_is_held_against_it_or_told_to_be_unread() -> None:
    assert {*FORMULAS, *UNREAD} == {id for id, entry in REFERENCE.items() if "formula" in entry}


@pytest.mark.parametrize("id", FORMULAS)
def test_it_agrees_with_the_reference(id: str) -> None:
    entry, made = REFERENCE[id], equation(*FORMULAS[id])
    load, within = entry["inputs"]["load_kg"], entry["tolerance"]["abs"]
    for n, repetitions in enumerate(entry["inputs"]["reps"]):
        if repetitions == 1:
            continue  # below
        assert predicted(made, load, repetitions) == pytest.approx(
            entry["expected"]["one_rm_kg"][n], abs=within
        )
        assert load_for(made, 100, repetitions) == pytest.approx(
            entry["expected"]["percent_1rm"][n], abs=1e-8
        )


@pytest.mark.parametrize("id", FORMULAS)
def test_one_repetition_is_the_load_itself(id: str) -> None:
    """The rule in the reference's `rm_validity`: several of the formulas would return something else."""
    made = equation(*FORMULAS[id])
    assert predicted(made, 83.5, 1) == load_for(made, 83.5, 1) == 83.5


def test_lines_of_reynolds_2006() -> None:
    """1RM = 1.1307 x 5RM + 0.6999 kg (chest press), 1.0970 x 5RM + 14.2546 kg (leg press): abstract. 60 and 150 kg by hand."""
    chest, leg = (
        equation("line", [1.1307, 0.6999], (5, 5)),
        equation("line", [1.0970, 14.2546], (5, 5)),
    )
    assert predicted(chest, 60, 5) == pytest.approx(68.5419)
    assert predicted(leg, 150, 5) == pytest.approx(178.8046)
    assert load_for(leg, 178.8046, 5) == pytest.approx(150)
    assert predicted(chest, 60, 6) is None and load_for(chest, 60, 6) is None
    assert load_for(leg, 14, 5) is None  # the line holds for a maximum above its constant only
    with pytest.raises(NotCovered, match=r"holds for 5 repetitions, not for 6"):
        one_repetition_maximum(chest, 60, 6)


@pytest.mark.parametrize("repetitions", [0, -1, 13, 40])
def test_repetitions_beyond_its_range_are_refused(repetitions: int) -> None:
    made = equation("inverse", [36, 37])
    assert predicted(made, 100, repetitions) is None and load_for(made, 100, repetitions) is None
    with pytest.raises(
        NotCovered, match=f"Lamp holds for 1 to 12 repetitions, not for {repetitions}"
    ):
        one_repetition_maximum(made, 100, repetitions)


@pytest.mark.parametrize("load", [0, -20, nan, inf])
def test_a_load_is_above_nothing(load: float) -> None:
    made = equation("power", [0.1])
    assert predicted(made, load, 1) is None and load_for(made, load, 1) is None
    with pytest.raises(NotCovered, match="is no load"):
        one_repetition_maximum(made, load, 1)


@pytest.mark.parametrize(
    "more",
    [
        {"cites": [], "common_practice": "On every old chart."},
        {"coefficients": [0.1, 2]},
        {"standard_error": 3.0},
        {"memory": True},
    ],
)
def test_an_equation_without_a_source_or_of_another_shape_is_refused(more: dict[str, Any]) -> None:
    coefficients = more.pop("coefficients", [0.1])
    with pytest.raises(ValidationError):
        equation("power", coefficients, **more)


def test_shipped_equations_reproduce_the_reference(shipped: LoadPrediction) -> None:
    """To a hundredth of a kilogram at 100 kg: the catalog may round a coefficient, nobody loads a bar that finely."""
    for id, reference in SHIPPED.items():
        given = shipped.equations[id]
        for repetitions, expected in list(
            zip(
                REFERENCE[reference]["inputs"]["reps"],
                REFERENCE[reference]["expected"]["one_rm_kg"],
                strict=True,
            )
        )[1 : int(given.repetitions[1])]:
            assert predicted(given, 100, repetitions) == pytest.approx(expected, abs=0.01), id


def test_shipped_equations_stop_where_the_reference_says(shipped: LoadPrediction) -> None:
    """`rm_validity`: refuse more than 10 to 12 repetitions; Reynolds' lines and standard errors are those of the abstract."""
    assert "refuse r > 10-12" in REFERENCE["rm_validity"]["note"]
    read = " ".join(REFERENCE["rm_validity"]["expected"]["facts"])
    assert {*SHIPPED} == {id for id, given in shipped.equations.items() if given.form != "line"}
    for id, given in shipped.equations.items():
        assert given.repetitions[1] <= 12 and given.cites, id
        if given.form == "line":
            slope, constant = given.coefficients
            line = f"1RM = {slope:.4f} x 5RM + {constant:.4f} (S_yx {given.standard_error:g} kg)"
            assert line in read and given.repetitions == [5, 5]


def test_brzycki_is_told_as_a_collection_of_medical_formulas_prints_it(
    shipped: LoadPrediction,
) -> None:
    """102.78 - 2.78 x repetitions in per cent (seen in print with the article of 1993); 36 and 37 round it by less than 0.3% to ten."""
    for repetitions in range(2, 11):
        found = load_for(shipped.equations["brzycki"], 100, repetitions)
        assert found == pytest.approx(102.78 - 2.78 * repetitions, rel=3e-3)
