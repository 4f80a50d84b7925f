"""The one order of a study's arms, results and contrasts."""

from __future__ import annotations

import random

import pytest
from catalogs import A, B, C, result, study

from build_tools.catalog.entries import Study
from build_tools.evidence.studies import study_order

ARMS = {"a": A, "c": C, "b": B}
RESULTS = [
    result(
        {"a": {"mean": 1.0}},
        [{"of": "b", "against": "a", "favours": "of"}, {"of": "a", "against": "c", "t": 1.0}],
    ),
    result({"a": {"mean": 1.0}}, site={"said": "distal"}),
    result({"a": {"mean": 2.0}}, measure="fibre-angle"),
]


@pytest.mark.parametrize("seed", range(4))
def test_whatever_order_the_file_has(seed):
    dice = random.Random(seed)
    arms = dict(dice.sample(list(ARMS.items()), 3))
    told = [
        r
        | (
            {"contrasts": dice.sample(r["contrasts"], len(r["contrasts"]))}
            if "contrasts" in r
            else {}
        )
        for r in dice.sample(RESULTS, 3)
    ]
    data = study(told, arms)
    data["arms"]["rest"] = {"called": "rest"}
    made = Study.model_validate(data)
    assert list(study_order.treatments(made).items()) == [("a", A), ("b", B), ("c", C)], (
        "controls are left out"
    )
    results = study_order.results(made)
    assert [r.measure for _, r in results] == ["fibre-angle", "surface-emg", "surface-emg"]
    assert all(made.results[index] == r for index, r in results)
    plain = study_order.results(Study.model_validate(study(RESULTS, ARMS)))
    assert [r.where for _, r in results] == [r.where for _, r in plain]
    [tested] = [r for _, r in results if r.contrasts]
    assert [(c.of, c.against) for c in study_order.contrasts(tested)] == [("a", "c"), ("b", "a")]


def test_a_version_is_a_treatment_of_its_own():
    data = study(RESULTS, ARMS)
    data["arms"]["b"]["version"] = "lower-half"
    assert study_order.treatments(Study.model_validate(data))["b"] == f"{B}@lower-half"
