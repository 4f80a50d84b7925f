"""The whole way from study files to an answer, against outside values.

The outside values are the synthetic network of within-person samples (independent least squares in base R) and a published set
of pairwise data (metafor); sources in ``statistics.yaml``. Our small-sample correction (half of c per arm) is taken out where
the reference has none.
"""

from dataclasses import replace
from math import log
from pathlib import Path

import numpy as np
import pytest
from catalogs import (
    LONG,
    SHORT,
    A,
    B,
    C,
    D,
    answer,
    claim,
    close,
    correlated,
    engine,
    growth,
    judged,
    of,
    result,
    samples_in,
    study,
    written,
)
from statistics_reference import REL, entry, same

from build_tools.catalog.bibliography.references import PublishedNotice
from build_tools.catalog.load import Catalog
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.claims.engine import Engine
from build_tools.evidence.model.blocks import Block
from build_tools.evidence.model.network import Network, fit_at
from build_tools.evidence.settings import settings
from build_tools.evidence.terms import Question

COVERS = {"nma_within_participant_synthetic", "ma_normand1999_rom"}

TOPIC = (LONG, "activation", None)


def uncorrected(block: Block, c: dict[str, float]) -> Block:
    """The block without half of c per arm."""
    return replace(
        block,
        y=block.y - np.array([c[t] - c[block.treatments[0]] for t in block.treatments[1:]]) / 2,
    )


# --- outside values, from study files on ------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def network_files(tmp_path_factory) -> Catalog:
    """The synthetic network as study files; A to D are invented exercises."""
    as_exercise = dict(zip("ABCD", (A, B, C, D), strict=True))
    studies = {}
    for told in entry("nma_within_participant_synthetic")["inputs"]["studies"]:
        values = {
            t.lower(): {"mean": float(m), "sd": float(sd)}
            for t, m, sd in zip(told["trt"], told["m"], told["sd"], strict=True)
        }
        within = told["within"]
        studies[told["study"].lower()] = study(
            [result(values)],
            {t.lower(): as_exercise[t] for t in told["trt"]},
            same=within,
            n=told["n"][0] if within else sum(told["n"]),
            sizes=None if within else dict(zip(values, told["n"], strict=True)),
        )
    return written(tmp_path_factory.mktemp("network") / "catalog", studies)


@pytest.mark.parametrize("case", range(5))
def test_the_synthetic_network_from_files_over_the_range_of_correlations(network_files, case):
    reference = entry("nma_within_participant_synthetic")
    wanted, studies = reference["expected"]["by_r"][case], reference["inputs"]["studies"]
    made = Engine(network_files, correlated(settings(network_files), "arms", float(wanted["r"])))
    samples = {sample.key: sample.block for sample in samples_in(made.assembly, *TOPIC)}
    as_exercise = dict(zip("ABCD", (A, B, C, D), strict=True))
    plain, row = [], 0
    for told in studies:
        block = samples[told["study"].lower()]
        assert block.treatments == tuple(as_exercise[t] for t in told["trt"])
        c = {
            as_exercise[t]: (sd / m) ** 2 / n
            for t, m, sd, n in zip(told["trt"], told["m"], told["sd"], told["n"], strict=True)
        }
        plain.append(uncorrected(block, c))
        part = slice(row, row := row + len(block.y))
        same(block.v, np.array(wanted["V"])[part, part], told["study"], REL)
        same(plain[-1].y, wanted["y"][part], told["study"], REL)
    assert row == len(wanted["y"]) and [b.df for b in plain] == [11, 9, 14, 21, 25]
    common = fit_at(plain, 0.0)
    same([common.q, common.df], [wanted["Q"], wanted["df"]], "Q", REL)
    for t in "BCD":
        same(
            common.estimate(as_exercise[t], A),
            [wanted["common"][key][t] for key in ("b", "se")],
            t,
            REL,
        )
    # What the engine answers is the network of these blocks; the corrections move it by little beside its standard errors.
    scale = made.settings.spreads["activation"]
    weighed, bare = Network(list(samples.values()), scale), Network(plain, scale)
    for t in "BCD":
        found = made.weighing(Question(as_exercise[t], A, *TOPIC)).posterior
        own = weighed.posterior(as_exercise[t], A)
        assert (found.mean, found.sd) == pytest.approx((own.mean, own.sd), rel=1e-9)
        assert 0 < abs(own.mean - bare.posterior(as_exercise[t], A).mean) < 0.1 * own.sd


