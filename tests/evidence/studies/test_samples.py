"""Several measurements of the same people count once, and never make them more than they are."""

from dataclasses import replace
from math import log

import numpy as np
import pytest
from catalogs import LONG, SHORT, A, B, C, D, assembly, growth, of, result, samples_in, study
from hypothesis import given
from hypothesis import strategies as st
from statistics_reference import same

from build_tools.evidence.model.blocks import Block
from build_tools.evidence.settings import settings
from build_tools.evidence.studies.samples import Assembly, PooledTopic, combine

ARMS = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 10.0}}
OTHER = {"a": {"mean": 55.0, "sd": 9.0}, "b": {"mean": 45.0, "sd": 12.0}}


def samples(studies, part=LONG, outcome="activation", relative_to=None, **more):
    return samples_in(assembly(studies, **more), part, outcome, relative_to)


def test_one_measurement_is_one_sample_with_its_own_block():
    [sample] = samples({"one": study([result(ARMS)])})
    assert (sample.key, sample.block.study, sample.block.treatments, len(sample.pooled)) == (
        "one",
        "one",
        (A, B),
        1,
    )


@pytest.mark.parametrize("correlation", [0.0, 0.5, 1.0])
def test_sites_of_one_sample_are_averaged(correlation):
    [alone], [other] = (
        samples({"one": study([result(ARMS)])}),
        samples({"one": study([result(OTHER)])}),
    )
    two_sites = [result(ARMS, site={"said": "proximal"}), result(OTHER, site={"said": "distal"})]
    [both] = samples({"one": study(two_sites)}, sites=correlation)
    same(both.block.y, (alone.block.y + other.block.y) / 2, rel=1e-12)
    # The variance of a mean of two, their covariance being that share of the mean of theirs: by hand.
    same(both.block.v, (alone.block.v + other.block.v) / 2 * (1 + correlation) / 2, rel=1e-12)
    assert (both.block.df, len(both.pooled)) == (11, 2)


blocks = st.lists(
    st.tuples(st.floats(-1, 1), st.floats(1e-4, 1), st.integers(3, 40)), min_size=1, max_size=6
).map(lambda rows: [Block("one", (A, B), np.array([y]), np.array([[v]]), df) for y, v, df in rows])


@given(blocks)
def test_more_measurements_never_make_it_narrower_than_one(found):
    """At a correlation of 1 the variance is that of its parts on average, and the degrees of freedom those of the fewest people."""
    together = combine(found, 1.0)
    variances = [b.v[0, 0] for b in found]
    assert min(variances) <= together.v[0, 0] * (1 + 1e-12) and together.v[0, 0] == pytest.approx(
        np.mean(variances)
    )
    assert together.df == min(b.df for b in found)


@given(blocks.filter(lambda found: len(found) == 1), st.integers(1, 6), st.floats(0, 1))
def test_the_same_measurement_again_adds_nothing_at_full_correlation(found, times, correlation):
    again = combine(found * times, 1.0)
    assert again.y == pytest.approx(found[0].y) and again.v == pytest.approx(found[0].v)
    assert combine(found * times, correlation).v <= found[0].v * (1 + 1e-12)


def test_measurements_are_turned_alike_before_they_are_combined():
    three = {
        "a": {"mean": 50.0, "sd": 10.0},
        "b": {"mean": 40.0, "sd": 9.0},
        "c": {"mean": 60.0, "sd": 12.0},
    }
    turned = {arm: three[arm] for arm in "cab"}
    arms = {"a": A, "b": B, "c": C}
    [plain] = samples({"one": study([result(three)], arms)})
    [both] = samples(
        {
            "one": study(
                [result(three, site={"said": "proximal"}), result(turned, site={"said": "distal"})],
                arms,
            )
        }
    )
    assert both.block.treatments == plain.block.treatments
    same(both.block.y, plain.block.y, rel=1e-12)
    same(both.block.v, plain.block.v, rel=1e-12)


def test_two_publications_on_the_same_people_are_one_sample():
    [sample] = samples(
        {"one": study([result(ARMS)]), "two": study([result(OTHER)], same_sample_as="one")}
    )
    assert (sample.key, [s.study for s in sample.pooled]) == ("one", ["one", "two"])
    [alone] = samples({"one": study([result(ARMS)])})
    assert sample.block.v[0, 0] >= min(
        alone.block.v[0, 0], samples({"one": study([result(OTHER)])})[0].block.v[0, 0]
    )


@pytest.mark.parametrize(
    ("measured", "part", "index"),
    [("part", LONG, 0), ("together", LONG, 1), ("whole", "lantern", 2)],
)
def test_the_part_its_joint_number_and_the_whole_are_pooled_apart(measured, part, index):
    told = [result(ARMS), result(OTHER, parts=(LONG, SHORT)), result(ARMS, parts=("lantern",))]
    made = assembly({"one": study(told)})
    [sample] = made.samples(PooledTopic(part, "activation", None, measured))
    assert (
        [s.measured.result for s in sample.pooled]
        == [index]
        == [s.measured.result for s in sample.sources]
    )
    assert [s.cover for s in sample.pooled] == ["jointly" if measured == "together" else "alone"]


