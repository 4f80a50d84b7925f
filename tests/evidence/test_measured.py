"""From what a paper prints to a block: every way to a spread, every way without one, and every refusal.

Worked examples of the Cochrane Handbook stand in ``statistics.yaml`` with their
source; the sums in the tables below are by hand from the formula named beside them.
"""

from math import exp, log, sqrt

import numpy as np
import pytest
from catalogs import A, B, C, growth, measured, of, result, study
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from statistics_reference import entry, expect, same

from build_tools.catalog.entries import Contrast
from build_tools.evidence.errors import EvidenceError
from build_tools.evidence.settings import settings
from build_tools.evidence.studies.arm_blocks import correlations
from build_tools.evidence.studies.arm_means import arm_log_mean
from build_tools.evidence.studies.printed_contrasts import contrast_log_ratio
from build_tools.evidence.studies.reading import Reading
from build_tools.evidence.studies.samples import Assembly

COVERS = {
    "es_sd_from_p_two_groups",
    "es_sd_from_t_two_groups",
    "es_sd_from_md_ci_t",
    "es_sd_diff_from_paired",
    "es_r_from_paired_t",
    "es_multiarm_rom_independent",
}

TEST = {"of": "a", "against": "b", "test": "between"}


def read_study(data: dict) -> Reading:
    """The first result of an invented study of activation."""
    catalog = of({"one": data})
    typed = catalog.studies["one"].data
    return Reading(typed, typed.results[0], "activation", settings(catalog))


def read(told: dict) -> Reading:
    return read_study(study([told]))


def standard_error(md: float, df: float, **contrast) -> float:
    """Standard error of a difference of two means as the engine takes it back.

    On the log scale it is divided by the means' logarithmic mean, so that it stays the same number of standard errors.
    """
    told = read(result({"a": {"mean": 20.0 + md}, "b": {"mean": 20.0}}, [TEST | contrast]))
    estimate, _ = contrast_log_ratio(told, told.result.contrasts[0], df)
    assert estimate.y == pytest.approx(log((20 + md) / 20), rel=1e-12)
    return estimate.se * md / estimate.y


def test_cochrane_standard_error_from_an_exact_p_of_two_groups():
    given = entry("es_sd_from_p_two_groups")["inputs"]
    expect(
        "es_sd_from_p_two_groups",
        standard_error(given["md"], given["n1"] + given["n2"] - 2, p=given["p"]),
        "se",
    )


def test_cochrane_standard_error_from_t_of_two_groups():
    given = entry("es_sd_from_t_two_groups")["inputs"]
    expect("es_sd_from_t_two_groups", standard_error(given["md"], 78, t=given["t"]), "se")


def test_cochrane_standard_error_from_the_interval_of_a_difference():
    given = entry("es_sd_from_md_ci_t")["inputs"]
    middle = (given["l"] + given["u"]) / 2
    difference = {"value": middle, "unit": "% MVIC", "ci95": [given["l"], given["u"]]}
    expect(
        "es_sd_from_md_ci_t",
        standard_error(middle, given["n1"] + given["n2"] - 2, difference=difference),
        "se",
    )


def test_cochrane_spread_of_paired_differences():
    given = entry("es_sd_diff_from_paired")["inputs"]
    n, md = given["n"], given["md"]
    expect(
        "es_sd_diff_from_paired",
        standard_error(md, n - 1, t=given["t"]) * sqrt(n),
        "sd_diff_from_t",
    )
    difference = {"value": float(md), "unit": "% MVIC", "ci95": [given["l"], given["u"]]}
    expect(
        "es_sd_diff_from_paired",
        standard_error(md, n - 1, difference=difference) * sqrt(n),
        "sd_diff_from_ci",
    )


def test_three_independent_arms_keep_the_covariance_of_their_shared_arm():
    given = entry("es_multiarm_rom_independent")["inputs"]
    values = {
        arm: {"mean": float(m), "sd": float(sd)}
        for arm, m, sd in zip("abc", given["m"], given["sd"], strict=True)
    }
    sizes = dict(zip("abc", given["n"], strict=True))
    block = measured(
        study([result(values)], {"a": A, "b": B, "c": C}, same=False, n=36, sizes=sizes)
    ).block
    expect("es_multiarm_rom_independent", block.v, "V")
    c = [(sd / m) ** 2 / n for m, sd, n in zip(given["m"], given["sd"], given["n"], strict=True)]
    expect(
        "es_multiarm_rom_independent", block.y - (np.array(c[1:]) - c[0]) / 2, "yi"
    )  # less the small-sample correction
    assert block.df == 36 - 3


