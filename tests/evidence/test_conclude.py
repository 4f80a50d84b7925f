"""Verdicts and sentences follow the numbers, whatever the author hopes, and every finding stands at its line."""

from pathlib import Path

import pytest
from catalogs import LONG, SHORT, A, B, C, claim, growth, judged, of, result, study, written
from pydantic import ValidationError

from build_tools.catalog.entries import Claim
from build_tools.catalog.load import load
from build_tools.evidence.claims.conclude import conclude

SHIPPED = Path(__file__).parents[2] / "catalog"
TEST = {"of": "a", "against": "b"}


def arms(a, b, **more):
    """Activation of the long head in two exercises, closely measured."""
    return result({"a": {"mean": float(a), "sd": 4.0}, "b": {"mean": float(b), "sd": 4.0}}, **more)


def stated(favours, **more):
    return result(contrasts=[TEST | {"favours": favours}], **more)


MORE, LESS, ALIKE = ({"one": study([arms(*pair)], n=30)} for pair in ((60, 40), (40, 60), (50, 50)))


# --- verdicts ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("studies", "verdicts", "shape"),
    [
        (MORE, ("shown", "contradicted", "contradicted"), "more"),
        (LESS, ("contradicted", "shown", "contradicted"), "less"),
        (ALIKE, ("not shown", "not shown", "shown"), "alike"),
        ({"one": study([stated("of")])}, ("leaning", "contradicted", "contradicted"), "more"),
        ({"one": study([stated("neither")])}, ("not shown", "not shown", "leaning"), "none found"),
        (
            {"one": study([stated("of")]), "two": study([stated("against")])},
            ("not shown", "not shown", "not shown"),
            "split",
        ),
        (
            {
                "one": study(
                    [stated("of", site={"said": "x"}), stated("neither", site={"said": "y"})]
                )
            },
            ("not shown", "not shown", "not shown"),
            "split",
        ),
        (
            {"one": study([result({"a": {"mean": 60.0}, "b": {"mean": 40.0}})])},
            ("untested", "untested", "untested"),
            "read off",
        ),
        ({}, ("untested", "untested", "untested"), "untested"),
    ],
    ids=[
        "more",
        "less",
        "alike",
        "states more",
        "states none",
        "disagree",
        "mixed",
        "read off",
        "nothing",
    ],
)
def test_a_verdict_follows_the_numbers(studies, verdicts, shape):
    ways = (
        {"more_than": {"exercise": B}},
        {"less_than": {"exercise": B}},
        {"similar_to": {"exercise": B}},
    )
    found = [judged(studies, **way) for way in ways]
    assert tuple(c.verdict for c in found) == verdicts
    assert {c.comparisons[0].shape for c in found} == {shape}
    if shape not in ("untested", "read off"):
        assert len({c.sentence for c in found}) == 1, (
            "the sentence is that of the numbers, whatever was claimed"
        )
    assert all((c.certainty is None) == (shape in ("untested", "read off")) for c in found)


def test_numbers_nobody_tested_are_untested_with_that_reason():
    for values in (
        ({"mean": 60.0}, {"mean": 40.0}),
        ({"mean": 40.0}, {"mean": 60.0}),
        ({"mean": 50.0}, {"mean": 50.0}),
    ):
        conclusion = judged({"one": study([result(dict(zip("ab", values, strict=True)))])})
        assert (conclusion.verdict, conclusion.certainty) == ("untested", None)
        assert (
            conclusion.reason
            == "Something was printed for both, but no test of the two against each other and no spread was read."
        )


def test_a_contrary_study_counts_although_nobody_cites_it():
    studies = MORE | {"two": study([arms(40, 70)], n=400), "three": study([arms(40, 70)], n=400)}
    assert judged(MORE).verdict == "shown"
    conclusion = judged(studies)
    assert conclusion.verdict == "not shown" and {
        row.study for row in conclusion.comparisons[0].rows
    } == {"one", "two", "three"}
    alone = judged({"one": study([stated("of")]), "two": study([stated("against")])})
    assert alone.verdict == "not shown"


