"""Numbers at the edge: a defined answer, or an error that names the study."""

import numpy as np
import pytest
from networks import random_network

from build_tools.evidence.claims.ranking import rank
from build_tools.evidence.errors import EvidenceError
from build_tools.evidence.model import tau2 as network_tau2
from build_tools.evidence.model.checks import decompose
from build_tools.evidence.model.network import Block, components, fit
from build_tools.evidence.model.sides import split


def block(study: str, treatments: str, y, v, df=None) -> Block:
    return Block(study, tuple(treatments), np.array(y, float), np.array(v, float), df)


@pytest.mark.parametrize(
    ("bad", "message"),
    [
        (
            block("smith", "a", [], np.zeros((0, 0))),
            "smith: a comparison needs two treatments, here 1",
        ),
        (
            block("smith", "aba", [0.1, 0.2], [[1, 0], [0, 1]]),
            "smith: a treatment stands twice in one block: a, b, a",
        ),
        (
            block("smith", "ab", [0.1, 0.2], [[1, 0], [0, 1]]),
            "smith: 2 treatments need 1 contrasts",
        ),
        (block("smith", "ab", [0.1], [0.1]), "smith: 2 treatments need 1 contrasts"),
        (
            block("smith", "ab", [np.nan], [[1]]),
            "smith: a contrast or a variance is not a finite number",
        ),
        (
            block("smith", "ab", [0.1], [[np.inf]]),
            "smith: a contrast or a variance is not a finite number",
        ),
        (
            block("smith", "abc", [0.1, 0.2], [[1, 0.5], [0.4, 1]]),
            "smith: the covariance of the contrasts is not symmetric",
        ),
        (
            block("smith", "abc", [0.1, 0.2], [[1, 2], [2, 1]]),
            "smith: the covariance of the contrasts gives one of them a negative variance",
        ),
        (
            block("smith", "ab", [0.1], [[-1]]),
            "smith: the covariance of the contrasts gives one of them a negative variance",
        ),
        (block("smith", "ab", [0.1], [[0]]), "smith: a contrast has no variance"),
        (
            block("smith", "abc", [0.1, 0.1], [[1, 1], [1, 1]]),
            "smith: a contrast has no variance",
        ),  # b and c: one arm entered twice
        (
            block("smith", "ab", [0.1], [[1]], df=0),
            "smith: degrees of freedom must be positive, here 0",
        ),
    ],
)
def test_a_malformed_block(bad, message):
    with pytest.raises(EvidenceError) as error:
        fit([block("good", "ab", [0.1], [[1]]), bad])
    assert str(error.value).startswith(message)


def test_no_blocks():
    assert components([]) == []
    with pytest.raises(EvidenceError, match="one connected network is needed, here 0"):
        fit([])


@pytest.mark.parametrize("tau2", [-0.1, np.nan, np.inf])
def test_a_tau2_that_is_no_variance(tau2):
    with pytest.raises(EvidenceError, match="tau² must be a finite number"):
        fit([block("s", "ab", [0.1], [[1]])], tau2=tau2)


def test_a_treatment_that_is_not_there():
    network = fit([block("s", "ab", [0.1], [[1]])])
    with pytest.raises(EvidenceError, match="'c' is not in this network: a, b"):
        network.estimate("a", "c")
    with pytest.raises(EvidenceError, match="the reference 'c' is not in this network"):
        fit([block("s", "ab", [0.1], [[1]])], reference="c")


def test_components_are_ordered_and_found_however_the_blocks_come():
    blocks = [
        block("1", "zy", [0], [[1]]),
        block("2", "cb", [0], [[1]]),
        block("3", "ya", [0], [[1]]),
        block("4", "bde", [0, 0], np.eye(2)),
    ]
    found = components(blocks)
    assert [part.treatments for part in found] == [("a", "y", "z"), ("b", "c", "d", "e")]
    assert [[b.study for b in part.blocks] for part in found] == [["1", "3"], ["2", "4"]]
    assert [part.treatments for part in components(blocks[::-1])] == [
        part.treatments for part in found
    ]


def test_a_star_of_single_studies_has_nothing_to_estimate_heterogeneity_from():
    network = fit(
        [
            block("1", "ab", [0.1], [[0.01]]),
            block("2", "ac", [0.3], [[0.02]]),
            block("3", "ad", [-0.1], [[0.03]]),
        ]
    )
    assert (network.df, network.tau2, network.tau2_from) == (0, 0.0, "nothing to estimate it from")
    assert network.reference == "a"
    assert network.estimate("c", "b") == pytest.approx((0.2, 0.03**0.5))
    checks = decompose(network)
    assert (checks.total.df, checks.total.p, checks.total.i2, checks.after_detaching) == (
        0,
        None,
        0.0,
        {},
    )
    assert all(
        side.share == pytest.approx(1) and side.indirect is None and not side.separate
        for side in split(network)
    )


