"""Means and SDs from medians, against Wan et al. (2014), Luo et al. (2018) and package outputs (tests/reference/statistics.yaml)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from statistics_reference import entry, expect

from build_tools.evidence.effects import quartiles
from build_tools.evidence.errors import EvidenceError

COVERS = {"es_wan_luo_S2"}


@pytest.mark.parametrize("row, key", list(enumerate("abcd")))
def test_from_quartiles(row, key):
    i = entry("es_wan_luo_S2")["inputs"]
    mean, sd = quartiles.from_quartiles(i["q1"], i["median"], i["q3"], i["n"][row])
    expect("es_wan_luo_S2", mean, key, "mean_luo")
    expect("es_wan_luo_S2", sd, key, "sd_wan")


def test_large_samples_reach_the_usual_rule():
    """IQR/1.35 is the limit (Cochrane Handbook 6.5.2.5); its 1.35 is rounded from 1.349."""
    i = entry("es_wan_luo_S2")["inputs"]
    _, sd = quartiles.from_quartiles(i["q1"], i["median"], i["q3"], 10**9)
    expect("es_wan_luo_S2", sd, "d", "sd_iqr_over_1_35", rel=0.001)


@given(
    st.floats(-100, 100),
    st.floats(0.1, 100),
    st.floats(0, 1),
    st.integers(2, 300),
    st.floats(0.01, 100),
)
def test_shifting_and_scaling_carry_through(low, width, at, n, scale):
    median = min(low + at * width, low + width)
    mean, sd = quartiles.from_quartiles(low, median, low + width, n)
    moved = quartiles.from_quartiles(
        7 + scale * low, 7 + scale * median, 7 + scale * (low + width), n
    )
    assert moved == pytest.approx((7 + scale * mean, scale * sd), rel=1e-9, abs=1e-9)
    assert low - 1e-9 <= mean <= low + width + 1e-9


@pytest.mark.parametrize(
    "call, message",
    [
        (lambda: quartiles.from_quartiles(12, 11, 22, 18), "not in order"),
        (lambda: quartiles.from_quartiles(12, 12, 12, 18), "a spread of zero cannot be weighed"),
        (lambda: quartiles.from_quartiles(12, 16, 22, 1), "1 people: at least 2 are needed"),
    ],
)
def test_what_cannot_be_had_is_refused(call, message):
    with pytest.raises(EvidenceError, match=message):
        call()
