"""Two parts measured in the same repetitions of one exercise."""

from math import log, sqrt

import pytest
from catalogs import LONG, SHORT, A, B, answer, engine, growth, of, result, study
from scipy import stats
from statistics_reference import same

from build_tools.evidence.settings import settings
from build_tools.evidence.studies import within_exercise as within
from build_tools.evidence.studies.samples import Assembly
from build_tools.evidence.terms import Question

BETWEEN = {"of": "a", "against": "a", "of_part": LONG, "against_part": SHORT}


def parts(long, short, **more):
    return [result({"a": long}, **more), result({"a": short}, parts=(SHORT,), **more)]


SPREADS = parts({"mean": 50.0, "sd": 10.0}, {"mean": 40.0, "sd": 10.0})


def samples(studies, first=LONG, second=SHORT, outcome="activation", **more):
    catalog = of(studies, **more)
    assembly = Assembly(catalog, settings(catalog))
    return within.samples(assembly, A, first, second, outcome), assembly.trouble


def test_the_spreads_of_both_parts_give_their_ratio():
    [sample], _ = samples({"one": study(SPREADS)}, parts=0.3)
    c = (10 / 50) ** 2 / 12, (10 / 40) ** 2 / 12
    same(sample.block.y, [log(40 / 50) + (c[1] - c[0]) / 2], rel=1e-12)
    same(sample.block.v, [[c[0] + c[1] - 2 * 0.3 * sqrt(c[0] * c[1])]], rel=1e-12)
    assert (sample.block.treatments, sample.block.df, sample.pooled[0].measured.imputed) == (
        (LONG, SHORT),
        11,
        True,
    )


@pytest.mark.parametrize("turned", [False, True])
def test_a_printed_ratio_of_the_parts_comes_before_their_spreads(turned):
    contrast = (
        {
            "of": "a",
            "against": "a",
            "of_part": SHORT,
            "against_part": LONG,
            "ratio": {"value": 0.8, "ci95": [0.7, 0.8**2 / 0.7]},
        }
        if turned
        else BETWEEN | {"ratio": {"value": 1.25, "ci95": [1.25**2 * 0.7, 1 / 0.7]}}
    )
    [sample], _ = samples(
        {"one": study([*SPREADS, result(contrasts=[contrast], parts=(LONG, SHORT))])}
    )
    same(sample.block.y, [log(0.8)], rel=1e-9)
    same(sample.block.v, [[(log(0.8 / 0.7) / stats.t.ppf(0.975, 11)) ** 2]], rel=1e-9)
    assert sample.pooled[0].measured.how == "from the printed interval of the ratio"


def test_a_stated_direction_does_not_hide_the_spreads():
    stated = result(contrasts=[BETWEEN | {"favours": "of", "p_below": 0.05}], parts=(LONG, SHORT))
    [plain], _ = samples({"one": study(SPREADS)})
    [both], _ = samples({"one": study([stated, *SPREADS])})
    assert both.block.y == pytest.approx(plain.block.y) and both.block.v == pytest.approx(
        plain.block.v
    )


@pytest.mark.parametrize(
    ("results", "reason"),
    [
        (
            [result(contrasts=[BETWEEN | {"favours": "of"}], parts=(LONG, SHORT))],
            "no spread reported",
        ),
        (
            [
                result(
                    contrasts=[BETWEEN | {"favours": "of"}],
                    parts=(LONG, SHORT),
                    measure="signal-shift",
                )
            ],
            "values of this measure are no amounts whose ratio could be taken",
        ),
        (parts({"mean": 50.0}, {"mean": 40.0}), "no spread reported"),
    ],
)
def test_parts_without_a_spread_are_listed(results, reason):
    [sample], _ = samples({"one": study(results)})
    assert (sample.block, {s.measured.how for s in sample.sources}) == (None, {reason})
    (row,) = answer({"one": study(results)}, LONG, SHORT, within=A).rows
    how = "weighed with a spread borrowed from other studies"
    if row.ratio is None:
        how = "only its direction is weighed"
    assert (row.estimate, row.direction, row.how) == (None, "more", f"{how}: {reason}")


def test_groups_of_unknown_size_are_listed():
    stated = result(
        contrasts=[BETWEEN | {"ratio": {"value": 1.2, "ci95": [1.1, 1.3]}}], parts=(LONG, SHORT)
    )
    [sample], _ = samples({"one": study([stated], same=False)})
    assert sample.sources[0].measured.how == "group sizes were not read"


