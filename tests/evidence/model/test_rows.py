"""Independent rows against whole matrices written out (``networks.whole``)."""

from __future__ import annotations

import numpy as np
import pytest
from networks import least_squares, random_network, whole

from build_tools.evidence.model.rows import decorrelate, project


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("tau", [0.0, 0.05, 0.7])
def test_rows_are_the_blocks_whatever_the_spread(seed, tau):
    """For any tau the rows' weights give the whole covariance's information and its weighted sum, and the same determinant."""
    blocks = random_network(seed, 4, 8)
    treatments = sorted({t for b in blocks for t in b.treatments})
    rows = decorrelate(blocks, treatments)
    y, x, v, p = whole(blocks)
    w, weight = np.linalg.inv(v + tau**2 * p), 1 / (rows.spread + tau**2)
    own = rows.x[:, 1:]
    np.testing.assert_allclose(own.T @ (weight[:, None] * own), x.T @ w @ x, rtol=1e-9)
    np.testing.assert_allclose(own.T @ (weight * rows.y), x.T @ w @ y, rtol=1e-8, atol=1e-8)
    assert rows.y @ (weight * rows.y) == pytest.approx(y @ w @ y, rel=1e-9)
    # Decorrelating multiplies the determinant by the same factor at every tau.
    det = np.linalg.slogdet(v + tau**2 * p)[1] - np.linalg.slogdet(p)[1]
    assert np.log(rows.spread + tau**2).sum() == pytest.approx(det, rel=1e-9)
    np.testing.assert_allclose(rows.x.sum(axis=1), 0, atol=1e-12)
    # Two arms have rows of their own; which block a row is from is kept.
    assert [int(n) for n in rows.block] == [n for n, b in enumerate(blocks) for _ in b.y]


@pytest.mark.parametrize("seed", range(3))
def test_a_projection_leaves_what_least_squares_leaves(seed):
    blocks = random_network(seed, 4, 8)
    treatments = sorted({t for b in blocks for t in b.treatments})
    rows = decorrelate(blocks, treatments)
    found = project(rows.of(np.arange(len(rows.y)), range(1, len(treatments))), 0.04)
    effect, _, q, _ = least_squares(blocks, 0.2)
    assert found.sum_of_squares == pytest.approx(q, rel=1e-8)
    np.testing.assert_allclose(
        np.linalg.solve(found.r, found.q.T @ found.response), effect, rtol=1e-7, atol=1e-9
    )
