"""Contrasts that a paper prints with a test or an interval: the standard error taken back, and blocks of several.

Worked examples of the Cochrane Handbook stand in ``statistics.yaml`` with their source; the sums in the tables below are by
hand from the formula named beside them, with scipy's t.
"""

from __future__ import annotations

from itertools import permutations
from math import exp, log, sqrt

import numpy as np
import pytest
from catalogs import A, B, C, growth, measured, read_study, result, study
from scipy import stats
from statistics_reference import entry, expect, same

from build_tools.catalog.entries import Contrast
from build_tools.evidence.effects.estimate import Effect
from build_tools.evidence.errors import EvidenceError
from build_tools.evidence.model.network import pair_of
from build_tools.evidence.studies.printed_contrasts import Edge, contrast_log_ratio, from_edges

COVERS = {
    "es_sd_from_p_two_groups",
    "es_sd_from_t_two_groups",
    "es_sd_from_md_ci_t",
    "es_sd_diff_from_paired",
}


TEST = {"of": "a", "against": "b", "test": "between"}


def standard_error(md: float, df: float, **contrast) -> float:
    """Standard error of a difference of two means as the engine takes it back.

    On the log scale it is divided by the means' logarithmic mean, so that it stays the same number of standard errors.
    """
    told = read_study(
        study([result({"a": {"mean": 20.0 + md}, "b": {"mean": 20.0}}, [TEST | contrast])])
    )
    estimate, _ = contrast_log_ratio(told, told.result.contrasts[0], df)
    assert estimate.y == pytest.approx(log((20 + md) / 20), rel=1e-12)
    return estimate.se * md / estimate.y


def test_cochrane_standard_error_from_an_exact_p_of_two_groups():
    given = entry("es_sd_from_p_two_groups")["inputs"]
    expect(
        "es_sd_from_p_two_groups",
        standard_error(given["md"], given["n1"] + given["n2"] - 2, p=given["p"]),
        "se",
    )


def test_cochrane_standard_error_from_t_of_two_groups():
    given = entry("es_sd_from_t_two_groups")["inputs"]
    expect("es_sd_from_t_two_groups", standard_error(given["md"], 78, t=given["t"]), "se")


def test_cochrane_standard_error_from_the_interval_of_a_difference():
    given = entry("es_sd_from_md_ci_t")["inputs"]
    middle = (given["l"] + given["u"]) / 2
    difference = {"value": middle, "unit": "% MVIC", "ci95": [given["l"], given["u"]]}
    expect(
        "es_sd_from_md_ci_t",
        standard_error(middle, given["n1"] + given["n2"] - 2, difference=difference),
        "se",
    )


def test_cochrane_spread_of_paired_differences():
    given = entry("es_sd_diff_from_paired")["inputs"]
    n, md = given["n"], given["md"]
    expect(
        "es_sd_diff_from_paired",
        standard_error(md, n - 1, t=given["t"]) * sqrt(n),
        "sd_diff_from_t",
    )
    difference = {"value": float(md), "unit": "% MVIC", "ci95": [given["l"], given["u"]]}
    expect(
        "es_sd_diff_from_paired",
        standard_error(md, n - 1, difference=difference) * sqrt(n),
        "sd_diff_from_ci",
    )


T11, T22 = stats.t.ppf(0.975, 11), stats.t.ppf(0.975, 22)


MEANS = {"a": {"mean": 50.0}, "b": {"mean": 40.0}}


LOGARITHMIC_MEAN = 10 / log(50 / 40)


GROWN = {"a": {"change_percent": 14.0}, "b": {"change_percent": 9.0}}


GROWN_MEAN = 0.05 / log(1.14 / 1.09)


