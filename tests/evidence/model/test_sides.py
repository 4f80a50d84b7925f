"""Direct against indirect evidence: closed forms by hand; published networks stand in ``test_network``."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from networks import random_network

from build_tools.evidence.model.blocks import Block
from build_tools.evidence.model.network import fit_at
from build_tools.evidence.model.sides import split


def block(study: str, treatments: str, y, v) -> Block:
    return Block(study, tuple(treatments), np.array(y, float), np.array(v, float))


def test_a_loop_by_bucher():
    """Bucher's indirect comparison (1997, from memory): a-b-c adds up, variances too."""
    loop = [
        block("1", "ab", [0.1], [[0.02]]),
        block("2", "bc", [0.1], [[0.02]]),
        block("3", "ac", [0.5], [[0.02]]),
    ]
    side = split(fit_at(loop, 0.0), "a", "c")
    assert side.separate and side.indirect == pytest.approx((-0.2, 0.04**0.5))
    assert side.difference == pytest.approx((-0.3, 0.06**0.5))
    assert side.share == pytest.approx(0.04 / 0.06) and 0 < side.p < 1
    # The spread between studies is added to every sample.
    side = split(fit_at(loop, 0.1), "a", "c")
    assert side.direct.se == pytest.approx(0.03**0.5)
    assert side.indirect.se == pytest.approx(0.06**0.5)


def test_a_star_has_no_indirect_side():
    star = [block("1", "ab", [0.1], [[0.01]]), block("2", "ac", [0.3], [[0.02]])]
    side = split(fit_at(star, 0.0), "b", "a")
    assert side.share == pytest.approx(1) and not side.separate
    assert side.indirect is None and side.difference is None and side.p is None
    assert split(fit_at(star, 0.0), "b", "c") is None, "nobody compared the two"


def test_indirect_evidence_without_a_path_of_its_own_is_told_apart():
    """Two three-arm samples: each pair has some of the other's precision, but no study joins them another way."""
    same_arms = [
        block("1", "abc", [0.1, 0.2], [[0.02, 0.01], [0.01, 0.03]]),
        block("2", "abc", [0.3, 0.1], [[0.05, 0.01], [0.01, 0.02]]),
    ]
    network = fit_at(same_arms, 0.0)
    assert [split(network, *pair).separate for pair in ("ab", "ac", "bc")] == [False] * 3


@settings(max_examples=40, deadline=None)
@given(
    st.builds(random_network, st.integers(0, 10**6), st.integers(2, 6), st.integers(6, 12)),
    st.sampled_from([0.0, 0.1]),
)
def test_direct_and_indirect_make_up_the_whole(blocks, tau):
    """The network estimate is their precision-weighted mean; direct evidence is never more precise than all of it."""
    network = fit_at(blocks, tau)
    for a in network.treatments:
        for b in network.treatments:
            side = split(network, a, b) if a < b else None
            if side is None:
                continue
            assert 0 < side.share <= 1
            back = split(network, b, a)
            assert back.direct.estimate == pytest.approx(-side.direct.estimate)
            if side.indirect:
                weights = np.array([side.direct.se, side.indirect.se]) ** -2.0
                both = [side.direct.estimate, side.indirect.estimate]
                assert weights @ both / weights.sum() == pytest.approx(
                    side.network.estimate, rel=1e-6, abs=1e-8
                )
                assert weights.sum() ** -0.5 == pytest.approx(side.network.se, rel=1e-6)
