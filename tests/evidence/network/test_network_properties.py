"""What must hold for any network: nothing depends on how the same evidence is written down."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from networks import from_arms, random_network

from build_tools.evidence.claims.ranking import rank
from build_tools.evidence.model.checks import decompose
from build_tools.evidence.model.network import Block, Network, components, fit
from build_tools.evidence.model.sides import split

#: Two ways to the same number, through different rounding; REML's root is as sharp as its score allows.
SAME = {"rtol": 1e-7, "atol": 1e-9}

networks = st.builds(
    random_network,
    st.integers(0, 10**6),
    st.integers(2, 7),
    st.integers(7, 16),
    st.sampled_from([0.0, 0.1, 0.5]),
)
few = settings(max_examples=40, deadline=None)


def values(network: Network) -> list[np.ndarray]:
    league, checks = network.league(), decompose(network)
    return [
        np.array([network.tau2, network.q, network.df]),
        league.estimate,
        league.se,
        league.lower,
        league.upper,
        np.array([[part.q, part.df] for part in (checks.total, checks.within, checks.between)]),
        np.array([rank(league).scores[t] for t in network.treatments]),
    ]


def assert_same(one: list[np.ndarray], other: list[np.ndarray]) -> None:
    for a, b in zip(one, other, strict=True):
        np.testing.assert_allclose(a, b, **SAME)


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
def test_the_order_of_blocks(blocks, random):
    shuffled = random.sample(blocks, len(blocks))
    assert_same(values(fit(blocks)), values(fit(shuffled)))


@few
@given(networks, st.randoms(use_true_random=False))
def test_the_baseline_of_a_block_and_the_order_of_its_arms(blocks, random):
    assert_same(
        values(fit(blocks)),
        values(fit([rebased(b, random.randrange(len(b.treatments))) for b in blocks])),
    )


@few
@given(networks, st.integers(0, 6))
def test_the_reference(blocks, number):
    reference = components(blocks)[0].treatments[number % len(components(blocks)[0].treatments)]
    network = fit(blocks, reference=reference)
    assert (
        network.reference == reference and network.effect[network.treatments.index(reference)] == 0
    )
    assert_same(values(fit(blocks)), values(network))


@few
@given(networks)
def test_the_names_of_treatments(blocks):
    """Renaming so that the sorted order is reversed."""
    renamed = [
        replace(b, treatments=tuple(f"u{9 - int(t[1:])}" for t in b.treatments)) for b in blocks
    ]
    by_treatment = (1, 2, 3, 4, 6)
    assert_same(
        values(fit(blocks)),
        [np.flip(a) if i in by_treatment else a for i, a in enumerate(values(fit(renamed)))],
    )


@few
@given(networks)
def test_the_sign_of_every_contrast(blocks):
    """Turning more into less turns estimates, intervals and the order around."""
    plain, turned = fit(blocks).league(), fit([replace(b, y=-b.y) for b in blocks]).league()
    np.testing.assert_allclose(turned.estimate, -plain.estimate, **SAME)
    np.testing.assert_allclose(turned.lower, -plain.upper, **SAME)
    for treatment, score in rank(plain).scores.items():
        assert rank(turned).scores[treatment] == pytest.approx(1 - score, abs=1e-9)


@few
@given(networks)
def test_the_unit_of_the_log(blocks):
    """Ratios on another logarithm's base: everything scales, P-scores and Q stay."""
    unit = 1 / np.log(2)
    plain, scaled = fit(blocks), fit([replace(b, y=unit * b.y, v=unit**2 * b.v) for b in blocks])
    assert scaled.tau2 == pytest.approx(unit**2 * plain.tau2, rel=1e-7, abs=1e-12)
    np.testing.assert_allclose(scaled.league().upper, unit * plain.league().upper, **SAME)
    assert scaled.q == pytest.approx(plain.q, rel=1e-7)


@few
@given(networks)
def test_an_empty_study_changes_nothing(blocks):
    """A block of next to no precision."""
    empty = Block(
        "empty", ("t0", components(blocks)[0].treatments[-1]), np.array([3.0]), np.array([[1e9]])
    )
    plain, more = fit(blocks, tau2=0.05).league(), fit([*blocks, empty], tau2=0.05).league()
    np.testing.assert_allclose(more.estimate, plain.estimate, rtol=1e-6, atol=1e-8)
    np.testing.assert_allclose(more.se, plain.se, rtol=1e-6, atol=1e-8)


