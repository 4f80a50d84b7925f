"""Networks weighed over every spread between studies: published values, and what must change nothing.

Outside: a published package for random-effects meta-analysis with a half-normal prior (bayesmeta, Roever 2020,
doi:10.18637/jss.v093.i06; ``small-evidence.yaml``), published networks by independent least squares in base R and metafor
(``statistics.yaml``).
"""

from __future__ import annotations

from dataclasses import replace
from math import log, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from networks import (
    SMALL,
    from_arms,
    least_squares,
    of_contrasts,
    of_independent_arms,
    pair,
    pairs,
    random_network,
)
from scipy import stats
from statistics_reference import ABS, REL, entry, expect, expect_published, same

from build_tools.evidence.errors import EvidenceError
from build_tools.evidence.model.blocks import Block, components
from build_tools.evidence.model.network import (
    Network,
    fit_at,
    pair_of,
    place,
    single,
    widened,
    widening,
)
from build_tools.evidence.model.nodes import spread_nodes
from build_tools.evidence.model.posterior import ORDER, Density, interval, quantile
from build_tools.evidence.model.sides import split

PUBLISHED = ["nma_stowe2010", "nma_senn2013", "nma_baker2009"]
#: The sets of pairs with ten studies or more; of fewer, two ways of weighing differ by more than any tolerance says.
MANY = [
    "ma_bcg_logrr",
    "ma_bcg_logor",
    "ma_bangertdrowns2004",
    "ma_linde2005_logrr_17",
    "ma_viechtbauer2005_ex1",
]
COVERS = {
    *PUBLISHED,
    *MANY,
    "nma_law2016_example2",
    "nma_within_participant_synthetic",
    "nma_disconnected",
}
#: In posterior standard deviations, as ``small-evidence.yaml`` says of its package's own approximation.
NEAR = 5e-4


# --- a published package ----------------------------------------------------------------------------------------------


def spread_of(network: Network) -> Density:
    """The distribution of the spread between studies, from its nodes: panels of ``ORDER`` Gauss points, those let go at nothing."""
    every = spread_nodes(
        network.scale,
        float(np.sqrt(min(b.v[0, 0] for b in network.blocks))),
        float(np.ptp([0.0, *(b.y[0] for b in network.blocks)])),
    ).tau
    chance = np.zeros_like(every)
    chance[np.isin(every, network.tau)] = network.weight
    points, weights = np.polynomial.legendre.leggauss(ORDER)
    tau, chance = every.reshape(-1, ORDER), chance.reshape(-1, ORDER)
    halves = (tau[:, -1] - tau[:, 0]) / (points[-1] - points[0])
    last = tau[-1, -1] + halves[-1] * (1 - points[-1])
    edges = np.append(tau[:, 0] - halves * (1 + points[0]), last)
    return Density(edges, chance / halves[:, None] / weights)


@pytest.mark.parametrize(
    "told", SMALL, ids=[f"{s['set']} {s['prior']['half_normal_scale']}" for s in SMALL]
)
def test_small_evidence_as_a_published_package_weighs_it(told):
    network = Network(
        pairs(np.atleast_1d(told["y"]), np.atleast_1d(told["s"])),
        told["prior"]["half_normal_scale"],
    )
    for name, found in (("mu", network.posterior("a", "b")), ("tau", spread_of(network))):
        wanted = told[name]
        off = {"abs": NEAR * wanted["sd"], "rel": 0}
        assert found.mean == pytest.approx(wanted["mean"], **off), name
        assert found.sd == pytest.approx(wanted["sd"], **off), name
        for p, x in wanted["quantiles"].items():
            assert quantile(found, float(p)) == pytest.approx(x, **off), (name, p)
    found = network.posterior("a", "b")
    for x, p in told["p_more_than"].items():
        # So far in chances lie two places NEAR apart.
        assert 1 - found.below(float(x)) == pytest.approx(p, abs=NEAR * 0.5, rel=0), x


# --- published networks at a given spread between studies -------------------------------------------------------------