def test_a_correlation_is_taken_back_from_a_paired_t():
    """The reference is exact for differences; ratios use the same to first order, so they agree to two digits."""
    given = entry("es_r_from_paired_t")["inputs"]
    data = study(
        [
            result(
                {
                    "a": {"mean": given["m1"], "sd": given["sd1"]},
                    "b": {"mean": given["m2"], "sd": given["sd2"]},
                },
                [TEST | {"t": -given["t"]}],
            )
        ],
        n=given["n"],
    )
    reading = read_study(data)
    arms = {arm: arm_log_mean(reading, arm) for arm in reading.result.values}
    matrix, taken_back, _ = correlations(reading, arms)
    assert taken_back == 1
    assert matrix[0, 1] == pytest.approx(entry("es_r_from_paired_t")["expected"]["r"], abs=5e-3)
    block, without = measured(data).block, measured(data, arms=0.1).block
    same(
        abs(block.y[0]) / sqrt(block.v[0, 0]), given["t"], rel=5e-3
    )  # only the small-sample correction of y is beside the printed t
    assert without.v == pytest.approx(block.v), (
        "the printed test decides, whatever the handbook imputes"
    )
    assert not measured(data).imputed


@pytest.mark.parametrize(
    "contrast",
    [{"t": 2.1}, {"p": 0.9}, {"p": 1e-12}, {"favours": "of"}],
    ids=["below 0", "below -1", "above 1", "direction"],
)
def test_a_test_that_fits_no_correlation_leaves_the_handbooks(contrast):
    arms = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 10.0}}
    found = measured(study([result(arms, [TEST | contrast])]), arms=0.5)
    plain = measured(study([result(arms)]), arms=0.5)
    assert (
        found.block.v == pytest.approx(plain.block.v) and found.imputed and found.how == plain.how
    )


@pytest.mark.parametrize(
    ("means", "contrast", "moved"),
    [
        (
            (50.0, 40.0),
            {"p_below": 0.001, "favours": "of"},
            True,
        ),  # significant: at least so much alike
        ((50.0, 40.0), {"p_below": 0.5, "favours": "of"}, False),  # as the handbook has it already
        (
            (50.0, 43.0),
            {"p_above": 0.05, "favours": "neither"},
            True,
        ),  # not significant: at most so much alike
        ((50.0, 43.0), {"favours": "neither"}, True),  # no difference, at the level that papers use
        ((50.0, 49.5), {"p_above": 0.05, "favours": "neither"}, False),
    ],
    ids=[
        "significant",
        "hardly a bound",
        "not significant",
        "no difference",
        "hardly a difference",
    ],
)
def test_a_printed_bound_is_not_undercut(means, contrast, moved):
    """Student's t by scipy: the interval of the two arms leaves out no difference if and only if the paper's test did."""
    arms = {arm: {"mean": mean, "sd": 10.0} for arm, mean in zip("ab", means, strict=True)}
    told = measured(study([result(arms, [TEST | contrast])]), arms=0.5)
    plain = measured(study([result(arms)]), arms=0.5)
    assert (told.block.v != pytest.approx(plain.block.v)) == moved and told.imputed
    t = abs(told.block.y[0]) / sqrt(told.block.v[0, 0])
    p = 2 * stats.t.sf(t, told.block.df)
    if "p_below" in contrast:
        assert p <= contrast["p_below"]
    else:
        assert p >= 0.05 - 1e-4


def test_correlations_that_contradict_each_other_are_not_believed():
    """r(ab) and r(ac) near 1 with r(bc) near 0 cannot be of the same people."""
    arms = {
        arm: {"mean": mean, "sd": 10.0} for arm, mean in (("a", 50.0), ("b", 45.0), ("c", 40.0))
    }
    c = 10.0 / sqrt(12)
    tests = [
        {"of": "a", "against": "b", "t": 5 / (c * sqrt(2 * 0.05))},
        {"of": "a", "against": "c", "t": 10 / (c * sqrt(2 * 0.05))},
        {"of": "b", "against": "c", "t": 5 / (c * sqrt(2 * 0.95))},
    ]
    three = {"a": A, "b": B, "c": C}
    assert measured(study([result(arms, tests)], three)).block.v == pytest.approx(
        measured(study([result(arms)], three)).block.v
    )
    partly = measured(study([result(arms, tests[:1])], three))
    assert partly.imputed and "paired test" in partly.how, "one pair is known and two are imputed"


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


