"""Spreads from what papers print, against the Cochrane Handbook's examples and values made in R (tests/reference/statistics.yaml)."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from oracle.standard import sd_of_differences
from scipy.special import chdtrc
from statistics_reference import entry, expect, expect_published

from build_tools.evidence.effects import spread
from build_tools.evidence.errors import EvidenceError

COVERS = {
    "es_quantiles",
    "es_sd_from_se",
    "es_sd_from_ci_z",
    "es_sd_from_ci_t",
    "es_sd_from_p_two_groups",
    "es_sd_from_t_two_groups",
    "es_sd_from_md_ci_t",
    "es_sd_diff_from_paired",
    "es_r_from_sds",
    "es_sd_change_imputed",
    "es_r_from_paired_t",
    "es_se_from_p_normal",
}

sds = st.floats(0.01, 1e4)
counts = st.integers(2, 500)
correlations = st.floats(-0.99, 0.99)


def columns(entry_id: str):
    """The rows of an entry whose inputs are lists."""
    return zip(*entry(entry_id)["inputs"].values(), strict=True)


def test_quantiles_are_those_of_r():
    inputs = entry("es_quantiles")["inputs"]
    expect("es_quantiles", [spread.critical(df) for df in inputs["t_df"]], "t_975")
    expect("es_quantiles", [spread.t_from_p(2 * (1 - p), None) for p in inputs["z_p"]], "z")
    # Pooling and networks take their p values of Q from this function. 1e-8: the last of them is 2e-26.
    expect(
        "es_quantiles",
        chdtrc(inputs["chi2"]["df"], inputs["chi2"]["q"]),
        "chi2_upper_p",
        rel=1e-8,
        abs=0,
    )


def test_sd_from_standard_error():
    expect("es_sd_from_se", [spread.sd_from_se(se, n) for se, n in columns("es_sd_from_se")], "sd")


def test_sd_from_interval():
    i = entry("es_sd_from_ci_t")["inputs"]
    expect("es_sd_from_ci_t", spread.critical(spread.df_paired(i["n"])), "t")
    sd = spread.sd_from_ci(i["l"], i["u"], i["n"])
    expect("es_sd_from_ci_t", sd, "sd")
    expect_published("es_sd_from_ci_t", sd)
    expect("es_sd_from_ci_z", spread.sd_from_ci(i["l"], i["u"], i["n"], form="z"), "sd")


def test_two_groups_from_p():
    i = entry("es_sd_from_p_two_groups")["inputs"]
    df = spread.df_independent(i["n1"], i["n2"])
    t, se = spread.t_from_p(i["p"], df), spread.se_from_p(i["md"], i["p"], df)
    expect("es_sd_from_p_two_groups", {"t": t, "se": se})
    expect_published("es_sd_from_p_two_groups", [t, se], None)


def test_two_groups_from_t():
    i = entry("es_sd_from_t_two_groups")["inputs"]
    se = spread.se_from_t(i["md"], i["t"])
    expect("es_sd_from_t_two_groups", se, "se")


def test_two_groups_from_interval_of_the_difference():
    i = entry("es_sd_from_md_ci_t")["inputs"]
    se = spread.se_from_ci(i["l"], i["u"], spread.df_independent(i["n1"], i["n2"]))
    expect("es_sd_from_md_ci_t", se, "se")


def test_pairs_from_t_and_from_interval():
    i = entry("es_sd_diff_from_paired")["inputs"]
    expect(
        "es_sd_diff_from_paired",
        spread.sd_from_se(spread.se_from_t(i["md"], i["t"]), i["n"]),
        "sd_diff_from_t",
    )
    expect("es_sd_diff_from_paired", spread.sd_from_ci(i["l"], i["u"], i["n"]), "sd_diff_from_ci")


def test_correlation_from_three_sds():
    r = [spread.within_person_correlation(*row) for row in columns("es_r_from_sds")]
    expect("es_r_from_sds", r, "r")
    expect_published("es_r_from_sds", r[:2])


def test_correlation_from_a_paired_t():
    i = entry("es_r_from_paired_t")["inputs"]
    sd_diff = spread.sd_from_se(spread.se_from_t(i["m1"] - i["m2"], -i["t"]), i["n"])
    r = spread.within_person_correlation(i["sd1"], i["sd2"], sd_diff)
    expect("es_r_from_paired_t", {"sd_diff": sd_diff, "r": r})
    expect_published("es_r_from_paired_t", r)


def test_sd_of_change_from_a_correlation():
    sd = [sd_of_differences(*row) for row in columns("es_sd_change_imputed")]
    expect("es_sd_change_imputed", sd, "sd_change")
    expect_published("es_sd_change_imputed", sd[0])


def test_standard_error_from_p_by_the_normal_distribution():
    expect(
        "es_se_from_p_normal",
        {
            "z": [spread.t_from_p(p, None) for _, p in columns("es_se_from_p_normal")],
            "se": [spread.se_from_p(est, p, None) for est, p in columns("es_se_from_p_normal")],
        },
    )


def test_a_bound_below_is_conservative():
    """p < 0.001 read as p = 0.001 gives a standard error no smaller than any p it allows."""
    read = spread.se_from_p(3.0, 0.001, 18, "below")
    assert all(spread.se_from_p(3.0, p, 18) <= read for p in (0.001, 0.0005, 1e-6, 1e-12))


@given(sds, sds, correlations)
def test_correlation_and_sd_of_differences_invert_each_other(sd1, sd2, r):
    back = spread.within_person_correlation(sd1, sd2, sd_of_differences(sd1, sd2, r))
    # Where one SD dwarfs the other, the correlation is the small difference of large squares.
    assert back == pytest.approx(r, abs=1e-14 * max(sd1 / sd2, sd2 / sd1) + 1e-12)


@given(sds, counts, counts)
def test_p_and_t_tell_the_same_standard_error(se, n1, n2):
    from scipy.special import stdtr

    df = spread.df_independent(n1, n2)
    assert spread.se_from_p(-2 * se, 2 * stdtr(df, -2), df) == pytest.approx(se, rel=1e-9)
    assert spread.se_from_t(-2 * se, -2) == pytest.approx(se, rel=1e-12)


@given(st.floats(-100, 100), sds, counts, st.sampled_from(["t", "z"]))
def test_interval_and_sd_invert_each_other(mean, sd, n, form):
    half = spread.critical(None if form == "z" else n - 1) * sd / math.sqrt(n)
    # The limits lose digits where the mean dwarfs the width.
    assert spread.sd_from_ci(mean - half, mean + half, n, form=form) == pytest.approx(sd, rel=1e-9)


@pytest.mark.parametrize(
    "call, message",
    [
        (lambda: spread.sd_from_se(0, 12), "a spread of zero cannot be weighed"),
        (lambda: spread.sd_from_se(-1, 12), "must be a positive number"),
        (lambda: spread.sd_from_se(1, 1), "1 people: at least 2 are needed"),
        (lambda: spread.sd_from_ci(3, 3, 12), "a spread of zero cannot be weighed"),
        (lambda: spread.se_from_ci(4, 3, None), "the lower limit comes first"),
        (lambda: spread.se_from_ci(3, 4, None, level=95), "95 is no level of confidence"),
        (lambda: spread.se_from_t(0, 2), "cannot be had"),
        (lambda: spread.se_from_t(2, 0), "cannot be had"),
        (lambda: spread.se_from_t(2, -2), "point opposite ways"),
        (
            lambda: spread.se_from_p(0, 0.3, 12),
            "a difference of 0 with p = 0.3: the standard error cannot be had",
        ),
        (lambda: spread.se_from_p(2, 1, 12), "with p = 1: the standard error cannot be had"),
        (lambda: spread.se_from_p(2, 0, 12), "p = 0 is no p value"),
        (lambda: spread.se_from_p(2, 0.05, 12, "above"), "p above 0.05 does not say"),
        (lambda: sd_of_differences(1, 1, 1.2), "a correlation of 1.2 is none"),
        (lambda: sd_of_differences(1, 1, 1), "a spread of zero cannot be weighed"),
        (
            lambda: spread.within_person_correlation(2, 3, 0.5),
            "that would be a correlation of 1.06",
        ),
        (lambda: spread.within_person_correlation(2, 3, 9), "that would be a correlation of -5.67"),
    ],
)
def test_what_cannot_be_had_is_refused(call, message):
    with pytest.raises(EvidenceError, match=message):
        call()
