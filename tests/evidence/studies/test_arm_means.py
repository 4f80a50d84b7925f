"""What one arm of a study showed: every way to its spread, and levels that have no ratio.

Formulae by hand beside each row; the t and normal distributions are scipy's.
"""

from __future__ import annotations

from math import sqrt

import pytest
from catalogs import growth, measured, read_study, result, study
from scipy import stats
from statistics_reference import same

from build_tools.evidence.studies.arm_means import (
    ASSUMED,
    FROM_ZERO,
    Unusable,
    arm_log_mean,
    before_after,
    compared,
    groups,
)

T11, T22 = stats.t.ppf(0.975, 11), stats.t.ppf(0.975, 22)


#: What one arm of twelve people prints -> its squared coefficient of variation of the mean (arms alike, so that V = 2 c of groups).
ARMS = [
    ("sd", {"mean": 50.0, "sd": 10.0}, (10 / 50) ** 2 / 12),
    ("se", {"mean": 50.0, "se": 2.0}, (2 / 50) ** 2),
    ("95% interval of a mean, by t", {"mean": 50.0, "ci95": [45.0, 55.0]}, (5 / T11 / 50) ** 2),
    # Wan 2014 (closed form): SD = (q3 - q1) / (2 z((0.75 n - 0.125)/(n + 0.25))); Luo 2018: the mean of a symmetric set is its median.
    (
        "quartiles",
        {"median": 50.0, "quartiles": [44.0, 56.0]},
        (12 / (2 * stats.norm.ppf(8.875 / 12.25)) / 50) ** 2 / 12,
    ),
]


CHANGES = [
    ("change in per cent", {"change_percent": 10.0, "sd": 6.0}, (6 / 110) ** 2 / 12),
    # c of before and after less twice their covariance at the demo's correlation of 0.8
    (
        "before and after",
        {"pre": {"mean": 50.0, "sd": 10.0}, "post": {"mean": 55.0, "sd": 11.0}},
        (2 - 2 * 0.8) * (10 / 50) ** 2 / 12,
    ),
    (
        "before and after, SE",
        {"pre": {"mean": 50.0, "se": 2.0}, "post": {"mean": 55.0, "se": 2.2}},
        (2 - 2 * 0.8) * (2 / 50) ** 2,
    ),
]


@pytest.mark.parametrize(
    ("outcome", "value", "c"),
    [("activation", *row[1:]) for row in ARMS] + [("growth", *row[1:]) for row in CHANGES],
    ids=[row[0] for row in ARMS + CHANGES],
)
def test_spreads_of_arms(outcome, value, c):
    told = (growth if outcome == "growth" else result)({"a": value, "b": value})
    groups = measured(study([told], same=False, n=24, sizes={"a": 12, "b": 12}), outcome)
    same(groups.block.v, [[2 * c]], rel=1e-9)
    assert groups.block.y == pytest.approx([0], abs=1e-15)
    assert (groups.block.df, groups.how) == (22, "from the spreads printed for each exercise")
    paired = measured(study([told]), outcome, arms=0.3)
    same(paired.block.v, [[2 * c * (1 - 0.3)]], rel=1e-9)
    assert paired.imputed and paired.block.df == 11


def test_what_rests_on_an_imputed_correlation_says_so():
    groups = {"same": False, "n": 24, "sizes": {"a": 12, "b": 12}}
    assert not measured(study([result({"a": ARMS[0][1], "b": ARMS[0][1]})], **groups)).imputed
    before_and_after = study([growth({"a": CHANGES[1][1], "b": CHANGES[1][1]})], **groups)
    assert measured(before_and_after, "growth").imputed
    assert (
        measured(before_and_after, "growth", before_after=0.9).block.v
        < measured(before_and_after, "growth").block.v
    )


@pytest.mark.parametrize(
    ("more", "r", "whence"),
    [
        ({"correlation": 0.7}, 0.7, "printed"),
        # Cochrane Handbook, 6.5.2.8: (100 + 121 - 25) / 220
        (
            {"change": 5.0, "sd": 5.0},
            (100 + 121 - 25) / 220,
            "taken back from the spread of the change",
        ),
        ({}, 0.8, ASSUMED),
    ],
)
def test_how_alike_before_and_after_are(more, r, whence):
    value = {"pre": {"mean": 50.0, "sd": 10.0}, "post": {"mean": 55.0, "sd": 11.0}, **more}
    reading = read_study(study([growth({"a": value})]), "growth")
    found, told = before_after(reading, reading.result.values["a"], 12)
    assert (found, told) == (pytest.approx(r), whence)


@pytest.mark.parametrize("n", [4, 12, 100])
@pytest.mark.parametrize("off", [-0.01, 0.01])
def test_a_level_near_zero_has_no_ratio(n, off):
    """Geary's test as Lajeunesse applies it to log response ratios: mean over standard error of at least three."""
    sd = 10 * sqrt(n) / (FROM_ZERO + off)
    value = {"mean": 10.0, "sd": sd}
    reading = read_study(study([result({"a": value, "b": {"mean": 50.0, "sd": 5.0}})], n=n))
    if off > 0:
        assert arm_log_mean(reading, "a").c == pytest.approx(1 / (FROM_ZERO + off) ** 2)
        return
    with pytest.raises(
        Unusable, match="within three standard errors of zero, so no ratio can be taken"
    ):
        arm_log_mean(reading, "a")


@pytest.mark.parametrize(
    "value",
    [
        {"mean": 10.0, "se": 4.0},
        {"mean": 10.0, "ci95": [1.0, 19.0]},
        {"median": 10.0, "quartiles": [0.5, 19.5]},
    ],
    ids=["SE", "interval", "quartiles"],
)
def test_however_its_spread_is_printed(value):
    with pytest.raises(Unusable, match="three standard errors of zero"):
        arm_log_mean(read_study(study([result({"a": value})])), "a")


def test_a_change_near_zero_is_a_growth_factor_near_one():
    reading = read_study(study([growth({"a": {"change_percent": 1.0, "sd": 9.0}})]), "growth")
    assert arm_log_mean(reading, "a").y == pytest.approx(0.01, rel=0.2)


def test_the_people_of_the_arms_that_are_compared():
    data = study(
        [result({"a": {"mean": 5.0}})],
        {"a": "alder-curl", "b": "birch-curl", "c": "cedar-curl"},
        same=False,
        n=40,
    )
    typed = read_study(data).study
    assert compared(typed) == 40 and groups(typed) == 3
    sized = read_study(
        data
        | {
            "arms": {
                id: {**arm, "n": n}
                for (id, arm), n in zip(data["arms"].items(), (9, 10, 17), strict=True)
            }
        }
    ).study
    assert compared(sized) == 36 and groups(sized) is None
    assert compared(sized, {"alder-curl", "birch-curl"}) == 19
    assert compared(read_study(study([result({"a": {"mean": 5.0}})], n=12)).study) == 12
