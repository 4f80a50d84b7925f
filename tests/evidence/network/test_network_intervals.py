"""The small-sample rule: Hartung–Knapp–Sidik–Jonkman for two treatments, t of the samples where nothing repeats."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from networks import from_arms
from oracle.pooling import pool
from scipy.stats import norm, t

from build_tools.evidence.model.checks import decompose
from build_tools.evidence.model.intervals import ENOUGH_DF
from build_tools.evidence.model.network import Block, fit


def pair(study: str, a: str, b: str, y: float, v: float, df: float | None = None) -> Block:
    return Block(study, (a, b), np.array([y]), np.array([[v]]), df)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(-1, 1), st.floats(0.001, 0.5)), min_size=1 + ENOUGH_DF, max_size=12
    ),
    st.sampled_from([0.8, 0.95]),
)
def test_two_treatments_are_pairwise_pooling(studies, level):
    y, v = (list(column) for column in zip(*studies, strict=True))
    network = fit([pair(f"s{i}", "b", "a", *study) for i, study in enumerate(studies)])
    pooled = pool(y, v, level=level)
    about = {"rel": 1e-6, "abs": 1e-9}
    found, prediction = network.interval("a", "b", level), network.prediction("a", "b", level)
    assert network.tau2 == pytest.approx(pooled.tau2, **about)
    assert network.estimate("a", "b").estimate == pytest.approx(pooled.estimate, **about)
    assert list(found) == pytest.approx([pooled.low, pooled.high, pooled.se, pooled.df], **about)
    assert list(prediction)[:2] == pytest.approx(
        [pooled.prediction_low, pooled.prediction_high], **about
    )
    checks = decompose(network)
    assert [checks.total.q, checks.total.i2, checks.between.df] == pytest.approx(
        [pooled.q, pooled.i2, 0], **about
    )


def test_the_guard_never_narrows():
    """Q well below its df: the factor would be 0.1, and stays 1."""
    network = fit([pair(f"s{y}", "b", "a", y, 0.1) for y in (0.19, 0.2, 0.2, 0.21)])
    assert network.q / network.df < 0.01
    assert network.interval("a", "b").se == network.estimate("a", "b").se
    assert network.interval("a", "b").df == 3


def test_a_second_agreeing_sample_never_widens():
    """Below three residual degrees of freedom the samples' own decide, not t of 12.7 or 4.3."""
    samples = [pair(f"s{n}", "b", "a", 0.3, 0.01, df=17) for n in range(3)]
    widths = [(lambda i: i.upper - i.lower)(fit(samples[:k]).interval("a", "b")) for k in (1, 2, 3)]
    assert widths[0] > widths[1] > widths[2]
    assert fit(samples[:2]).interval("a", "b").df == pytest.approx(34)


def test_one_sample_keeps_its_own_degrees_of_freedom():
    network = fit([pair("s", "b", "a", 0.2, 0.04, df=11)])
    lower, upper, se, df = network.interval("a", "b")
    assert (se, df) == (pytest.approx(0.2), 11)
    assert [lower, upper] == pytest.approx(
        [0.2 - t.ppf(0.975, 11) * 0.2, 0.2 + t.ppf(0.975, 11) * 0.2]
    )
    assert network.prediction("a", "b") is None
    assert network.tau2_from == "nothing to estimate it from"


def test_one_sample_of_unknown_degrees_of_freedom_uses_the_normal_distribution():
    assert fit([pair("s", "b", "a", 0.2, 0.04)]).interval("a", "b").upper == pytest.approx(
        0.2 + norm.ppf(0.975) * 0.2
    )


def test_a_chain_of_samples_uses_satterthwaite():
    """Satterthwaite 1946, from memory: (v1 + v2)² / (v1²/df1 + v2²/df2)."""
    network = fit(
        [
            pair("s1", "a", "b", 0.2, 0.04, df=9),
            pair("s2", "b", "c", 0.1, 0.01, df=19),
            pair("s3", "c", "d", 0.1, 0.02),
        ]
    )
    assert network.interval("a", "b").df == pytest.approx(9)
    assert network.interval("a", "c").df == pytest.approx(0.05**2 / (0.04**2 / 9 + 0.01**2 / 19))
    assert network.interval("a", "d").df == np.inf
    league = network.league()
    assert league.upper[1, 0] == pytest.approx(network.interval("b", "a").upper)


def test_a_sample_of_several_arms_keeps_its_degrees_of_freedom_for_every_pair():
    block = from_arms("s", ["a", "b", "c"], [0.0, 0.2, 0.3], np.diag([0.01, 0.02, 0.04]))
    network = fit([Block(block.study, block.treatments, block.y, block.v, 14)])
    assert [network.interval(*p).df for p in (("a", "b"), ("b", "c"), ("c", "a"))] == pytest.approx(
        [14, 14, 14]
    )