@pytest.fixture(scope="module")
def stroke_files(tmp_path_factory) -> Catalog:
    """Nine trials with two groups each: lengths of stay, here as invented activations."""
    raw = entry("ma_normand1999_rom")["inputs"]["raw"]
    studies = {}
    for n, (m1, sd1, n1, m2, sd2, n2) in enumerate(
        zip(*(raw[k] for k in ("m1", "sd1", "n1", "m2", "sd2", "n2")), strict=True)
    ):
        values = {
            "a": {"mean": float(m1), "sd": float(sd1)},
            "b": {"mean": float(m2), "sd": float(sd2)},
        }
        studies[f"trial{n}"] = study(
            [result(values)], same=False, n=n1 + n2, sizes={"a": n1, "b": n2}
        )
    return written(tmp_path_factory.mktemp("stroke") / "catalog", studies)


def test_a_published_set_of_pairs_from_files_to_the_answer(stroke_files):
    """Nine trials: effects and variances as metafor has them, and with a prior so wide that the data decide, its REML answer
    within a fifth of a standard error (fewer than ten studies, so no nearer)."""
    reference = entry("ma_normand1999_rom")
    raw, wanted = reference["inputs"]["raw"], reference["expected"]["models"]["REML"]
    made = Engine(stroke_files, settings(stroke_files))
    blocks = [sample.block for sample in samples_in(made.assembly, *TOPIC)]
    c = [
        {
            A: (raw["sd1"][n] / raw["m1"][n]) ** 2 / raw["n1"][n],
            B: (raw["sd2"][n] / raw["m2"][n]) ** 2 / raw["n2"][n],
        }
        for n in range(9)
    ]
    plain = [uncorrected(block, arms) for block, arms in zip(blocks, c, strict=True)]
    same([-b.y[0] for b in plain], reference["inputs"]["yi"], "yi", REL)
    same([b.v[0, 0] for b in plain], reference["inputs"]["vi"], "vi", REL)
    wide = replace(made.settings, spreads={**made.settings.spreads, "activation": 3.0})
    found = Engine(stroke_files, wide).weighing(Question(A, B, *TOPIC)).posterior
    assert abs(found.mean - wanted["estimate"]) < 0.2 * wanted["se"]
    assert 1 < found.sd / wanted["se"] < 1.5
    comparison = made.comparison(Question(A, B, *TOPIC))
    assert (comparison.studies, comparison.people, comparison.path) == (
        9,
        sum(raw["n1"] + raw["n2"]),
        "direct",
    )


# --- what a stated range of correlations would change -----------------------------------------------------------------


def test_what_an_assumed_correlation_decides_is_said():
    """Twelve alike samples of twelve: the spread between studies is seen to be small, and the arms' correlation decides."""
    arms = {"a": {"mean": 50.0, "sd": 20.0}, "b": {"mean": 46.0, "sd": 20.0}}
    comparison = answer({f"s{n}": study([result(arms)]) for n in range(12)})
    assert "It rests on what is assumed: there would be" in comparison.sensitive
    assert "with two exercises of the same people as" in comparison.sensitive
    assert "imprecision-correlation" in {s.rule for s in comparison.certainty.steps} | {
        "imprecision-correlation"
        for s in comparison.certainty.steps
        if s.rule == "imprecision-once"
    }
    clear = {"a": {"mean": 90.0, "sd": 2.0}, "b": {"mean": 30.0, "sd": 2.0}}
    settled = answer({f"s{n}": study([result(clear)]) for n in range(8)})
    assert (settled.finding, settled.sensitive) == ("found", None)


def test_what_the_expected_spread_between_studies_decides_is_said():
    made = {
        "one": study(
            [
                growth(
                    {
                        "a": {"change_percent": 9.0, "sd": 4.0},
                        "b": {"change_percent": 2.0, "sd": 4.0},
                    }
                )
            ]
        )
    }
    comparison = answer(made, outcome="growth")
    found = [w.finding for _, w in engine(made).expected(Question(A, B, LONG, "growth"))]
    assert (found[0] != found[1]) and "the spread between studies expected" in comparison.sensitive