@few
@given(networks)
def test_consistency(blocks):
    network = fit(blocks)
    league = network.league()
    np.testing.assert_allclose(
        league.estimate[:, :, None] + league.estimate[None, :, :],
        np.broadcast_to(league.estimate[:, None, :], (len(network.treatments),) * 3),
        rtol=0,
        atol=1e-12,
    )
    assert np.array_equal(np.diag(league.se), np.zeros(len(network.treatments)))
    np.testing.assert_array_equal(league.se, league.se.T)
    for i, a in enumerate(network.treatments):
        for j, b in enumerate(network.treatments):
            assert network.estimate(a, b).estimate == league.estimate[i, j]
            np.testing.assert_allclose(
                network.interval(a, b)[:2],
                [league.lower[i, j], league.upper[i, j]],
                rtol=1e-9,
                atol=1e-9,
            )


@few
@given(networks)
def test_reml_is_the_maximum_of_the_restricted_likelihood(blocks):
    """Against the likelihood written out with the whole covariance matrix (Harville 1977, from memory), on a grid."""
    network = fit(blocks)
    ids = {t: i for i, t in enumerate(network.treatments)}
    n = sum(len(b.y) for b in blocks)
    y, x, v, p, at = (
        np.concatenate([b.y for b in blocks]),
        np.zeros((n, len(ids))),
        np.zeros((n, n)),
        np.zeros((n, n)),
        0,
    )
    for b in blocks:
        part = slice(at, at := at + len(b.y))
        v[part, part], p[part, part] = b.v, (np.eye(len(b.y)) + 1) / 2
        x[part, ids[b.treatments[0]]] = -1
        x[np.arange(n)[part], [ids[t] for t in b.treatments[1:]]] = 1

    def likelihood(tau2: float) -> float:
        w, design = np.linalg.inv(v + tau2 * p), x[:, 1:]
        information = design.T @ w @ design
        residual = y - design @ np.linalg.solve(information, design.T @ w @ y)
        return -0.5 * (
            np.linalg.slogdet(v + tau2 * p)[1]
            + np.linalg.slogdet(information)[1]
            + residual @ w @ residual
        )

    highest = likelihood(network.tau2)
    for other in [0.0, *np.geomspace(1e-6, 10, 60), network.tau2 * 0.999, network.tau2 * 1.001]:
        assert highest >= likelihood(other) - 1e-9


@few
@given(networks)
def test_p_scores_average_to_one_half_and_follow_the_league(blocks):
    ranking = rank(fit(blocks).league())
    assert np.mean(list(ranking.scores.values())) == pytest.approx(0.5)
    assert list(ranking.scores.values()) == sorted(ranking.scores.values(), reverse=True)


@few
@given(networks)
def test_direct_and_indirect_make_up_the_whole(blocks):
    """The network estimate is their precision-weighted mean; direct evidence is never more precise than all of it."""
    for side in split(fit(blocks)):
        assert 0 < side.share <= 1
        if side.indirect:
            weights = np.array([side.direct.se, side.indirect.se]) ** -2.0
            both = [side.direct.estimate, side.indirect.estimate]
            assert weights @ both / weights.sum() == pytest.approx(
                side.network.estimate, rel=1e-6, abs=1e-8
            )
            assert weights.sum() ** -0.5 == pytest.approx(side.network.se, rel=1e-6)


def test_an_arm_shared_by_two_contrasts_counts_once():
    """Var(B - C) is that of the two arms alone; contrasts taken for independent would add the shared arm twice."""
    variances = {"A": 0.04, "B": 0.01, "C": 0.02}
    block = from_arms("shared", list(variances), [0.0, 0.3, 0.1], np.diag(list(variances.values())))
    independent = [
        Block("one", ("A", "B"), block.y[:1], block.v[:1, :1]),
        Block("two", ("A", "C"), block.y[1:], block.v[1:, 1:]),
    ]
    assert fit([block]).estimate("B", "C").se ** 2 == pytest.approx(0.03)
    assert fit(independent).estimate("B", "C").se ** 2 == pytest.approx(0.03 + 2 * 0.04)
    assert fit([block]).estimate("B", "A").se == pytest.approx(
        fit(independent).estimate("B", "A").se
    )
