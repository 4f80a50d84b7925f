"""What a component says on each pair: by which path, from how many people, and where it knows nothing."""

from math import exp, log, sqrt

import numpy as np
import pytest
from networks import random_network
from oracle.heterogeneity import heterogeneity
from scipy import stats

from build_tools.evidence.claims.component import Component
from build_tools.evidence.model.blocks import Block
from build_tools.evidence.model.network import Network

SCALE = 0.1


def block(study, treatments, y, v, df=None):
    return Block(
        study,
        tuple(treatments),
        np.atleast_1d(np.array(y, float)),
        np.atleast_2d(np.array(v, float)),
        df,
    )


PEOPLE = {"s1": 10, "s2": 20, "s3": 40, "s4": 80}
PAIR = [
    block("s1", "ab", -0.1, 0.01, 9),
    block("s2", "ab", -0.3, 0.02, 19),
    block("s3", "ab", 0.2, 0.015, 39),
    block("s4", "ab", 0.1, 0.03, 79),
]
LOOP = [block("s1", "ab", 0.1, 0.01), block("s2", "bc", 0.2, 0.02), block("s3", "ac", 0.5, 0.015)]
CHAIN = LOOP[:2]


def connected(blocks, a, b):
    return Component(blocks, PEOPLE, SCALE).connected(a, b)


def test_one_study_is_direct_and_shows_no_spread_between_studies():
    found = connected(PAIR[:1], "b", "a")
    assert (found.path, found.studies, found.people) == ("direct", ("s1",), 10)
    assert (found.heterogeneity_p, found.direct_share, found.incoherence) == (None, 1.0, None)
    assert found.posterior.mean == pytest.approx(-0.1)
    # Nothing shows how studies differ: the prior's own root mean square stands in.
    assert found.spread == pytest.approx(SCALE, rel=1e-6)


def test_one_contrast_is_what_the_network_weighs():
    found = connected(PAIR, "b", "a")
    wanted = Network(PAIR, SCALE).posterior("b", "a")
    assert (found.posterior.mean, found.posterior.sd) == (wanted.mean, wanted.sd)
    assert found.people == 150 and found.direct_share == 1.0


def test_the_test_of_differing_studies_is_cochrans():
    """Against the pairwise oracle, on the normal standard errors that carry each study's t."""
    widen = [(stats.t.ppf(0.975, b.df) / stats.norm.ppf(0.975)) ** 2 for b in PAIR]
    y, v = [b.y[0] for b in PAIR], [b.v[0, 0] * w for b, w in zip(PAIR, widen, strict=True)]
    assert connected(PAIR, "b", "a").heterogeneity_p == pytest.approx(heterogeneity(y, v, 0).p)


def test_studies_that_agree_leave_less_spread_than_the_prior_and_those_that_differ_more():
    alike = [block(f"s{n}", "ab", 0.2, 0.001) for n in (1, 2, 3, 4)]
    apart = [block(f"s{n}", "ab", 0.4 * n, 0.001) for n in (1, 2, 3, 4)]
    spreads = [connected(blocks, "b", "a").spread for blocks in (alike, apart)]
    assert spreads[0] < SCALE / 2 and spreads[1] > 2 * SCALE


def test_a_chain_is_indirect_and_its_variances_add_up():
    found = connected(CHAIN, "c", "a")
    assert (found.path, found.studies, found.people, found.direct_share) == (
        "indirect",
        ("s1", "s2"),
        30,
        0,
    )
    # Two samples with the spread between studies each, whose mean square under the prior is the scale's square.
    assert found.posterior.mean == pytest.approx(0.3)
    assert found.posterior.sd == pytest.approx(sqrt(0.03 + 2 * SCALE**2), rel=1e-6)


def test_a_loop_is_both_and_says_how_far_its_sides_disagree():
    found = connected(LOOP, "c", "a")
    assert found.path == "direct and indirect" and 0 < found.direct_share < 1
    assert found.incoherence.ratio == pytest.approx(exp(0.5 - 0.3))
    se = sqrt(0.01 + 0.02 + 0.015 + 3 * found.spread**2)
    assert found.incoherence.p == pytest.approx(2 * stats.norm.sf(0.2 / se))
    assert (found.studies, found.people) == (("s1", "s2", "s3"), 70), "the whole loop carries it"


def test_a_branch_that_leads_elsewhere_carries_nothing():
    blocks = [*CHAIN, block("s4", "cd", 1.0, 0.01)]
    found = connected(blocks, "c", "a")
    assert (found.studies, found.people) == (("s1", "s2"), 30)
    assert connected(blocks, "d", "a").studies == ("s1", "s2", "s4")


def test_one_sample_of_three_arms_is_no_loop():
    arms = block("s1", "abc", [0.1, 0.3], [[0.02, 0.01], [0.01, 0.03]])
    made = Component([arms], PEOPLE, SCALE)
    for pair in ("ba", "ca", "bc"):
        found = made.connected(*pair)
        assert (found.path, found.incoherence, found.heterogeneity_p) == ("direct", None, None)


@pytest.mark.parametrize("blocks", [PAIR, LOOP, CHAIN])
def test_turning_a_pair_mirrors_it(blocks):
    made = Component(blocks, PEOPLE, SCALE)
    forth, back = made.connected("a", "b"), made.connected("b", "a")
    for found in (back, forth.mirrored()):
        assert (found.posterior.mean, found.posterior.sd) == pytest.approx(
            (-forth.posterior.mean, forth.posterior.sd)
        )
        assert (found.path, found.studies, found.people) == (
            forth.path,
            forth.studies,
            forth.people,
        )
        assert found.heterogeneity_p == forth.heterogeneity_p
        if forth.incoherence:
            assert found.incoherence.p == pytest.approx(forth.incoherence.p)
            assert found.incoherence.ratio == pytest.approx(1 / forth.incoherence.ratio)


def test_the_order_is_by_ratio_to_the_exercise_with_most_samples():
    made = Component([*LOOP, block("s4", "ad", 1.0, 0.01)], PEOPLE, SCALE)
    order = made.order("part", "volume")
    assert order.reference == "a" and [r.exercise for r in order.order] == ["d", "c", "b", "a"]
    assert [r.against_reference is None for r in order.order] == [False, False, False, True]
    first = order.order[0].against_reference
    assert log(first.ratio) == pytest.approx(1.0) and first.low < first.ratio < first.high
    assert (order.samples, order.people) == (4, 150)
    assert (order.measured, order.dimension) == ("part", "volume")


def test_noise_in_a_last_digit_moves_nobody():
    alike = [block("s1", "ba", 0.1 + 1e-13, 0.01), block("s2", "bc", 0.1, 0.01)]
    order = Component(alike, PEOPLE, SCALE).order("part", None)
    assert [r.exercise for r in order.order] == ["a", "c", "b"]


@pytest.mark.parametrize("seed", range(3))
def test_the_weight_of_direct_evidence_is_a_share(seed):
    blocks = random_network(seed, 5, 9)
    made = Component(blocks, {b.study: 10 for b in blocks}, SCALE)
    ids = made.network.treatments
    for a in ids:
        for b in ids:
            if a < b:
                found = made.connected(a, b)
                assert 0 <= found.direct_share <= 1
                assert (found.direct_share == 0) == (found.path == "indirect")
                assert (found.direct_share == 1) == (found.path == "direct")