@pytest.mark.parametrize(
    "results",
    [
        parts({"mean": 50.0, "sd": 0.0}, {"mean": 40.0, "sd": 10.0}),
        parts({"mean": -1.0, "sd": 1.0}, {"mean": 40.0, "sd": 10.0}),
        [
            result(
                contrasts=[BETWEEN | {"ratio": {"value": 2.0, "ci95": [1.1, 1.3]}}],
                parts=(LONG, SHORT),
            )
        ],
    ],
)
def test_impossible_numbers_are_a_finding_and_no_exception(results):
    [sample], trouble = samples({"one": study(results)})
    assert sample.block is None and [f.rule for f in trouble] == ["unusable-number"]


def test_asking_again_finds_nothing_twice():
    catalog = of({"one": study(parts({"mean": 50.0, "sd": 0.0}, {"mean": 40.0, "sd": 10.0}))})
    assembly = Assembly(catalog, settings(catalog))
    for pair in ((LONG, SHORT), (LONG, SHORT)):
        within.samples(assembly, A, *pair, "activation")
    assert len(assembly.trouble) == 1


def test_one_person_has_no_spread():
    [sample], trouble = samples({"one": study(SPREADS, n=1)})
    assert sample.block is None and trouble


def test_two_publications_on_the_same_people_count_once():
    comparison = answer(
        {"one": study(SPREADS), "two": study(SPREADS, same_sample_as="one")}, LONG, SHORT, within=A
    )
    alone = answer({"one": study(SPREADS)}, LONG, SHORT, within=A)
    assert (comparison.studies, comparison.people) == (1, 12)
    assert comparison.estimate.low == pytest.approx(alone.estimate.low)


def test_sites_are_compared_with_their_own_kind_only():
    proximal = parts(
        {"mean": 50.0, "sd": 10.0}, {"mean": 40.0, "sd": 10.0}, site={"said": "proximal"}
    )
    distal = parts({"mean": 80.0, "sd": 10.0}, {"mean": 40.0, "sd": 10.0}, site={"said": "distal"})
    [sample], _ = samples({"one": study([*proximal, *distal])})
    assert sorted(s.measured.result for s in sample.pooled) == [0, 2]
    assert samples({"one": study([proximal[0], distal[1]])})[0] == []


def test_outcomes_do_not_mix():
    assert (
        answer({"one": study(SPREADS)}, LONG, SHORT, outcome="growth", within=A).finding
        == "not studied"
    )
    grown = [
        growth({"a": {"change_percent": 9.0, "sd": 4.0}}),
        growth({"a": {"change_percent": 5.0, "sd": 4.0}}, parts=(SHORT,)),
    ]
    assert answer(
        {"one": study(grown)}, LONG, SHORT, outcome="growth", within=A
    ).estimate.ratio == pytest.approx(1.09 / 1.05, rel=1e-3)


def test_turning_the_question_inverts_the_answer():
    made = engine(
        {
            "one": study(SPREADS),
            "two": study(parts({"mean": 60.0, "sd": 15.0}, {"mean": 41.0, "sd": 12.0})),
        }
    )
    forth = made.comparison(Question(LONG, SHORT, LONG, "activation", within=A))
    back = made.comparison(Question(SHORT, LONG, SHORT, "activation", within=A))
    assert forth.estimate.ratio == pytest.approx(
        1 / back.estimate.ratio
    ) and forth.estimate.low == pytest.approx(1 / back.estimate.high)


def test_another_exercise_says_nothing_of_this_one():
    assert (
        samples(
            {
                "one": study(
                    [
                        result({"b": {"mean": 50.0, "sd": 10.0}}),
                        result({"b": {"mean": 40.0, "sd": 10.0}}, parts=(SHORT,)),
                    ],
                    {"b": B},
                )
            }
        )[0]
        == []
    )


def test_two_groups_of_one_exercise_are_different_people():
    """The average of two groups' contrasts has half of one group's variance; of two limbs of the same people it has more."""
    arms = {"a": {"change_percent": 9.0, "sd": 4.0}, "again": {"change_percent": 9.0, "sd": 4.0}}
    other = {"a": {"change_percent": 5.0, "sd": 4.0}, "again": {"change_percent": 5.0, "sd": 4.0}}
    both = [growth(arms), growth(other, parts=(SHORT,))]
    groups = {"same": False, "n": 24, "sizes": {"a": 12, "again": 12}}

    def variance(data):
        catalog = of({"one": data})
        made = Assembly(catalog, settings(catalog))
        [sample] = within.samples(made, A, LONG, SHORT, "growth", "volume")
        return float(sample.block.v[0, 0])

    single = [growth({"a": arms["a"]}), growth({"a": other["a"]}, parts=(SHORT,))]
    one = variance(study(single, {"a": A}, same=False, n=12, sizes={"a": 12}))
    assert variance(study(both, {"a": A, "again": A}, **groups)) == pytest.approx(one / 2)
    assert variance(study(both, {"a": A, "again": A}, n=12)) > one / 2
