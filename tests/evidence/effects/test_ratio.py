"""Log ratios of means, against metafor, vcmeta, algebra and a simulation in R (tests/reference/statistics.yaml)."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from oracle.standard import Group, pooled_sd, sd_of_differences
from statistics_reference import entry, expect, expect_published, same

from build_tools.evidence.effects import ratio, spread
from build_tools.evidence.errors import EvidenceError

INDEPENDENT = {f"es_rom_ind{i}" for i in (1, 2, 5)}
CORRECTED = {f"es_rom_delta_ind{i}" for i in range(1, 6)}
PAIRED = {f"es_romc_wit{i}" for i in (1, 2, 3, 5)}
PAIRED_CORRECTED = {f"es_romc_delta_wit{i}" for i in range(1, 6)}
COVERS = (
    INDEPENDENT
    | CORRECTED
    | PAIRED
    | PAIRED_CORRECTED
    | {
        "es_multiarm_rom_independent",
        "es_multiarm_rom_within",
        "es_multiarm_md_within",
        "es_rom_second_order_simulation",
    }
)

means = st.floats(0.5, 500)
#: SD as a share of the mean.
variations = st.floats(0.01, 1)
counts = st.integers(2, 200)
correlations = st.floats(-0.9, 0.95)
arms = st.builds(lambda m, cv, n: ratio.log_mean(m, cv * m, n), means, variations, counts)


def two(entry_id: str) -> tuple[ratio.LogMean, ratio.LogMean]:
    i = entry(entry_id)["inputs"]
    return (
        ratio.log_mean(i["m1"], i["sd1"], i.get("n1", i.get("n"))),
        ratio.log_mean(i["m2"], i["sd2"], i.get("n2", i.get("n"))),
    )


@pytest.mark.parametrize("entry_id", sorted(INDEPENDENT))
def test_independent_arms(entry_id):
    a, b = two(entry_id)
    estimate = ratio.log_ratio(a, b)
    expect(entry_id, {"yi": a.log - b.log, "vi": estimate.v, "sei": estimate.se}, "LS")
    i = entry(entry_id)["inputs"]
    common = pooled_sd(Group(i["n1"], i["m1"], i["sd1"]), Group(i["n2"], i["m2"], i["sd2"]))
    expect(
        entry_id,
        ratio.log_ratio(
            ratio.log_mean(i["m1"], common, i["n1"]), ratio.log_mean(i["m2"], common, i["n2"])
        ).v,
        "HO",
        "vi",
    )
    if entry_id == "es_rom_ind2":
        expect_published(entry_id, [a.log - b.log, estimate.se])
    if entry_id == "es_rom_ind5":
        expect_published(entry_id, [a.log - b.log, estimate.v])


@pytest.mark.parametrize("entry_id", sorted(CORRECTED))
def test_small_sample_correction(entry_id):
    a, b = two(entry_id)
    estimate = ratio.log_ratio(a, b)
    expect(entry_id, {"c1": a.c, "c2": b.c, "yi": estimate.y})
    # The published second-order term is left out of the variance (module docstring); nothing else is.
    expect(entry_id, estimate.v + (a.c**2 + b.c**2) / 2, "vi")


@pytest.mark.parametrize("entry_id", sorted(PAIRED))
def test_same_people(entry_id):
    a, b = two(entry_id)
    r = entry(entry_id)["inputs"]["r"]
    estimates = {each: ratio.log_ratio(a, b, each) for each in r}
    expect(entry_id, [a.log - b.log] * len(r), "yi")
    expect(entry_id, [e.v for e in estimates.values()], "vi")
    expect(entry_id, [e.se for e in estimates.values()], "sei")
    if entry_id == "es_romc_wit1":
        expect_published(entry_id, [a.log - b.log, estimates[0.7].v])
    if entry_id == "es_romc_wit2":
        expect_published(entry_id, [a.log - b.log, estimates[0.748].se])


@pytest.mark.parametrize("entry_id", sorted(PAIRED_CORRECTED))
def test_same_people_small_sample_correction(entry_id):
    a, b = two(entry_id)
    left_out = []
    for r in entry(entry_id)["inputs"]["r"]:
        estimate = ratio.log_ratio(a, b, r)
        expect(entry_id, estimate.y, "yi")
        shared = r * math.sqrt(a.c * b.c)
        left_out.append(estimate.v + (a.c**2 + b.c**2) / 2 - shared**2)
    expect(entry_id, left_out, "vi")


@pytest.mark.parametrize("case", [0, 1, 2])
def test_correction_and_variance_against_simulation(case):
    """Four million simulated sample means: the correction is right, and the first-order variance near enough."""
    i, wanted = (
        entry("es_rom_second_order_simulation")[key][case] for key in ("inputs", "expected")
    )
    a, b = (
        ratio.log_mean(i["m1"], i["s1"], i.get("n1", i.get("n"))),
        ratio.log_mean(i["m2"], i["s2"], i.get("n2", i.get("n"))),
    )
    estimate = ratio.log_ratio(a, b, i.get("r", 0))
    same(estimate.v, wanted["v_first"])
    truth = math.log(i["m1"] / i["m2"])
    left = wanted["mc_mean"] + a.correction - b.correction - truth
    # Left over is the term of next order, 3c^2/4 per arm (moments of the normal distribution), and chance.
    assert abs(left - 0.75 * (b.c**2 - a.c**2)) < 4 * wanted["mc_mean_se"]
    assert abs(left) < abs(wanted["mc_mean"] - truth) / 10
    assert 1 < wanted["mc_var"] / estimate.v < 1.1


def test_several_independent_arms():
    i = entry("es_multiarm_rom_independent")["inputs"]
    built = [ratio.log_mean(*row) for row in zip(i["m"], i["sd"], i["n"], strict=True)]
    y, v = ratio.contrasts(
        [a.log for a in built], ratio.covariance([a.c for a in built], 0.7, same_people=False)
    )
    expect("es_multiarm_rom_independent", {"yi": y, "V": v, "indep_error_if_cov_ignored": v[0, 1]})


def test_several_arms_of_the_same_people():
    i = entry("es_multiarm_rom_within")["inputs"]
    built = [ratio.log_mean(m, sd, i["n"]) for m, sd in zip(i["m"], i["sd"], strict=True)]
    s = ratio.covariance([a.c for a in built], i["R"], same_people=True)
    y, v = ratio.contrasts([a.log for a in built], s)
    expect("es_multiarm_rom_within", {"yi": y, "S": s, "V": v})


def test_the_same_map_serves_raw_means():
    i = entry("es_multiarm_md_within")["inputs"]
    y, v = ratio.contrasts(
        i["m"], ratio.covariance(np.square(i["sd"]) / i["n"], i["R"], same_people=True)
    )
    expect("es_multiarm_md_within", {"yi": y, "V": v})


# Growth: a factor after / before.


@given(st.floats(-50, 200), st.floats(0.1, 100), counts)
def test_growth_in_per_cent(change, sd, n):
    """A change of 8 +/- 5% is a level of 108 +/- 5 for a baseline of 100."""
    assert ratio.log_growth_from_percent(change, sd, n).y == pytest.approx(
        ratio.log_mean(100 + change, sd, n).y - math.log(100), abs=1e-12
    )


# Tests and intervals.


@given(means, means, st.floats(1e-6, 0.99), counts, counts)
def test_ratio_from_two_means_and_p(a, b, p, n1, n2):
    assume(abs(a - b) > 1e-6 * a)
    df = spread.df_independent(n1, n2)
    estimate = ratio.log_ratio_from_difference(a, b, spread.se_from_p(a - b, p, df))
    assert estimate.y == pytest.approx(math.log(a / b), abs=1e-12)
    assert estimate.se == pytest.approx(abs(estimate.y) / spread.t_from_p(p, df), rel=1e-9)


@given(means, variations, variations, st.integers(20, 200), correlations)
def test_ratio_from_a_difference_is_near_that_from_the_arms(m, cv1, cv2, n, r):
    """Equal means: the two ways meet in sd_diff / (m sqrt(n)), although p and t say nothing there."""
    arms_known = ratio.log_ratio(ratio.log_mean(m, cv1 * m, n), ratio.log_mean(m, cv2 * m, n), r)
    se = sd_of_differences(cv1 * m, cv2 * m, r) / math.sqrt(n)
    for b in (m, m * (1 + 1e-9)):
        assert ratio.log_ratio_from_difference(m, b, se).se == pytest.approx(
            arms_known.se, rel=1e-8
        )


@given(st.floats(0.1, 10), st.floats(0.001, 2), st.none() | st.integers(2, 100))
def test_ratio_from_its_interval(value, se, df):
    half = spread.critical(df) * se
    estimate = ratio.log_ratio_from_ci(value, value * math.exp(-half), value * math.exp(half), df)
    assert estimate == pytest.approx((math.log(value), se**2), rel=1e-9)


# What holds whatever the numbers.


@given(arms, arms, correlations)
def test_swapping_the_arms_turns_the_sign(a, b, r):
    forth, back = ratio.log_ratio(a, b, r), ratio.log_ratio(b, a, r)
    assert back == pytest.approx((-forth.y, forth.v), rel=1e-12)


@given(means, variations, counts, means, variations, counts, st.floats(0.001, 1000), correlations)
def test_the_unit_does_not_matter(m1, cv1, n1, m2, cv2, n2, unit, r):
    one, other = (
        ratio.log_ratio(
            ratio.log_mean(u * m1, u * cv1 * m1, n1), ratio.log_mean(u * m2, u * cv2 * m2, n2), r
        )
        for u in (1, unit)
    )
    assert other == pytest.approx(one, rel=1e-9, abs=1e-12)


@given(arms, arms, correlations, correlations)
def test_the_standard_error_falls_as_the_correlation_rises(a, b, r1, r2):
    low, high = sorted((r1, r2))
    assume(high - low > 1e-6)
    loose, tight = (ratio.log_ratio(a, b, r) for r in (low, high))
    assert tight.se < loose.se and tight.y == loose.y


@given(st.lists(arms, min_size=2, max_size=6), st.floats(0, 1), st.booleans(), st.data())
def test_contrasts_of_many_arms(built, r, same_people, data):
    """V is symmetric and positive semi-definite, and holds every pair's own variance; a new baseline is a linear map."""
    c = [a.c for a in built]
    y, s = [a.y for a in built], ratio.covariance(c, r, same_people)
    baseline = data.draw(st.integers(0, len(built) - 1))
    estimates, v = ratio.contrasts(y, s, baseline)
    assert np.array_equal(v, v.T) and np.linalg.eigvalsh(v)[0] >= -1e-12 * np.trace(v)
    others = [i for i in range(len(built)) if i != baseline]
    for place, i in enumerate(others):
        assert estimates[place] == pytest.approx(y[i] - y[baseline], abs=1e-12)
        wanted = c[i] + c[baseline] - 2 * (r if same_people else 0) * math.sqrt(c[i] * c[baseline])
        assert v[place, place] == pytest.approx(wanted, rel=1e-9, abs=1e-12 * max(c))