def test_a_review_never_counts_beside_its_studies():
    review = study([arms(40, 90)], design="review", n=900)
    assert judged(MORE | {"two": review}).comparisons == judged(MORE).comparisons
    catalog = of(MORE | {"two": review}, {A: [claim(cites=[{"key": "two", "at": "abstract"}])]})
    assert conclude(catalog).findings == [], "yet it is a fair thing to cite"


def test_growth_is_not_answered_by_activation_nor_the_other_way_round():
    assert judged(MORE, outcome="growth").verdict == "untested"
    grown = {
        "one": study(
            [
                growth(
                    {
                        "a": {"change_percent": 20.0, "sd": 4.0},
                        "b": {"change_percent": 4.0, "sd": 4.0},
                    }
                )
            ]
        )
    }
    assert (
        judged(grown).verdict,
        judged(grown, outcome="growth").verdict,
        judged(MORE, outcome="length").verdict,
    ) == ("untested", "shown", "untested")


# --- several parts ----------------------------------------------------------------------------------------------------

BOTH = {"part": [LONG, SHORT]}


@pytest.mark.parametrize(
    ("long", "short", "verdict"),
    [
        (arms(60, 40), arms(60, 40, parts=(SHORT,)), "shown"),
        (arms(60, 40), stated("of", parts=(SHORT,)), "leaning"),
        (arms(60, 40), None, "untested"),
        (arms(60, 40), stated("neither", parts=(SHORT,)), "not shown"),
        (arms(60, 40), arms(40, 60, parts=(SHORT,)), "contradicted"),
        (None, arms(40, 60, parts=(SHORT,)), "contradicted"),
        (stated("neither"), None, "not shown"),
    ],
)
def test_a_claim_on_several_parts_is_as_good_as_its_weakest(long, short, verdict):
    conclusion = judged({"one": study([told for told in (long, short) if told], n=30)}, **BOTH)
    assert (conclusion.verdict, len(conclusion.comparisons)) == (verdict, 2)


def test_the_certainty_of_several_parts_is_the_lowest():
    conclusion = judged({"one": study([arms(60, 40), stated("of", parts=(SHORT,))], n=300)}, **BOTH)
    levels = [c.certainty.level for c in conclusion.comparisons]
    assert len(set(levels)) == 2 and conclusion.certainty.level == min(
        levels, key=["very low", "low", "moderate", "high"].index
    )


def test_parts_with_the_same_answer_share_a_sentence():
    conclusion = judged({"one": study([stated("of"), stated("of", parts=(SHORT,))])}, **BOTH)
    assert conclusion.sentence == (
        "Activity of the long head of the lantern muscle and the short head of the lantern muscle may be higher in the alder curl than in "
        "the birch curl: 1 study of 12 people reported it, without the spread that an estimate needs."
    )
    assert conclusion.reason.count("Nothing can be pooled") == 1


@pytest.mark.parametrize(
    "results",
    [
        [stated("of"), stated("against", parts=(SHORT,))],
        [
            result({"a": {"mean": 60.0}, "b": {"mean": 40.0}}),
            result({"a": {"mean": 40.0}, "b": {"mean": 60.0}}, parts=(SHORT,)),
        ],
        [arms(60, 40), arms(70, 40, parts=(SHORT,))],
    ],
    ids=["stated", "read off", "estimates"],
)
def test_parts_with_different_answers_do_not(results):
    conclusion = judged({"one": study(results)}, **BOTH)
    assert conclusion.sentence.count(". ") == 1
    first, second = conclusion.sentence.split(". ")
    assert (
        "long head" in first
        and "short head" not in first
        and "short head" in second
        and "long head" not in second
    )


def test_parts_that_rest_on_different_studies_do_not_share_a_sentence():
    conclusion = judged(
        {"one": study([stated("of")]), "two": study([stated("of", parts=(SHORT,))])}, **BOTH
    )
    assert conclusion.sentence.count("1 study of 12 people") == 2


# --- what is found wrong ----------------------------------------------------------------------------------------------


def found_in(tmp_path: Path, studies, *claims, **more):
    catalog = written(tmp_path / "catalog", studies, {A: list(claims)}, **more)
    lines = (tmp_path / f"catalog/exercises/{A}.yaml").read_text().splitlines()
    return [(f.rule, lines[f.spot.line - 1].strip(), f) for f in conclude(catalog).findings]