@pytest.mark.parametrize("name", PUBLISHED)
@pytest.mark.parametrize(
    ("key", "tau2"), [("common", None), ("random_mm", "tau2_mm"), ("random_reml", "tau2_reml")]
)
def test_published_networks_at_a_given_spread(name, key, tau2):
    expected = entry(name)["expected"]
    wanted = expected[key]
    network = fit_at(of_independent_arms(name), sqrt(expected[tau2]) if tau2 else 0.0)
    small = {"rel": REL, "abs": ABS * 10}
    same(network.q, wanted["Q_at_this_tau2"], "Q", **small)
    for a, row in wanted["league_estimate"].items():
        for b, estimate in row.items():
            same(
                network.estimate(a, b), [estimate, wanted["league_se"][a][b]], f"{a} - {b}", **small
            )
    if key == "common":
        same([network.q, network.df], [expected["Q_total"][k] for k in ("Q", "df")], "Q", REL)


@pytest.mark.parametrize("name", PUBLISHED)
def test_direct_against_indirect_in_published_networks(name):
    """By back-calculation (``sides``), at the spread by moments that the source used."""
    expected = entry(name)["expected"]
    network = fit_at(of_independent_arms(name), sqrt(expected["tau2_mm"]))
    for wanted in expected["side_split_random_mm"]:
        side = split(network, *wanted["comparison"].split(" - "))
        assert side is not None
        keys = ("nma", "nma_se", "direct", "direct_se", "proportion_direct")
        found = [*side.network, *side.direct, side.share]
        same(found, [wanted[k] for k in keys], wanted["comparison"], REL)
        assert (side.indirect is None) == (wanted.get("indirect") is None)
        if side.indirect and side.difference:
            found = [*side.indirect, *side.difference, side.p]
            keys = ("indirect", "indirect_se", "difference", "difference_se", "p")
            same(found, [wanted[k] for k in keys], wanted["comparison"], REL)


def test_contrasts_with_a_covariance():
    name = "nma_law2016_example2"
    expected, blocks = entry(name)["expected"], of_contrasts(entry(name)["inputs"])
    common = fit_at(blocks, 0.0)
    expect(name, common.q, "Q")
    expect(name, common.df, "df")
    for key, tau2 in (("mm", "tau2_mm"), ("reml", "tau2_reml")):
        network = fit_at(blocks, sqrt(expected[tau2]))
        expect(name, {t: network.estimate(t, "A").estimate for t in "BCD"}, key, "b")
        expect(name, network.covariance[1:, 1:], key, "vcov")
    network = fit_at(blocks, sqrt(expected["tau2_reml"]))
    expect_published(
        name, expected["tau2_reml"], [network.estimate(t, "A").estimate for t in "BCD"]
    )


@pytest.mark.parametrize("case", range(5))
def test_within_person_samples_over_the_range_of_correlations(case):
    """As the entry says: S_ij = r sd_i sd_j / (n m_i m_j) for the same people in all arms, diagonal otherwise; no correction."""
    given_ = entry("nma_within_participant_synthetic")
    wanted = given_["expected"]["by_r"][case]
    blocks = []
    for study in given_["inputs"]["studies"]:
        m = np.array(study["m"], float)
        variation = np.array(study["sd"]) / m / np.sqrt(study["n"])
        r = np.full((len(m), len(m)), wanted["r"] if study["within"] else 0.0)
        np.fill_diagonal(r, 1.0)
        blocks.append(
            from_arms(study["study"], study["trt"], np.log(m), r * np.outer(variation, variation))
        )
    same(np.concatenate([b.y for b in blocks]), wanted["y"], "y", REL)
    common = fit_at(blocks, 0.0)
    same([common.q, common.df], [wanted["Q"], wanted["df"]], "Q", REL)
    for key, network in (
        ("common", common),
        ("random_mm", fit_at(blocks, sqrt(max(0.0, wanted["tau2_mm"])))),
    ):
        for t in "BCD":
            of = [wanted[key]["b"][t], wanted[key]["se"][t]]
            same(network.estimate(t, "A"), of, f"{key} {t}", REL)