@given(arms, arms)
def test_no_correlation_is_like_independent_groups(a, b):
    for same_people, r in ((True, 0.0), (False, 0.9)):
        y, v = ratio.contrasts([b.y, a.y], ratio.covariance([b.c, a.c], r, same_people))
        assert (y[0], v[0, 0]) == pytest.approx(ratio.log_ratio(a, b), rel=1e-9)


def test_sites_of_the_same_people_are_not_counted_twice():
    """Two arms of different people, two sites each: with sites in step the average is no better than one site."""
    c = 4 * [0.01]
    y = [0.10, 0.14, 0.02, 0.04]  # invented: arm 1 upper and lower site, then arm 2
    average = ratio.averaging([[0, 1], [2, 3]], 4)
    for between_sites, wanted in ((1.0, 0.02), (0.5, 0.015), (0.0, 0.01)):
        r = np.kron(ratio.exchangeable(2, 0), ratio.exchangeable(2, between_sites))
        means_y, means_s = ratio.linear(y, ratio.covariance(c, r, same_people=True), average)
        estimate, v = ratio.contrasts(means_y, means_s)
        assert (estimate[0], v[0, 0]) == pytest.approx((-0.09, wanted))


@pytest.mark.parametrize(
    "call, message",
    [
        (lambda: ratio.log_mean(0, 1, 9), "a mean of 0 has no ratio to another"),
        (lambda: ratio.log_mean(-2, 1, 9), "a mean of -2 has no ratio to another"),
        (lambda: ratio.log_mean(float("nan"), 1, 9), "a mean of nan has no ratio"),
        (lambda: ratio.log_mean(2, 0, 9), "a spread of zero cannot be weighed"),
        (lambda: ratio.log_mean(2, float("inf"), 9), "a spread of inf is none"),
        (lambda: ratio.log_mean(2, 1, 1), "1 people: at least 2 are needed"),
        (lambda: ratio.log_growth_from_percent(-100, 5, 9), "a change of -100% leaves nothing"),
        (
            lambda: ratio.log_growth_from_pre_post(5, 1, 5, 1, 9, 1),
            "with a correlation of 1 the ratio would have no spread",
        ),
        (lambda: ratio.log_ratio_from_difference(2, -1, 1), "a mean of -1 has no ratio"),
        (lambda: ratio.log_ratio_from_difference(2, 1, 0), "a spread of zero cannot be weighed"),
        (lambda: ratio.log_ratio_from_ci(1.2, 1.3, 1.5), "does not lie in its own interval"),
        (lambda: ratio.log_ratio_from_ci(1.2, 0, 1.5), "a mean of 0 has no ratio"),
        (lambda: ratio.log_ratio_from_ci(1.2, 1.2, 1.2), "a spread of zero cannot be weighed"),
        (lambda: ratio.covariance([1, 1], 1.5, True), "a correlation of 1.5 is none"),
        (
            lambda: ratio.covariance([1, 1, 1], -0.6, True),
            "3 measurements cannot all correlate by -0.6",
        ),
        (lambda: ratio.covariance([1, 1], [[1, 0.5], [0.4, 1]], True), "form a symmetric table"),
        (
            lambda: ratio.covariance([1, 1, 1], [[1, 0.9, 0], [0.9, 1, 0.9], [0, 0.9, 1]], True),
            "contradict each other",
        ),
        (lambda: ratio.averaging([[0], []], 2), "a group without members"),
        (lambda: ratio.contrasts([0.1], [[0.01]]), "one arm has nothing to be compared with"),
    ],
)
def test_what_cannot_be_had_is_refused(call, message):
    with pytest.raises(EvidenceError, match=message):
        call()