def test_a_spread_that_rests_on_no_correlation_is_not_tried_over_any():
    tests = [{"of": "a", "against": "b", "t": 2.0}]
    made = engine({"one": study([result({"a": {"mean": 50.0}, "b": {"mean": 42.0}}, tests)])})
    assert made.tried(Question(A, B, *TOPIC)) == [] and "variations" not in vars(made)


@pytest.mark.parametrize(
    ("told", "outcome", "tried"),
    [
        (
            [result({"a": {"mean": 50.0, "sd": 12.0}, "b": {"mean": 42.0, "sd": 12.0}})],
            "activation",
            {"two exercises of the same people"},
        ),
        (
            [
                growth(
                    {
                        arm: {
                            "pre": {"mean": 50.0, "sd": 12.0},
                            "post": {"mean": 55.0 + n, "sd": 12.0},
                        }
                        for n, arm in enumerate("ab")
                    }
                )
            ],
            "growth",
            {"two exercises of the same people", "values before and after"},
        ),
        (
            [
                result(
                    {"a": {"mean": 50.0}, "b": {"mean": 42.0}},
                    [{"of": "a", "against": "b", "t": 2.0}],
                    site={"said": site},
                )
                for site in ("one", "two")
            ],
            "activation",
            {"measurements of one sample"},
        ),
    ],
)
def test_every_correlation_that_enters_is_tried_over_its_range(told, outcome, tried):
    """A correlation that does not enter changes nothing, so what moves names those that do."""
    made = engine({"one": study(told)})
    plain = made.comparison(Question(A, B, LONG, outcome)).estimate
    moved = {
        what.partition(" as ")[0]
        for what, found in made.tried(Question(A, B, LONG, outcome))
        if not close(plain, found.weighed.estimate)
    }
    assert moved == tried


def test_a_chain_of_exercises_gives_an_indirect_answer_that_says_so():
    studies = {
        "one": study(
            [result({"a": {"mean": 50.0, "sd": 5.0}, "b": {"mean": 40.0, "sd": 5.0}})],
            {"a": A, "b": B},
        ),
        "two": study(
            [result({"a": {"mean": 40.0, "sd": 5.0}, "b": {"mean": 30.0, "sd": 5.0}})],
            {"a": B, "b": C},
            n=20,
        ),
    }
    comparison = answer(studies, A, C)
    assert (comparison.path, comparison.rows, comparison.studies, comparison.people) == (
        "indirect",
        (),
        2,
        32,
    )
    assert comparison.estimate.ratio == pytest.approx(50 / 30, rel=2e-3)
    assert "through other exercises" in comparison.sentence