@pytest.mark.parametrize("name", PUBLISHED)
def test_a_wide_prior_comes_near_the_likelihood_of_published_networks(name):
    """The restricted maximum likelihood of the whole network: estimates within a quarter of a standard error, standard errors
    within a third (the posterior does not know tau, and one of eight treatments stands in one small trial only)."""
    wanted = entry(name)["expected"]["random_reml"]
    network = Network(of_independent_arms(name), 1.0)
    reference = entry(name)["inputs"]["reference"]
    for treatment, told in wanted["vs_ref"].items():
        found = network.posterior(treatment, reference)
        assert abs(found.mean - told["estimate"]) < 0.25 * told["se"], treatment
        assert 0.9 < found.sd / told["se"] < 1.33, treatment


@pytest.mark.parametrize("name", MANY)
def test_many_studies_under_a_wide_prior_come_near_metafor(name):
    """Ten studies or more, a prior twenty times as wide as what is found: the mean of metafor's REML within a fifth of its
    standard error, and between its own (normal) standard error and a third more, as tau is not taken for known."""
    inputs, wanted = entry(name)["inputs"], entry(name)["expected"]["models"]["REML"]
    assert len(inputs["yi"]) >= 10
    scale = max(20 * sqrt(wanted["tau2"]), 1.0)
    found = Network(pairs(inputs["yi"], np.sqrt(inputs["vi"])), scale).posterior("a", "b")
    assert abs(found.mean - wanted["estimate"]) < 0.2 * wanted["se"]
    assert 1 <= found.sd / wanted["se"] < 4 / 3


# --- one sample -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("df", [3, 11, 40, None])
def test_without_spread_one_sample_has_the_interval_that_its_paper_prints(df):
    """By the t of scipy: the prior all but says that studies do not differ."""
    found = Network([pair("s", 0.2, 0.01, df)], 1e-9).posterior("a", "b")
    half = 0.1 * (stats.norm.ppf(0.975) if df is None else stats.t.ppf(0.975, df))
    assert interval(found) == pytest.approx((0.2 - half, 0.2 + half), rel=1e-9)
    assert widening(df) == pytest.approx(half / 0.1 / stats.norm.ppf(0.975))


def test_one_sample_alone_and_as_a_network_are_the_same():
    network = Network([pair("s", 0.2, 0.01, 11)], 0.1).posterior("a", "b")
    alone, tau = single(0.2, 0.1, 11, 0.1)
    assert (alone.mean, alone.sd) == pytest.approx((network.mean, network.sd), rel=1e-9)
    assert interval(alone) == pytest.approx(interval(network), rel=1e-9) and len(tau) == len(
        alone.weights
    )


def test_a_sample_is_never_surer_than_its_paper_and_the_prior_only_widens_it():
    widths = []
    for scale in (1e-9, 0.02, 0.1, 0.5):
        low, high = interval(Network([pair("s", 0.2, 0.01, 11)], scale).posterior("a", "b"))
        widths.append(high - low)
    assert widths == sorted(widths)


@pytest.mark.parametrize(("se", "scale"), [(0.02, 0.025), (0.1, 0.2)])
def test_each_further_agreeing_study_narrows_the_answer(se, scale):
    """What the former rule failed at its fourth study: identical studies, growth-like and activation-like."""
    widths = []
    for k in range(1, 11):
        low, high = interval(
            Network([pair(f"s{n}", 0.05, se**2, 20) for n in range(k)], scale).posterior("a", "b")
        )
        widths.append(high - low)
    assert all(a > b for a, b in zip(widths, widths[1:], strict=False))


# --- what must change nothing -----------------------------------------------------------------------------------------

networks = st.builds(
    random_network,
    st.integers(0, 10**6),
    st.integers(2, 6),
    st.integers(6, 12),
    st.sampled_from([0.0, 0.1, 0.5]),
)
few = settings(max_examples=25, deadline=None)
SAME = {"rtol": 1e-8, "atol": 1e-10}


def values(network: Network, turn=lambda t: t) -> np.ndarray:
    """Middle, spread and a chance of every pair, by its treatments' (renamed) ids."""
    told = []
    for a in sorted(map(turn, network.treatments)):
        for b in sorted(map(turn, network.treatments)):
            if a < b:
                found = network.posterior(turn(a), turn(b))
                told.append([found.mean, found.sd, found.below(0.1)])
    return np.array(told)