MEANS = {"a": {"mean": 50.0}, "b": {"mean": 40.0}}
LOGARITHMIC_MEAN = 10 / log(50 / 40)
GROWN = {"a": {"change_percent": 14.0}, "b": {"change_percent": 9.0}}
GROWN_MEAN = 0.05 / log(1.14 / 1.09)

#: What the paper prints of a contrast of twelve people -> its standard error on the log scale.
CONTRASTS = [
    (
        "exact p",
        MEANS,
        {"p": 0.01},
        10 / stats.t.ppf(0.995, 11) / LOGARITHMIC_MEAN,
        "taken back from the exact p value",
    ),
    # A bound is a bound: p < 0.01 is a millionth inside p = 0.01, so that no last digit decides what the interval leaves out.
    (
        "bound on p",
        MEANS,
        {"p_below": 0.01},
        (1 - 1e-6) * 10 / stats.t.ppf(0.995, 11) / LOGARITHMIC_MEAN,
        "taken back from a bound on p, so wider than it may be",
    ),
    ("t", MEANS, {"t": 2.5}, 4 / LOGARITHMIC_MEAN, "taken back from t"),
    ("t before p", MEANS, {"t": 2.5, "p": 0.01}, 4 / LOGARITHMIC_MEAN, "taken back from t"),
    (
        "exact p before its bound",
        MEANS,
        {"p": 0.03, "p_below": 0.05},
        10 / stats.t.ppf(0.985, 11) / LOGARITHMIC_MEAN,
        "taken back from the exact p value",
    ),
    (
        "SE of the difference",
        MEANS,
        {"difference": {"value": 10.0, "unit": "% MVIC", "se": 3.0}},
        3 / LOGARITHMIC_MEAN,
        "from the printed spread of the difference",
    ),
    (
        "SD of the differences",
        MEANS,
        {"difference": {"value": 10.0, "unit": "% MVIC", "sd": 9.0}},
        9 / sqrt(12) / LOGARITHMIC_MEAN,
        "from the printed spread of the difference",
    ),
    (
        "interval of the difference",
        MEANS,
        {"difference": {"value": 10.0, "unit": "% MVIC", "ci95": [4.0, 16.0]}},
        6 / T11 / LOGARITHMIC_MEAN,
        "from the printed spread of the difference",
    ),
    (
        "interval of the ratio",
        None,
        {"ratio": {"value": 1.25, "ci95": [1.1, 1.25**2 / 1.1]}},
        log(1.25 / 1.1) / T11,
        "from the printed interval of the ratio",
    ),
    (
        "ratio with p",
        None,
        {"ratio": {"value": 1.25}, "p": 0.02},
        log(1.25) / stats.t.ppf(0.99, 11),
        "taken back from the exact p value",
    ),
    (
        "ratio with t",
        None,
        {"ratio": {"value": 0.8}, "t": -2.0},
        log(1.25) / 2,
        "taken back from t",
    ),
]
GROWTH_CONTRASTS = [
    (
        "growth, exact p",
        GROWN,
        {"p": 0.01},
        0.05 / stats.t.ppf(0.995, 11) / GROWN_MEAN,
        "taken back from the exact p value",
    ),
    (
        "growth, interval of the difference in points",
        GROWN,
        {"difference": {"value": 5.0, "unit": "%", "ci95": [2.0, 8.0]}},
        0.03 / T11 / GROWN_MEAN,
        "from the printed spread of the difference",
    ),
]