def test_numbers_from_files_that_cannot_be_weighed_are_named_at_their_line(tmp_path: Path):
    bad = study(
        [
            result({"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 9.0}}),
            result(
                {"a": {"mean": 50.0, "sd": 0.0}, "b": {"mean": 40.0, "sd": 9.0}},
                [{"of": "a", "against": "b", "favours": "of"}],
                parts=(SHORT,),
            ),
        ]
    )
    catalog = written(tmp_path / "catalog", {"one": bad})
    found = conclude(catalog)
    [finding] = [f for f in found.findings if f.rule == "unusable-number"]
    lines = (tmp_path / "catalog/studies/one.yaml").read_text().splitlines()
    assert finding.spot.file == "invented/studies/one.yaml"
    starts = [n for n, line in enumerate(lines, 1) if line.startswith("- parts")]
    assert finding.spot.line == starts[1] and "zero" in finding.message
    [comparison] = found.fields[SHORT, "activation", None].comparisons
    [row] = comparison.rows
    assert (row.estimate, row.direction) == (
        None,
        "more",
    ) and "its numbers cannot be weighed" in row.how
    assert (comparison.finding, comparison.side, comparison.estimate) == ("hinted", "more", None)


def test_findings_do_not_repeat_under_the_variations():
    bad = study(
        [
            result({"a": {"mean": 50.0, "sd": 0.0}, "b": {"mean": 40.0, "sd": 9.0}}),
            result({"a": {"mean": 50.0, "sd": 9.0}, "b": {"mean": 40.0, "sd": 9.0}}),
        ]
    )
    catalog = of({"one": bad}, {A: [claim(cites=[{"key": "one", "at": "abstract"}])]})
    assert [f.rule for f in conclude(catalog).findings].count("unusable-number") == 1


def test_studies_that_are_all_alike_agree_ever_more():
    arms = {"a": {"mean": 50.0, "sd": 5.0}, "b": {"mean": 40.0, "sd": 5.0}}
    answers = [answer({f"s{n}": study([result(arms)]) for n in range(k)}) for k in (1, 2, 5, 12)]
    ratios = [a.estimate.ratio for a in answers]
    assert ratios == pytest.approx(
        [50 / 40 * (1 + (1 / 50**2 - 1 / 40**2) * 25 / 24)] * 4, rel=1e-4
    )
    widths = [log(a.estimate.high / a.estimate.low) for a in answers]
    assert widths == sorted(widths, reverse=True) and answers[-1].finding == "found"


def test_studies_that_contradict_each_other_have_an_answer_that_is_open():
    far, near = {"mean": 90.0, "sd": 2.0}, {"mean": 10.0, "sd": 2.0}
    studies = {
        "one": study([result({"a": far, "b": near})]),
        "two": study([result({"a": near, "b": far})]),
    }
    comparison = answer(studies)
    assert comparison.estimate.low < 1 < comparison.estimate.high and comparison.conflict
    assert judged(studies).finding == "unclear"


def test_a_version_is_a_treatment_of_its_own():
    arms = {
        "a": {"mean": 50.0, "sd": 10.0},
        "b": {"mean": 40.0, "sd": 10.0},
        "c": {"mean": 70.0, "sd": 10.0},
    }
    data = study([result(arms)], {"a": A, "b": B, "c": A})
    data["arms"]["c"]["version"] = "lower-half"
    made = engine({"one": data})
    plain = made.comparison(Question(A, B, LONG, "activation"))
    assert plain.estimate.ratio == pytest.approx(50 / 40, rel=1e-2), (
        "the version is not averaged into the exercise"
    )
    half = made.comparison(Question(f"{A}@lower-half", A, LONG, "activation"))
    assert half.estimate.ratio == pytest.approx(70 / 50, rel=1e-2)
    assert "the alder curl (over the lower half)" in half.sentence
    pairs = {(c.question.first, c.question.second) for c in made.field(*TOPIC).comparisons}
    assert (A, f"{A}@lower-half") in pairs


def test_nothing_counts_that_was_retracted():
    catalog = of({"one": study([result(contrasts=[{"of": "a", "against": "b", "favours": "of"}])])})
    notice = (PublishedNotice("retraction", "10.0000/gone"),)
    gone = replace(catalog, references={"one": replace(catalog.references["one"], notices=notice)})
    assert Engine(gone, settings(gone)).comparison(Question(A, B, *TOPIC)).rows == ()


def test_dimensions_of_growth_are_never_one_number():
    """The dimension with the most samples answers; conclusions say which."""
    volume = growth(
        {"a": {"change_percent": 9.0, "sd": 4.0}, "b": {"change_percent": 2.0, "sd": 4.0}}
    )
    comparison = answer({"one": study([volume])}, outcome="growth")
    assert comparison.dimension == "volume"


def test_a_pair_is_told_as_its_own_paper_tested_it():
    """Three arms, all contrasts printed with their t: each pair's own row is its own test, not what the others make of it."""
    tests = [
        {"of": "a", "against": "b", "ratio": {"value": 1.2}, "t": 2.5},
        {"of": "c", "against": "b", "ratio": {"value": 1.5}, "t": 3.0},
        {"of": "c", "against": "a", "ratio": {"value": 1.1}, "t": 2.1},
    ]
    made = engine({"one": study([result(contrasts=tests)], {"a": A, "b": B, "c": C})})
    for first, second, ratio in ((A, B, 1.2), (C, B, 1.5), (C, A, 1.1)):
        comparison = made.comparison(Question(first, second, *TOPIC))
        assert (
            comparison.estimate.ratio == pytest.approx(ratio) == comparison.rows[0].estimate.ratio
        )