def rebased(block: Block, first: int) -> Block:
    """The same block with another of its arms as the baseline."""
    k = len(block.treatments)
    order = [first, *(i for i in range(k) if i != first)]
    y, v = np.append(0.0, block.y), np.pad(block.v, (1, 0))
    turn = np.eye(k)[order][1:] - np.eye(k)[order[0]]
    return replace(
        block, treatments=tuple(block.treatments[i] for i in order), y=turn @ y, v=turn @ v @ turn.T
    )


@few
@given(networks, st.randoms(use_true_random=False))
def test_order_and_baselines(blocks, random):
    shuffled = [
        rebased(b, random.randrange(len(b.treatments))) for b in random.sample(blocks, len(blocks))
    ]
    np.testing.assert_allclose(values(Network(shuffled, 0.1)), values(Network(blocks, 0.1)), **SAME)


@few
@given(networks)
def test_the_names_of_treatments(blocks):
    """Renaming so that the sorted order is reversed."""
    turn = lambda t: f"t{9 - int(t[1:])}"  # noqa: E731 - its own inverse
    renamed = [replace(b, treatments=tuple(map(turn, b.treatments))) for b in blocks]
    plain, other = Network(blocks, 0.1), Network(renamed, 0.1)
    for a in plain.treatments:
        for b in plain.treatments:
            if a < b:
                one, two = plain.posterior(a, b), other.posterior(turn(a), turn(b))
                assert (one.mean, one.sd) == pytest.approx((two.mean, two.sd), rel=1e-8, abs=1e-10)


@few
@given(networks)
def test_the_sign_and_the_unit(blocks):
    """Turning more into less mirrors; the logarithm of another base only scales."""
    unit = 1 / log(2)
    plain = values(Network(blocks, 0.1))
    turned = values(Network([replace(b, y=-b.y) for b in blocks], 0.1))
    np.testing.assert_allclose(turned[:, :2], plain[:, :2] * [-1, 1], **SAME)
    scaled = values(
        Network([replace(b, y=unit * b.y, v=unit**2 * b.v) for b in blocks], 0.1 * unit)
    )
    np.testing.assert_allclose(scaled[:, :2], unit * plain[:, :2], **SAME)


@few
@given(networks)
def test_a_pair_both_ways_round_and_by_way_of_a_third(blocks):
    network = Network(blocks, 0.1)
    a, b, c = (network.treatments * 2)[:3]
    forth, back = network.posterior(a, b), network.posterior(b, a)
    assert (back.mean, back.sd) == pytest.approx((-forth.mean, forth.sd), abs=1e-12)
    mirrored = forth.mirrored()
    assert back.below(0.1) == pytest.approx(mirrored.below(0.1), abs=1e-12)
    around = network.posterior(a, c).mean + network.posterior(c, b).mean
    assert around == pytest.approx(forth.mean, abs=1e-10)


@few
@given(networks)
def test_an_empty_study_changes_nothing(blocks):
    """A block of next to no precision, seen without spread between studies so that only sampling counts."""
    far = ("t0", components(blocks)[0].treatments[-1])
    empty = Block("empty", far, np.array([3.0]), np.array([[1e9]]))
    plain, more = fit_at(blocks, 0.2), fit_at([*blocks, empty], 0.2)
    np.testing.assert_allclose(more.effect, plain.effect, rtol=1e-6, atol=1e-8)
    np.testing.assert_allclose(more.covariance, plain.covariance, rtol=1e-6, atol=1e-8)


@few
@given(networks, st.sampled_from([0.0, 0.05, 0.4]))
def test_least_squares_with_the_whole_covariance(blocks, tau):
    effect, covariance, q, _ = least_squares(blocks, tau)
    network = fit_at(blocks, tau)
    np.testing.assert_allclose(network.effect[1:], effect, rtol=1e-8, atol=1e-10)
    np.testing.assert_allclose(network.covariance[1:, 1:], covariance, rtol=1e-8, atol=1e-12)
    assert network.q == pytest.approx(q, rel=1e-8, abs=1e-10)
    np.testing.assert_allclose(network.solution @ network.rows.y, network.effect)