@pytest.mark.parametrize(
    ("outcome", "values", "contrast", "se", "how"),
    [("activation", *row[1:]) for row in CONTRASTS]
    + [("growth", *row[1:]) for row in GROWTH_CONTRASTS],
    ids=[row[0] for row in CONTRASTS + GROWTH_CONTRASTS],
)
def test_spreads_taken_back_from_contrasts(outcome, values, contrast, se, how):
    told = (growth if outcome == "growth" else result)(values, [TEST | contrast])
    found = measured(study([told]), outcome)
    same(found.block.v, [[se**2]], rel=1e-9)
    assert (found.how, found.block.treatments, found.block.df, found.imputed) == (
        how,
        (A, B),
        11,
        False,
    )
    ratio = (
        contrast["ratio"]["value"]
        if values is None
        else 50 / 40
        if values is MEANS
        else 1.14 / 1.09
    )
    assert exp(-found.block.y[0]) == pytest.approx(ratio), "the block runs second against first"


def test_groups_use_the_degrees_of_freedom_of_both():
    found = measured(
        study([result(MEANS, [TEST | {"p": 0.01}])], same=False, n=24, sizes={"a": 12, "b": 12})
    )
    same(found.block.v, [[(10 / stats.t.ppf(0.995, 22) / LOGARITHMIC_MEAN) ** 2]], rel=1e-9)
    assert found.block.df == 22


WITHOUT = [
    ("only a direction", result(contrasts=[TEST | {"favours": "of"}]), "no spread reported"),
    ("means alone", result(MEANS), "no spread reported"),
    ("means and a direction", result(MEANS, [TEST | {"favours": "of"}]), "no spread reported"),
    (
        "p above a bound",
        result(MEANS, [TEST | {"p_above": 0.05}]),
        "its p value does not say how wide the spread is",
    ),
    (
        "p of 1",
        result(MEANS, [TEST | {"p": 1.0}]),
        "its p value does not say how wide the spread is",
    ),
    ("p without amounts", result(contrasts=[TEST | {"p": 0.01}]), "no spread reported"),
    (
        "equal means with p",
        result({"a": {"mean": 50.0}, "b": {"mean": 50.0}}, [TEST | {"p": 0.5}]),
        "two equal numbers with a test have no spread to take back",
    ),
    (
        "ratio of 1 with p",
        result(contrasts=[TEST | {"ratio": {"value": 1.0}, "p": 0.5}]),
        "two equal numbers with a test have no spread to take back",
    ),
    ("ratio alone", result(contrasts=[TEST | {"ratio": {"value": 1.2}}]), "no spread reported"),
    (
        "difference in another unit",
        result(MEANS, [TEST | {"difference": {"value": 0.1, "unit": "mV", "se": 0.02}}]),
        "no spread reported",
    ),
    (
        "standardised difference",
        result(
            MEANS, [TEST | {"standardised": {"kind": "Cohen d", "value": 0.5, "ci95": [0.1, 0.9]}}]
        ),
        "no spread reported",
    ),
    (
        "median alone",
        result({"a": {"median": 50.0}, "b": {"median": 40.0}}),
        "a median without its quartiles has no spread",
    ),
    (
        "change of activation",
        result({"a": {"change": 5.0, "sd": 2.0}, "b": {"change": 4.0, "sd": 2.0}}),
        "a change over time is no amount of this outcome",
    ),
    (
        "activation before and after",
        result(dict.fromkeys("ab", CHANGES[1][1])),
        "a change over time is no amount of this outcome",
    ),
    (
        "values that are no amounts",
        result({"a": ARMS[0][1], "b": ARMS[0][1]}, measure="signal-shift"),
        "values of this measure are no amounts whose ratio could be taken",
    ),
    (
        "too wide",
        result({"a": {"mean": 1.0, "sd": 200.0}, "b": {"mean": 1.0, "sd": 200.0}}),
        "its interval is too wide to say anything",
    ),
]
GROWTH_WITHOUT = [
    (
        "growth as a level",
        growth(dict.fromkeys("ab", {"mean": 50.0, "sd": 10.0})),
        "a level after training is no change",
    ),
    (
        "growth as a median",
        growth(dict.fromkeys("ab", {"median": 50.0, "quartiles": [44.0, 56.0]})),
        "a level after training is no change",
    ),
    (
        "growth as a plain change",
        growth(dict.fromkeys("ab", {"change": 3.0, "sd": 1.0})),
        "a change without the value before it has no ratio",
    ),
    (
        "growth as a plain change with p",
        growth({"a": {"change": 3.0}, "b": {"change": 2.0}}, [TEST | {"p": 0.01}]),
        "a change without the value before it has no ratio",
    ),
    (
        "before and after without spread",
        growth(
            {
                a: {"pre": {"mean": 50.0}, "post": {"mean": 50.0 + k}}
                for a, k in (("a", 5), ("b", 4))
            },
            [TEST],
        ),
        "no spread reported",
    ),
]