#: What the paper prints of a contrast of twelve people -> its standard error on the log scale.
CONTRASTS = [
    (
        "exact p",
        MEANS,
        {"p": 0.01},
        10 / stats.t.ppf(0.995, 11) / LOGARITHMIC_MEAN,
        "taken back from the exact p value",
    ),
    ("t", MEANS, {"t": 2.5}, 4 / LOGARITHMIC_MEAN, "taken back from t"),
    ("t before p", MEANS, {"t": 2.5, "p": 0.01}, 4 / LOGARITHMIC_MEAN, "taken back from t"),
    (
        "exact p before its bound",
        MEANS,
        {"p": 0.03, "p_below": 0.05},
        10 / stats.t.ppf(0.985, 11) / LOGARITHMIC_MEAN,
        "taken back from the exact p value",
    ),
    (
        "SE of the difference",
        MEANS,
        {"difference": {"value": 10.0, "unit": "% MVIC", "se": 3.0}},
        3 / LOGARITHMIC_MEAN,
        "from the printed spread of the difference",
    ),
    (
        "SD of the differences",
        MEANS,
        {"difference": {"value": 10.0, "unit": "% MVIC", "sd": 9.0}},
        9 / sqrt(12) / LOGARITHMIC_MEAN,
        "from the printed spread of the difference",
    ),
    (
        "interval of the difference",
        MEANS,
        {"difference": {"value": 10.0, "unit": "% MVIC", "ci95": [4.0, 16.0]}},
        6 / T11 / LOGARITHMIC_MEAN,
        "from the printed spread of the difference",
    ),
    (
        "interval of the ratio",
        None,
        {"ratio": {"value": 1.25, "ci95": [1.1, 1.25**2 / 1.1]}},
        log(1.25 / 1.1) / T11,
        "from the printed interval of the ratio",
    ),
    (
        "ratio with p",
        None,
        {"ratio": {"value": 1.25}, "p": 0.02},
        log(1.25) / stats.t.ppf(0.99, 11),
        "taken back from the exact p value",
    ),
    (
        "ratio with t",
        None,
        {"ratio": {"value": 0.8}, "t": -2.0},
        log(1.25) / 2,
        "taken back from t",
    ),
]


GROWTH_CONTRASTS = [
    (
        "growth, exact p",
        GROWN,
        {"p": 0.01},
        0.05 / stats.t.ppf(0.995, 11) / GROWN_MEAN,
        "taken back from the exact p value",
    ),
    (
        "growth, interval of the difference in points",
        GROWN,
        {"difference": {"value": 5.0, "unit": "%", "ci95": [2.0, 8.0]}},
        0.03 / T11 / GROWN_MEAN,
        "from the printed spread of the difference",
    ),
]


@pytest.mark.parametrize(
    ("outcome", "values", "contrast", "se", "how"),
    [("activation", *row[1:]) for row in CONTRASTS]
    + [("growth", *row[1:]) for row in GROWTH_CONTRASTS],
    ids=[row[0] for row in CONTRASTS + GROWTH_CONTRASTS],
)
def test_spreads_taken_back_from_contrasts(outcome, values, contrast, se, how):
    told = (growth if outcome == "growth" else result)(values, [TEST | contrast])
    found = measured(study([told]), outcome)
    same(found.block.v, [[se**2]], rel=1e-9)
    assert (found.how, found.block.treatments, found.block.df, found.imputed) == (
        how,
        (A, B),
        11,
        False,
    )
    ratio = (
        contrast["ratio"]["value"]
        if values is None
        else 50 / 40
        if values is MEANS
        else 1.14 / 1.09
    )
    assert exp(-found.block.y[0]) == pytest.approx(ratio), "the block runs second against first"


def test_groups_use_the_degrees_of_freedom_of_both():
    found = measured(
        study([result(MEANS, [TEST | {"p": 0.01}])], same=False, n=24, sizes={"a": 12, "b": 12})
    )
    same(found.block.v, [[(10 / stats.t.ppf(0.995, 22) / LOGARITHMIC_MEAN) ** 2]], rel=1e-9)
    assert found.block.df == 22


def test_contrasts_that_share_an_arm_keep_half_of_their_variance_in_common():
    tests = [
        {"of": "b", "against": "a", "ratio": {"value": 1.2}, "t": 2.0},
        {"of": "c", "against": "a", "ratio": {"value": 1.5}, "t": 3.0},
    ]
    block = measured(study([result(contrasts=tests)], {"a": A, "b": B, "c": C})).block
    seen = dict(zip(block.treatments[1:], block.y, strict=True))
    base = block.treatments[0]
    effect = {base: 0.0} | seen
    assert effect[B] - effect[A] == pytest.approx(log(1.2)) and effect[C] - effect[
        A
    ] == pytest.approx(log(1.5))
    v = np.zeros((3, 3))
    v[1:, 1:] = block.v
    at = {t: n for n, t in enumerate(block.treatments)}
    k = np.zeros((2, 3))
    k[0, at[B]], k[0, at[A]], k[1, at[C]], k[1, at[A]] = 1, -1, 1, -1
    se = log(1.2) / 2, log(1.5) / 3
    same(k @ v @ k.T, [[se[0] ** 2, se[0] * se[1] / 2], [se[0] * se[1] / 2, se[1] ** 2]], rel=1e-9)