def test_a_contradicted_claim_is_found_at_the_claim(tmp_path):
    agreed = claim(part=[SHORT], common_practice="Taught.")
    [(rule, line, finding)] = found_in(tmp_path, LESS, agreed, claim())
    assert (rule, finding.spot.file) == ("contradicted-claim", f"invented/exercises/{A}.yaml")
    assert (
        line == "- part:" and "contradict this activation claim: The estimate is" in finding.message
    )
    text = (tmp_path / f"catalog/exercises/{A}.yaml").read_text().splitlines()
    assert [n for n, told in enumerate(text, 1) if told.startswith("- part")][
        1
    ] == finding.spot.line, "the second claim"
    assert "disputed" in finding.help


def test_a_dispute_lets_a_contradicted_claim_stand_and_does_not_change_its_verdict(tmp_path):
    assert found_in(tmp_path, LESS, claim(disputed="The electrodes sat elsewhere.")) == []
    assert judged(LESS, disputed="The electrodes sat elsewhere.").verdict == "contradicted"


@pytest.mark.parametrize(
    ("studies", "verdict"), [(MORE, "shown"), ({"one": study([stated("neither")])}, "not shown")]
)
def test_a_needless_dispute_is_found_at_its_key(tmp_path, studies, verdict):
    [(rule, line, finding)] = found_in(
        tmp_path, studies, claim(disputed="The electrodes sat elsewhere.")
    )
    assert (rule, line) == (
        "needless-dispute",
        "disputed: The electrodes sat elsewhere.",
    ) and verdict in finding.message


def test_a_citation_without_numbers_is_found_at_the_citation(tmp_path):
    studies = MORE | {"two": study([arms(60, 40)], {"a": A, "b": C})}
    [(rule, line, finding)] = found_in(
        tmp_path,
        studies,
        claim(cites=[{"key": "one", "at": "abstract"}, {"key": "two", "at": "p. 3"}]),
    )
    assert (
        (rule, line) == ("cited-without-numbers", "- key: two")
        and "`two`" in finding.message
        and "studies/two.yaml" in finding.help
    )


def test_a_citation_of_another_outcome_is_no_support(tmp_path):
    [(rule, *_)] = found_in(tmp_path, MORE, claim(outcome="growth"))
    assert rule == "cited-without-numbers"


def test_a_length_claim_may_cite_what_has_no_numbers_here(tmp_path):
    assert found_in(tmp_path, MORE, claim(outcome="length")) == []


def test_either_publication_on_a_shared_sample_supports_a_claim(tmp_path):
    studies = MORE | {"two": study([arms(60, 40)], same_sample_as="one", n=30)}
    both = [{"key": key, "at": "abstract"} for key in ("one", "two")]
    assert found_in(tmp_path, studies, claim(cites=both)) == []


def test_numbers_that_cannot_be_weighed_are_found(tmp_path):
    told = result({"a": {"mean": 5.0, "sd": 0.0}, "b": {"mean": 4.0, "sd": 1.0}})
    assert [rule for rule, *_ in found_in(tmp_path, {"one": study([told])}, claim())] == [
        "unusable-number"
    ]


# --- certainty that authors set ---------------------------------------------------------------------------------------

AUTHORED = {"level": "low", "because": "Both groups knew.", "cites": [{"key": "one", "at": "p. 4"}]}


def test_an_authored_certainty_is_taken_with_its_reason_and_source():
    plain, told = judged(MORE), judged(MORE, certainty=AUTHORED | {"level": "very low"})
    assert (plain.certainty.level, told.certainty.level) != (
        "very low",
        "very low",
    ) and told.certainty.level == "very low"
    assert (
        "Both groups knew" in told.certainty.steps[-1].reason
        and "one" in told.certainty.steps[-1].reason
    )
    assert (told.verdict, told.comparisons[0].estimate) == (
        plain.verdict,
        plain.comparisons[0].estimate,
    )
    assert "very uncertain" in told.sentence


@pytest.mark.parametrize("missing", ["because", "cites"])
def test_an_authored_certainty_needs_a_reason_and_a_source(missing):
    with pytest.raises(ValidationError):
        Claim.model_validate(claim(certainty={k: v for k, v in AUTHORED.items() if k != missing}))
    with pytest.raises(ValidationError):
        Claim.model_validate(claim(certainty=AUTHORED | {"cites": []}))