@pytest.mark.parametrize(
    ("outcome", "told", "reason"),
    [("activation", *row[1:]) for row in WITHOUT]
    + [("growth", *row[1:]) for row in GROWTH_WITHOUT],
    ids=[row[0] for row in WITHOUT + GROWTH_WITHOUT],
)
def test_what_gives_no_spread_is_listed_with_the_reason(outcome, told, reason):
    found = measured(study([told]), outcome)
    assert (found.block, found.how) == (None, reason)


@pytest.mark.parametrize(
    "told", [result({"a": ARMS[0][1], "b": ARMS[0][1]}), result(MEANS, [TEST | {"p": 0.01}])]
)
def test_groups_of_unknown_size_are_listed(told):
    found = measured(study([told], same=False))
    assert (found.block, found.how) == (None, "group sizes were not read")


def test_architecture_is_listed_only():
    told = result(
        dict.fromkeys("ab", {"mean": 12.0, "sd": 2.0}), measure="fibre-angle", unit="degrees"
    )
    found = measured(study([told]), "architecture")
    assert (found.block, found.how) == (None, "this outcome is listed only")


IMPOSSIBLE = [
    ("SD 0", result({"a": {"mean": 50.0, "sd": 0.0}, "b": ARMS[0][1]}), "zero"),
    (
        "SE 0 of a difference",
        result(MEANS, [TEST | {"difference": {"value": 10.0, "unit": "% MVIC", "se": 0.0}}]),
        "zero",
    ),
    ("negative mean", result({"a": {"mean": -5.0, "sd": 1.0}, "b": ARMS[0][1]}), "above zero"),
    (
        "zero mean",
        result({"a": {"mean": 0.0}, "b": {"mean": 5.0}}, [TEST | {"p": 0.01}]),
        "above zero",
    ),
    (
        "interval the wrong way round",
        result({"a": {"mean": 50.0, "ci95": [55.0, 45.0]}, "b": ARMS[0][1]}),
        "lower limit comes first",
    ),
    (
        "ratio outside its interval",
        result(contrasts=[TEST | {"ratio": {"value": 2.0, "ci95": [1.1, 1.4]}}]),
        "does not lie in",
    ),
    ("t against the means", result(MEANS, [TEST | {"t": -2.5}]), "opposite ways"),
    (
        "quartiles out of order",
        result({"a": {"median": 60.0, "quartiles": [44.0, 56.0]}, "b": ARMS[0][1]}),
        "in order",
    ),
]


@pytest.mark.parametrize(
    ("outcome", "told", "says"),
    [("activation", *row[1:]) for row in IMPOSSIBLE]
    + [
        (
            "growth",
            growth(
                {
                    "a": {"change_percent": -100.0, "sd": 5.0},
                    "b": {"change_percent": 5.0, "sd": 5.0},
                }
            ),
            "leaves nothing",
        ),
        (
            "growth",
            growth(
                {"a": {"change_percent": -100.0}, "b": {"change_percent": 5.0}},
                [TEST | {"p": 0.01}],
            ),
            "leaves nothing",
        ),
    ],
    ids=[row[0] for row in IMPOSSIBLE] + ["all lost", "all lost, with p"],
)
def test_numbers_that_cannot_be_weighed_are_a_finding_and_no_block(outcome, told, says):
    catalog = of({"one": study([told])})
    assembly = Assembly(catalog, settings(catalog))
    for _ in range(2):  # asking again reports nothing twice
        [sample] = assembly.samples("lantern/long-head", outcome)
    assert (
        sample.block is None and sample.sources[0].measured.how == "its numbers cannot be weighed"
    )
    [finding] = assembly.trouble
    assert finding.rule == "unusable-number" and says in finding.message


def test_one_person_has_no_spread():
    catalog = of({"one": study([result(dict.fromkeys("ab", ARMS[0][1]))], n=1)})
    assembly = Assembly(catalog, settings(catalog))
    assert assembly.samples("lantern/long-head", "activation")[0].block is None
    assert "at least 2" in assembly.trouble[0].message