def test_dimensions_of_growth_are_pooled_apart_unless_their_conversion_is_declared():
    """Of a body that grows alike in all directions an area grows as the square of a thickness, a volume as its 1.5th power."""
    grown = {"a": {"change_percent": 9.0, "sd": 4.0}, "b": {"change_percent": 5.0, "sd": 4.0}}
    made = assembly({"one": study([growth(grown)])})
    [sample] = made.samples(PooledTopic(LONG, "growth", None, "part", "volume"))
    assert made.dimensions("growth") == ["volume"] and made.dimensions("activation") == [None]
    assert made.samples(PooledTopic(LONG, "growth", None, "part", "area")) == []
    catalog = of({"one": study([growth(grown)])})
    converted = Assembly(catalog, replace(settings(catalog), conversions={"volume": 2 / 3}))
    assert converted.dimensions("growth") == ["area"]
    [other] = converted.samples(PooledTopic(LONG, "growth", None, "part", "area"))
    same(other.block.y, sample.block.y * 2 / 3, rel=1e-12)
    same(other.block.v, sample.block.v * 4 / 9, rel=1e-12)


def test_a_pair_with_one_printed_contrast_keeps_it_as_printed():
    tests = [
        {"of": "a", "against": "b", "ratio": {"value": 1.2}, "t": 2.0},
        {"of": "c", "against": "b", "ratio": {"value": 1.5}, "t": 3.0},
        {"of": "c", "against": "a", "ratio": {"value": 1.3}, "t": 2.0},
    ]
    [sample] = samples({"one": study([result(contrasts=tests)], {"a": A, "b": B, "c": C})})
    (y, se), df = sample.own(B, A)
    assert (y, se, df) == pytest.approx((-log(1.2), log(1.2) / 2, 11))
    [plain] = samples({"one": study([result(ARMS)])})
    (y, se), df = plain.own(A, B)
    assert (y, se, df) == pytest.approx((-plain.block.y[0], plain.block.v[0, 0] ** 0.5, 11))
    assert plain.own(A, C) is None


def test_the_measurement_with_the_most_exercises_is_the_one_that_is_pooled():
    three = ARMS | {"c": {"mean": 60.0, "sd": 12.0}}
    [sample] = samples(
        {
            "one": study(
                [result(ARMS, site={"said": "proximal"}), result(three, site={"said": "distal"})],
                {"a": A, "b": B, "c": C},
            )
        }
    )
    assert set(sample.block.treatments) == {A, B, C} and len(sample.pooled) == 1


def test_same_people_keep_the_covariance_of_all_arms():
    """V = K S K' with S = r sqrt(c_i c_j), by hand for three arms."""
    three = ARMS | {"c": {"mean": 60.0, "sd": 12.0}}
    [sample] = samples({"one": study([result(three)], {"a": A, "b": B, "c": C})}, arms=0.6)
    c = np.array([(10 / 50) ** 2, (10 / 40) ** 2, (12 / 60) ** 2]) / 12
    s = 0.6 * np.sqrt(np.outer(c, c)) + 0.4 * np.diag(c)
    k = np.array([[-1, 1, 0], [-1, 0, 1]])
    same(sample.block.v, k @ s @ k.T, rel=1e-12)
    same(
        sample.block.y,
        [log(40 / 50) + (c[1] - c[0]) / 2, log(60 / 50) + (c[2] - c[0]) / 2],
        rel=1e-12,
    )


def test_outcomes_parts_and_ratios_stay_apart():
    catalog = of(
        {
            "one": study(
                [
                    result(ARMS),
                    result(ARMS, parts=(SHORT,)),
                    result(ARMS, relative_to=SHORT),
                    growth(
                        {
                            "a": {"change_percent": 9.0, "sd": 4.0},
                            "b": {"change_percent": 5.0, "sd": 4.0},
                        }
                    ),
                    result(
                        {
                            "a": {"change_percent": 9.0, "sd": 4.0},
                            "b": {"change_percent": 5.0, "sd": 4.0},
                        },
                        measure="one-repetition-maximum",
                    ),
                    result(ARMS, measure="fibre-angle"),
                ]
            )
        }
    )
    made = Assembly(catalog, settings(catalog))
    topics = [
        (LONG, "activation", None),
        (LONG, "activation", SHORT),
        (LONG, "architecture", None),
        (LONG, "growth", None),
        (LONG, "strength", None),
        (SHORT, "activation", None),
    ]
    assert made.fields() == topics
    for number, topic in zip((0, 2, 5, 3, 4, 1), topics, strict=True):
        [sample] = samples_in(made, *topic)
        assert [s.measured.result for s in sample.sources] == [number]


def test_a_review_is_no_sample():
    assert samples({"one": study([result(ARMS)], design="review")}) == []


def test_studies_of_one_exercise_raise_no_question():
    catalog = of({"one": study([result({"a": {"mean": 50.0, "sd": 10.0}})], {"a": A})})
    assert Assembly(catalog, settings(catalog)).fields() == []


def test_a_control_is_no_exercise():
    values = ARMS | {"rest": {"mean": 5.0, "sd": 2.0}}
    data = study([result(values)], {"a": A, "b": B})
    data["arms"]["rest"] = {"called": "rest"}
    [sample] = samples({"one": data})
    assert sample.block.treatments == (A, B)


def test_samples_come_in_the_order_of_their_names():
    made = {key: study([result(ARMS)], {"a": A, "b": D}) for key in ("zinc", "alum", "mica")}
    assert [s.key for s in samples(made)] == ["alum", "mica", "zinc"]