def test_an_arm_shared_by_two_contrasts_counts_once():
    """Var(B - C) is that of the two arms alone; contrasts taken for independent would add the shared arm twice."""
    variances = {"A": 0.04, "B": 0.01, "C": 0.02}
    block = from_arms("shared", list(variances), [0.0, 0.3, 0.1], np.diag(list(variances.values())))
    apart = [
        Block("one", ("A", "B"), block.y[:1], block.v[:1, :1]),
        Block("two", ("A", "C"), block.y[1:], block.v[1:, 1:]),
    ]
    assert fit_at([block], 0).estimate("B", "C").se ** 2 == pytest.approx(0.03)
    assert fit_at(apart, 0).estimate("B", "C").se ** 2 == pytest.approx(0.03 + 2 * 0.04)
    assert pair_of(block, "B", "C") == pytest.approx((0.2, sqrt(0.03)))


def test_weights_that_differ_by_ten_orders_of_magnitude():
    def block(study, treatments, y, v):
        return Block(study, tuple(treatments), np.array([y]), np.array([[v]]))

    network = fit_at(
        [block("1", "ab", 0.1, 1e-8), block("2", "bc", 0.2, 1e2), block("3", "ac", 0.4, 1e-4)], 0
    )
    assert network.estimate("c", "b").estimate == pytest.approx(
        0.3 - 0.1 * (1e-4 + 1e-8) / (1e2 + 1e-4 + 1e-8), rel=1e-12
    )
    assert network.q == pytest.approx(0.1**2 / (1e-8 + 1e2 + 1e-4), rel=1e-9)


def test_only_what_a_pair_rests_on_carries_it():
    def block(study, treatments):
        return Block(study, tuple(treatments), np.array([0.1]), np.array([[0.01]]))

    network = fit_at([block("s1", "ab"), block("s2", "bc"), block("s4", "cd")], 0.1)
    assert [b.study for b in network.carrying("c", "a")] == ["s1", "s2"]
    assert [b.study for b in network.carrying("d", "c")] == ["s4"]


# --- refusals ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("tau", [-0.1, np.nan, np.inf])
def test_what_is_no_spread_between_studies(tau):
    with pytest.raises(EvidenceError, match="a spread between studies must be a finite number"):
        fit_at([pair("s", 0.1, 1)], tau)


@pytest.mark.parametrize(
    "weigh", [lambda blocks: fit_at(blocks, 0.0), lambda blocks: Network(blocks, 0.1)]
)
def test_what_hangs_together_in_pieces_or_not_at_all(weigh):
    given_ = entry("nma_disconnected")
    blocks = [
        Block(f"{a}{b}", (a, b), np.array([0.1]), np.array([[0.01]]))
        for a, b in given_["inputs"]["comparisons"]
    ]
    found = components(blocks)
    assert [list(part.treatments) for part in found] == given_["expected"]["components"]
    treatments = sum(len(part.treatments) for part in found)
    assert treatments == given_["expected"]["treatments"]
    assert treatments - len(found) == given_["expected"]["laplacian_rank"]
    with pytest.raises(EvidenceError, match="2: A, B, C; D, E"):
        weigh(blocks)
    with pytest.raises(EvidenceError, match="one connected network is needed, here 0"):
        weigh([])
    for part in found:
        assert weigh(part.blocks).treatments == part.treatments


def test_a_treatment_that_is_not_there():
    with pytest.raises(EvidenceError, match="'c' is not in this network: a, b"):
        Network([pair("s", 0.1, 1)], 0.1).posterior("a", "c")
    assert place(("a", "b"), "b") == 1


def test_a_block_of_unknown_degrees_of_freedom_is_not_widened():
    block = pair("s", 0.1, 0.04)
    assert widened(block) is block
    assert widened(pair("s", 0.1, 0.04, 5)).v[0, 0] == pytest.approx(
        0.04 * (stats.t.ppf(0.975, 5) / stats.norm.ppf(0.975)) ** 2
    )