def test_arms_that_leave_a_contrast_all_but_no_variance_are_refused():
    """Two tiny spreads beside a wide one: the network's arithmetic could not hold such a block."""
    values = {
        "a": {"mean": 50.0, "sd": 30.0},
        "b": {"mean": 50.0, "sd": 1e-7},
        "c": {"mean": 50.0, "sd": 1e-7},
    }
    catalog = of(
        {
            "one": study(
                [result(values)],
                {"a": A, "b": B, "c": C},
                same=False,
                n=36,
                sizes=dict.fromkeys("abc", 12),
            )
        }
    )
    assembly = Assembly(catalog, settings(catalog))
    assert assembly.samples("lantern/long-head", "activation")[0].block is None and assembly.trouble


def test_several_arms_of_one_exercise_stand_for_it_with_their_average():
    values = {
        "a": {"mean": 50.0, "sd": 10.0},
        "also": {"mean": 60.0, "sd": 12.0},
        "b": {"mean": 40.0, "sd": 8.0},
    }
    block = measured(
        study(
            [result(values)],
            {"a": A, "also": A, "b": B},
            same=False,
            n=36,
            sizes=dict.fromkeys(values, 12),
        )
    ).block
    c = 0.04 / 12
    assert block.treatments == (A, B)
    same(
        block.y, [log(40) - (log(50) + log(60)) / 2], rel=1e-9
    )  # the corrections of alike arms cancel
    same(block.v, [[c + c / 2]], rel=1e-9)


def test_contrasts_that_share_an_arm_keep_half_of_their_variance_in_common():
    tests = [
        {"of": "b", "against": "a", "ratio": {"value": 1.2}, "t": 2.0},
        {"of": "c", "against": "a", "ratio": {"value": 1.5}, "t": 3.0},
    ]
    block = measured(study([result(contrasts=tests)], {"a": A, "b": B, "c": C})).block
    seen = dict(zip(block.treatments[1:], block.y, strict=True))
    base = block.treatments[0]
    effect = {base: 0.0} | seen
    assert effect[B] - effect[A] == pytest.approx(log(1.2)) and effect[C] - effect[
        A
    ] == pytest.approx(log(1.5))
    v = np.zeros((3, 3))
    v[1:, 1:] = block.v
    at = {t: n for n, t in enumerate(block.treatments)}
    k = np.zeros((2, 3))
    k[0, at[B]], k[0, at[A]], k[1, at[C]], k[1, at[A]] = 1, -1, 1, -1
    se = log(1.2) / 2, log(1.5) / 3
    same(k @ v @ k.T, [[se[0] ** 2, se[0] * se[1] / 2], [se[0] * se[1] / 2, se[1] ** 2]], rel=1e-9)


def test_a_contrast_that_hangs_together_with_no_other_is_left_out_of_the_block():
    tests = [
        {"of": "a", "against": "b", "ratio": {"value": 1.2}, "t": 2.0},
        {"of": "b", "against": "c", "ratio": {"value": 1.5}, "t": 3.0},
        {"of": "d", "against": "e", "ratio": {"value": 1.1}, "t": 1.0},
    ]
    arms = {
        "a": "alder-curl",
        "b": "birch-curl",
        "c": "cedar-curl",
        "d": "dogwood-curl",
        "e": "elder-curl",
    }
    assert set(measured(study([result(contrasts=tests)], arms)).block.treatments) == {A, B, C}


@given(
    values=st.lists(st.floats(1e-8, 1e8), min_size=4, max_size=4),
    n=st.integers(1, 40),
    r=st.floats(0, 0.95),
)
def test_any_positive_numbers_give_a_block_a_reason_or_a_finding(values, n, r):
    told = result(
        {"a": {"mean": values[0], "sd": values[1]}, "b": {"mean": values[2], "sd": values[3]}}
    )
    found = measured(study([told], n=n), arms=r)
    if found.block:
        assert found.block.v[0, 0] > 0 and np.isfinite(found.block.y).all()
    else:
        assert found.how in (
            "its interval is too wide to say anything",
            "its numbers cannot be weighed",
        )


def test_a_contrast_of_impossible_degrees_of_freedom_is_refused():
    contrast = Contrast(of="a", against="b", test="between", p=0.01)
    with pytest.raises(EvidenceError):
        contrast_log_ratio(read(result(MEANS)), contrast, 0.0)
