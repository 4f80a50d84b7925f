"""What a fitted component says on each pair: by which path, from how many people, and where it knows nothing."""

from math import exp, log, sqrt

import numpy as np
import pytest
from oracle.pooling import pool
from scipy import stats

from build_tools.evidence.claims.component import Fitted
from build_tools.evidence.model.network import Block


def block(study, treatments, y, v, df=None):
    return Block(
        study,
        tuple(treatments),
        np.atleast_1d(np.array(y, float)),
        np.atleast_2d(np.array(v, float)),
        df,
    )


PEOPLE = {"s1": 10, "s2": 20, "s3": 40, "s4": 80}
#: Four studies, from which on the intervals are pairwise pooling's; see ``network_intervals``.
PAIR = [
    block("s1", "ab", -0.1, 0.01, 9),
    block("s2", "ab", -0.3, 0.02, 19),
    block("s3", "ab", 0.2, 0.015, 39),
    block("s4", "ab", 0.1, 0.03, 79),
]
LOOP = [block("s1", "ab", 0.1, 0.01), block("s2", "bc", 0.2, 0.02), block("s3", "ac", 0.5, 0.015)]
CHAIN = LOOP[:2]


def test_one_study_is_its_own_contrast_with_its_own_t():
    found = Fitted(PAIR[:1], PEOPLE).combined("b", "a")
    half = stats.t.ppf(0.975, 9) * 0.1
    assert (found.estimate.ratio, found.estimate.low, found.estimate.high) == pytest.approx(
        (exp(-0.1), exp(-0.1 - half), exp(-0.1 + half))
    )
    assert (found.path, found.studies, found.people) == ("direct", ("s1",), 10)
    assert (found.prediction, found.i2, found.tau2, found.common, found.incoherence) == (
        None,
        None,
        None,
        None,
        None,
    )


def test_one_contrast_pools_as_pairwise_pooling_does():
    y, v = [-0.1, -0.3, 0.2, 0.1], [0.01, 0.02, 0.015, 0.03]
    found, pooled = Fitted(PAIR, PEOPLE).combined("b", "a"), pool(y, v)
    seen = np.log([found.estimate.ratio, found.estimate.low, found.estimate.high])
    assert seen == pytest.approx([pooled.estimate, pooled.low, pooled.high])
    assert found.tau2 == pytest.approx(pooled.tau2) and found.people == 150 and found.i2 is not None
    weight = 1 / np.array(v)
    centre, half = float(weight @ y / weight.sum()), stats.norm.ppf(0.975) / sqrt(weight.sum())
    assert np.log([found.common.low, found.common.ratio, found.common.high]) == pytest.approx(
        [centre - half, centre, centre + half]
    )


def test_studies_that_agree_have_no_spread_between_them():
    alike = [block(f"s{n}", "ab", 0.2, 0.01) for n in (1, 2, 3, 4)]
    found = Fitted(alike, PEOPLE).combined("b", "a")
    assert found.tau2 == pytest.approx(0, abs=1e-12) and found.i2 == 0
    half = stats.t.ppf(0.975, 3) * sqrt(
        0.01 / 4
    )  # the guard: never narrower than t with the plain standard error
    assert log(found.estimate.high) == pytest.approx(0.2 + half)


def test_a_chain_is_indirect_and_its_variances_add_up():
    found = Fitted(CHAIN, PEOPLE).combined("c", "a")
    assert (found.path, found.studies, found.people, found.direct_share) == (
        "indirect",
        ("s1", "s2"),
        30,
        0,
    )
    half = stats.norm.ppf(0.975) * sqrt(0.03)
    assert np.log([found.estimate.low, found.estimate.high]) == pytest.approx(
        [0.3 - half, 0.3 + half]
    )


def test_a_loop_is_both_and_says_how_far_its_sides_disagree():
    found = Fitted(LOOP, PEOPLE).combined("c", "a")
    assert found.path == "direct and indirect" and 0 < found.direct_share < 1
    assert found.incoherence.ratio == pytest.approx(exp(0.5 - 0.3))
    assert (found.studies, found.people) == (("s1", "s2", "s3"), 70), "the whole loop carries it"


def test_a_branch_that_leads_elsewhere_carries_nothing():
    made = Fitted([*CHAIN, block("s4", "cd", 1.0, 0.01)], PEOPLE)
    assert (made.combined("c", "a").studies, made.combined("c", "a").people) == (("s1", "s2"), 30)
    assert made.combined("d", "a").studies == ("s1", "s2", "s4")


def test_one_sample_of_three_arms_is_no_loop():
    arms = block("s1", "abc", [0.1, 0.3], [[0.02, 0.01], [0.01, 0.03]])
    found = Fitted([arms], PEOPLE)
    assert {found.combined(*pair).path for pair in ("ba", "ca", "bc")} == {"direct"}
    assert found.component().q_between_p is None


@pytest.mark.parametrize("blocks", [PAIR, LOOP, CHAIN])
def test_turning_a_pair_inverts_it(blocks):
    made = Fitted(blocks, PEOPLE)
    forth, back = made.combined("a", "b"), made.combined("b", "a")
    assert (forth.estimate.ratio, forth.estimate.low, forth.estimate.high) == pytest.approx(
        (1 / back.estimate.ratio, 1 / back.estimate.high, 1 / back.estimate.low)
    )
    assert (forth.path, forth.studies, forth.people, forth.i2) == (
        back.path,
        back.studies,
        back.people,
        back.i2,
    )


def test_the_order_is_by_score_against_the_exercise_with_most_samples():
    component = Fitted([*LOOP, block("s4", "ad", 1.0, 0.01)], PEOPLE).component()
    assert component.reference == "a" and [r.exercise for r in component.order] == [
        "d",
        "c",
        "b",
        "a",
    ]
    assert [r.against_reference is None for r in component.order] == [False, False, False, True]
    scores = [r.p_score for r in component.order]
    assert scores == sorted(scores, reverse=True) and np.mean(scores) == pytest.approx(0.5)
    assert (component.samples, component.people) == (4, 150) and 0 < component.q_between_p < 1


def test_nothing_is_known_of_the_spread_between_studies_without_a_second_measurement():
    component = Fitted(CHAIN, PEOPLE).component()
    assert (component.tau2, component.i2, component.q_between_p) == (None, None, None)