def test_no_authored_certainty_makes_the_untested_certain():
    assert judged({}, certainty=AUTHORED | {"level": "high"}).certainty is None


# --- kinds of evidence that disagree ----------------------------------------------------------------------------------

GROWN = growth({"a": {"change_percent": 2.0, "sd": 4.0}, "b": {"change_percent": 20.0, "sd": 4.0}})


def test_outcomes_that_point_different_ways_are_said_once():
    found = conclude(of({"one": study([arms(60, 40), GROWN], n=30)}))
    [disagreement] = found.disagreements
    assert disagreement.sentence == (
        "For the long head of the lantern muscle, the kinds of evidence point different ways: activity is higher and growth is smaller "
        "with the alder curl than with the birch curl; one does not outweigh the other."
    )


@pytest.mark.parametrize(
    "results",
    [
        [arms(40, 60), GROWN],
        [arms(50, 50), GROWN],
        [arms(60, 40), GROWN | {"parts": [SHORT]}],
        [arms(60, 40, relative_to=SHORT), GROWN],
    ],
    ids=["same way", "no difference", "another part", "a ratio"],
)
def test_other_answers_are_no_disagreement(results):
    assert conclude(of({"one": study(results, n=30)})).disagreements == []


# --- the whole --------------------------------------------------------------------------------------------------------


def test_claims_keep_their_order_and_numbers():
    claims = [
        claim(),
        claim(part=[SHORT], common_practice="Taught."),
        claim(more_than={"part": SHORT}),
    ]
    found = conclude(of(MORE, {A: claims, B: [claim(less_than={"exercise": A})]}))
    assert [(c.claim_id, c.index, c.basis) for c in found.of(A)] == [
        (f"{A}/1", 0, "cited"),
        (f"{A}/2", 1, "common practice"),
        (f"{A}/3", 2, "cited"),
    ]
    assert (
        found.of("nobody") == []
        and found.fields[LONG, "activation", None].comparisons[0].shape == "more"
    )
    assert [found.of(id)[0].verdict for id in (A, B)] == ["shown", "shown"], (
        "more with A is less with B"
    )


@pytest.mark.parametrize(
    ("told", "sentence"),
    [
        (
            {"common_practice": "Taught."},
            "Commonly taught, untested here: activity of the long head of the lantern muscle is higher in the alder curl than in the birch curl.",
        ),
        (
            {"similar_to": {"exercise": B}},
            "Cited, but untested here: activity of the long head of the lantern muscle is about the same in the alder curl as in the birch curl.",
        ),
        (
            {"less_than": {"part": SHORT}},
            "Cited, but untested here: in the alder curl, activity of the long head of the lantern muscle is lower than that of the short head "
            "of the lantern muscle.",
        ),
    ],
)
def test_what_nothing_tests_is_told_as_claimed(told, sentence):
    assert judged({}, **told).sentence == sentence


def test_the_demo_concludes_as_its_numbers_say(demo):
    """By hand: growth factors 1.14 and 1.09 with p < 0.01 in 18 people, so a ratio of 1.046 with t(17) for p = 0.01."""
    found = conclude(demo)
    growth_claim, taught = found.of("crate-curl")
    assert (growth_claim.verdict, taught.verdict) == ("shown", "untested")
    estimate = growth_claim.comparisons[0].estimate
    assert estimate.ratio == pytest.approx(1.14 / 1.09)
    assert growth_claim.comparisons[0].rows[0].texts == (
        "Seated crate curl 14%, standing cable curl 9%; p < 0.01 (abstract)",
    )
    assert growth_claim.comparisons[0].rows[0].read == "abstract"


def test_published_numbers_reach_the_shipped_sentence():
    """Maeo et al. 2021, Med Sci Sports Exerc 53:825-837, abstract: whole hamstrings +14% seated, +9% prone."""
    found = conclude(load(SHIPPED))
    told = [
        c.sentence
        for c in found.of("seated-leg-curl")
        if any(r.study == "maeo2021" for x in c.comparisons for r in x.rows)
    ]
    assert any("14% against 9%" in text for text in told)
    assert not any(f.rule == "unusable-number" for f in found.findings)
