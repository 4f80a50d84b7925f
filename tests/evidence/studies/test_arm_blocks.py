"""Blocks of arms with a spread each: how alike the same people's arms are, and that no printed test is undercut.

Published: a worked example of the correlation behind a paired t, and of three independent arms (``statistics.yaml``).
"""

from __future__ import annotations

from math import log, sqrt

import numpy as np
import pytest
from catalogs import A, B, C, measured, read_study, result, study
from hypothesis import given
from hypothesis import settings as examples
from hypothesis import strategies as st
from scipy import stats
from statistics_reference import entry, expect, same

from build_tools.evidence.model.network import pair_of
from build_tools.evidence.studies.arm_blocks import correlations
from build_tools.evidence.studies.arm_means import arm_log_mean

COVERS = {"es_r_from_paired_t", "es_multiarm_rom_independent"}


TEST = {"of": "a", "against": "b", "test": "between"}


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
    matrix, taken_back = correlations(reading, arms)
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
    "contrast", [{"p": 1e-12}, {"favours": "of"}], ids=["above 1", "direction"]
)
def test_a_test_that_fits_no_correlation_leaves_the_handbooks(contrast):
    """A paired test that no correlation below 1 could give was of something else, and a bare direction fits any."""
    arms = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 10.0}}
    found = measured(study([result(arms, [TEST | contrast])]), arms=0.5)
    plain = measured(study([result(arms)]), arms=0.5)
    assert (
        found.block.v == pytest.approx(plain.block.v) and found.imputed and found.how == plain.how
    )


@pytest.mark.parametrize("contrast", [{"t": 2.1}, {"p": 0.9}], ids=["below 0", "below -1"])
def test_a_printed_test_is_never_undercut(contrast):
    """A test that is milder than even unrelated arms would be: the spread is at least the one that gives the printed t (scipy)."""
    arms = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 10.0}}
    found = measured(study([result(arms, [TEST | contrast])]), arms=0.5)
    t = contrast.get("t") or stats.t.ppf(1 - contrast["p"] / 2, 11)
    between = 10 / log(50 / 40)  # the logarithmic mean, see ``printed_contrasts``
    assert sqrt(found.block.v[0, 0]) == pytest.approx(10 / t / between, rel=1e-9)
    assert found.block.v > measured(study([result(arms)]), arms=0.5).block.v


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
    told, plain = (measured(study([result(arms, some)], three)).block for some in (tests, None))
    # The handbook's correlations, all wider by what the widest printed test asks for.
    by = told.v / plain.v
    assert by == pytest.approx(np.full((2, 2), by[0, 0])) and by[0, 0] >= 1
    printed = c * sqrt(2 * 0.95) / (5 / log(45 / 40))
    assert pair_of(told, B, C).se == pytest.approx(printed, rel=1e-6)
    partly = measured(study([result(arms, tests[:1])], three))
    assert partly.imputed and "paired test" in partly.how, "one pair is known and two are imputed"


@given(
    st.lists(st.tuples(st.integers(20, 90), st.integers(3, 15)), min_size=2, max_size=3),
    st.lists(st.sampled_from([0.001, 0.03, 0.2, 0.7, "above", "below"]), min_size=3, max_size=3),
    st.booleans(),
)
@examples(max_examples=60)
def test_no_block_is_surer_than_a_test_its_paper_prints(values, tests, same_people):
    """Own interval without spread between studies, against the printed p or bound, for every pair of up to three arms."""
    ids = "abc"[: len(values)]
    arms = {
        id: {"mean": float(m), "sd": float(sd)} for id, (m, sd) in zip(ids, values, strict=True)
    }
    contrasts = []
    for (i, j), test in zip([("a", "b"), ("b", "c"), ("c", "a")], tests, strict=True):
        if not {i, j} <= set(ids) or arms[i]["mean"] == arms[j]["mean"]:
            continue
        ahead = "of" if arms[i]["mean"] > arms[j]["mean"] else "against"
        told = {
            "above": {"p_above": 0.05, "favours": "neither"},
            "below": {"p_below": 0.05, "favours": ahead},
        }
        contrasts.append({"of": i, "against": j, "favours": ahead} | told.get(test, {"p": test}))
    sizes = None if same_people else dict.fromkeys(ids, 9)
    data = study(
        [result(arms, contrasts)],
        dict(zip(ids, (A, B, C), strict=False)),
        same=same_people,
        n=9 * (1 if same_people else len(ids)),
        sizes=sizes,
    )
    found = measured(data)
    if found.block is None:
        return
    of = dict(zip("abc", (A, B, C), strict=True))
    df = 8 if same_people else 16
    for told in contrasts:
        pair = pair_of(found.block, of[told["of"]], of[told["against"]])
        p = 2 * stats.t.sf(abs(pair.estimate) / pair.se, df)
        if "p" in told:
            # The printed t is of the difference, the ratio's has the small-sample correction beside it.
            mean, other = arms[told["of"]]["mean"], arms[told["against"]]["mean"]
            printed = abs(log(mean / other)) / stats.t.ppf(1 - told["p"] / 2, df)
            assert pair.se >= printed * (1 - 1e-6)
        elif "p_above" in told:
            assert p >= 0.05 * (1 - 1e-6)


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