def test_identical_effects_leave_no_heterogeneity():
    """Q = 0: tau² is 0 by both methods, and the interval keeps its width."""
    blocks = [block(str(i), "ab", [0.2], [[0.01 * (i + 1)]]) for i in range(4)]
    for method in ("REML", "moments"):
        network = fit(blocks, method=method)
        assert network.tau2 == 0.0 and network.tau2_from == method
        assert network.q == pytest.approx(0, abs=1e-20)
        assert network.interval("a", "b").se == pytest.approx(
            (1 / sum(1 / b.v[0, 0] for b in blocks)) ** 0.5
        )


@pytest.mark.parametrize(
    ("y", "v", "highest"),
    [
        ([-0.03, 0, -0.01, 1.5, 0.8], [0.0072, 0.001, 0.0002, 0.2119, 1.5864], 0.0),
        (
            [0.03, -2.26, -0.14, 0.01, 0.04, -1.74],
            [0.0018, 0.4707, 0.0027, 0.0036, 0.9966, 1.321],
            0.00783,
        ),
        ([-0.01, 2.95, -0.01, 0], [0.0601, 0.4626, 0.0043, 0.0106], 1.568),
    ],
)
def test_of_two_maxima_reml_takes_the_higher(y, v, highest):
    """Precise studies agree and imprecise ones do not; against the likelihood of a mean, on a grid."""

    def likelihood(tau2: float) -> float:
        w = 1 / (np.array(v) + tau2)
        return 0.5 * (np.log(w).sum() - np.log(w.sum()) - w @ (y - w @ y / w.sum()) ** 2)

    grid = [0.0, *np.geomspace(1e-6, 20, 400)]
    heights = np.array([-np.inf, *map(likelihood, grid), -np.inf])
    assert ((heights[1:-1] > heights[:-2]) & (heights[1:-1] > heights[2:])).sum() == 2
    found = fit(
        [block(str(i), "ab", [a], [[b]]) for i, (a, b) in enumerate(zip(y, v, strict=True))]
    ).tau2
    assert found == pytest.approx(highest, rel=1e-3)
    assert likelihood(found) >= heights.max()


def test_a_treatment_that_appears_once_rests_on_its_one_study():
    blocks = [*random_network(3, 4, 12), block("once", ["t1", "rare"], [0.5], [[0.02]])]
    network = fit(blocks)
    without = fit(blocks[:-1], tau2=network.tau2)
    estimate, se = network.estimate("rare", "t1")
    assert (estimate, se**2) == (pytest.approx(0.5), pytest.approx(0.02 + network.tau2))
    assert network.estimate("t0", "t1") == pytest.approx(tuple(without.estimate("t0", "t1")))
    (only,) = (side for side in split(network) if "rare" in (side.a, side.b))
    assert only.share == pytest.approx(1) and only.indirect is None


def test_weights_that_differ_by_ten_orders_of_magnitude():
    blocks = [
        block("1", "ab", [0.1], [[1e-8]]),
        block("2", "bc", [0.2], [[1e2]]),
        block("3", "ac", [0.4], [[1e-4]]),
    ]
    network = fit(blocks, tau2=0.0)
    assert network.estimate("c", "b").estimate == pytest.approx(
        0.3 - 0.1 * (1e-4 + 1e-8) / (1e2 + 1e-4 + 1e-8), rel=1e-12
    )
    assert decompose(network).total.q == pytest.approx(0.1**2 / (1e-8 + 1e2 + 1e-4), rel=1e-9)


def test_moments_stand_in_where_reml_finds_no_maximum(monkeypatch):
    monkeypatch.setattr(network_tau2, "bracketed_root", lambda *_: None)
    blocks = random_network(1, 4, 12, tau=0.5)
    network = fit(blocks)
    assert network.tau2_from == "moments, as REML did not converge"
    assert network.tau2 == fit(blocks, method="moments").tau2 > 0


def test_indirect_evidence_without_a_path_of_its_own_is_told_apart():
    """Two three-arm samples: each pair has some of the other's precision, but no study joins them another way."""
    same_arms = [
        block("1", "abc", [0.1, 0.2], [[0.02, 0.01], [0.01, 0.03]]),
        block("2", "abc", [0.3, 0.1], [[0.05, 0.01], [0.01, 0.02]]),
    ]
    assert [side.separate for side in split(fit(same_arms))] == [False, False, False]
    loop = [
        block("1", "ab", [0.1], [[0.02]]),
        block("2", "bc", [0.1], [[0.02]]),
        block("3", "ac", [0.5], [[0.02]]),
    ]
    sides = split(fit(loop, tau2=0.0))
    assert all(side.separate for side in sides)
    # Bucher's indirect comparison (1997, from memory): a-b-c adds up, variances too.
    assert sides[1].indirect == pytest.approx((-0.2, 0.04**0.5)) and sides[
        1
    ].difference == pytest.approx((-0.3, 0.06**0.5))


def test_ranks_of_equal_treatments_are_equal():
    ranking = rank(
        fit([block("1", "ab", [0.0], [[1.0]]), block("2", "bc", [0.0], [[1.0]])]).league()
    )
    assert ranking.scores == pytest.approx({"a": 0.5, "b": 0.5, "c": 0.5})