def test_a_contrast_that_hangs_together_with_no_other_is_left_out_of_the_block():
    tests = [
        {"of": "a", "against": "b", "ratio": {"value": 1.2}, "t": 2.0},
        {"of": "b", "against": "c", "ratio": {"value": 1.5}, "t": 3.0},
        {"of": "d", "against": "e", "ratio": {"value": 1.1}, "t": 1.0},
    ]
    arms = {
        "a": "alder-curl",
        "b": "birch-curl",
        "c": "cedar-curl",
        "d": "dogwood-curl",
        "e": "elder-curl",
    }
    assert set(measured(study([result(contrasts=tests)], arms)).block.treatments) == {A, B, C}


def edge(a: str, b: str, y: float, se: float) -> Edge:
    return Edge(a, b, Effect(y, se**2), 11)


def test_all_printed_contrasts_count_in_whatever_order_and_direction():
    """Weighted least squares over all three edges of a triangle, written out with numpy; a spanning tree would drop one."""
    edges = [edge("a", "b", 0.1, 0.05), edge("b", "c", 0.2, 0.04), edge("c", "a", -0.2, 0.1)]
    x = np.array([[-1, 0], [1, -1], [0, 1]])  # effects of b and c against a
    weight = np.diag([1 / 0.05**2, 1 / 0.04**2, 1 / 0.1**2])
    effect = np.linalg.solve(x.T @ weight @ x, x.T @ weight @ np.array([0.1, 0.2, -0.2]))
    plain = from_edges("s", edges)
    assert plain.treatments == ("a", "b", "c") and plain.y == pytest.approx(effect)
    for order in permutations(edges):
        for turned in (order, tuple(e.turned() for e in order)):
            again = from_edges("s", list(turned))
            assert again.y == pytest.approx(plain.y) and again.v == pytest.approx(plain.v)


def test_edges_of_arms_that_vary_alike_are_exact():
    """Three arms of one variance, all three contrasts printed: the block of the arms themselves, V = c (I + J)."""
    c, y = 0.01, {"a": 0.0, "b": 0.3, "c": 0.5}
    edges = [edge(i, j, y[i] - y[j], sqrt(2 * c)) for i, j in (("b", "a"), ("c", "a"), ("c", "b"))]
    block = from_edges("s", edges)
    assert block.y == pytest.approx([0.3, 0.5]) and block.v == pytest.approx(c * (np.eye(2) + 1))
    assert pair_of(block, "c", "b").se == pytest.approx(sqrt(2 * c))


@pytest.mark.parametrize(("value", "start", "ratio"), [(2.5, 50.0, 1.05), (-5.0, 50.0, 0.9)])
def test_a_difference_of_changes_has_a_ratio_with_its_start(value, start, ratio):
    """2.5 cm3 more, SE 0.7, from 50 cm3: ln(1 + 0.05); the SE over the logarithmic mean of 1.05 and 1."""
    difference = {"value": value, "unit": "cm3", "se": 0.7, "start": start}
    told = growth(contrasts=[{"of": "a", "against": "b", "difference": difference}], unit="cm3")
    found = measured(study([told], same=False, n=24, sizes={"a": 12, "b": 12}), "growth")
    assert found.block.y[0] == pytest.approx(-log(ratio)), "the block runs second against first"
    assert sqrt(found.block.v[0, 0]) == pytest.approx(0.7 / start / ((ratio - 1) / log(ratio)))


def test_a_contrast_of_impossible_degrees_of_freedom_is_refused():
    contrast = Contrast(of="a", against="b", test="between", p=0.01)
    with pytest.raises(EvidenceError):
        contrast_log_ratio(read_study(study([result(MEANS)])), contrast, 0.0)
