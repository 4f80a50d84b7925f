"""Findings and sentences follow the numbers, whatever the author hopes, and every finding stands at its line."""

from math import log
from pathlib import Path

import pytest
from catalogs import LONG, SHORT, A, B, C, claim, growth, judged, of, result, study, written
from pydantic import ValidationError

from build_tools.catalog.entries import Claim
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.terms import LEVELS

TEST = {"of": "a", "against": "b"}


def arms(a, b, **more):
    """Activation of the long head in two exercises, closely measured."""
    return result({"a": {"mean": float(a), "sd": 4.0}, "b": {"mean": float(b), "sd": 4.0}}, **more)


def stated(favours, **more):
    return result(contrasts=[TEST | {"favours": favours}], **more)


#: A dozen alike studies: one alone could differ from another by more than it shows.
MORE, LESS, ALIKE = (
    {
        name: study([arms(*pair)], n=30)
        for name in ("one", *(f"like{n}" for n in range(60 if pair[0] == pair[1] else 11)))
    }
    for pair in ((60, 40), (40, 60), (50, 50))
)


# --- findings ---------------------------------------------------------------------------------------------------------

WAYS = (
    {"more_than": {"exercise": B}},
    {"less_than": {"exercise": B}},
    {"similar_to": {"exercise": B}},
)


@pytest.mark.parametrize(
    ("studies", "findings", "answer"),
    [
        (MORE, ("found", "opposite", "opposite"), ("found", "more")),
        (LESS, ("opposite", "found", "opposite"), ("found", "less")),
        (ALIKE, ("alike", "alike", "found"), ("alike", None)),
        ({"one": study([stated("of")])}, ("hinted", "unclear", "unclear"), ("hinted", "more")),
        # "No difference reported" is never likeness
        ({"one": study([stated("neither")])}, ("unclear", "unclear", "unclear"), ("unclear", None)),
        (
            {"one": study([stated("of")]), "two": study([stated("against")])},
            ("unclear", "unclear", "unclear"),
            ("unclear", None),
        ),
        (
            {"one": study([result({"a": {"mean": 60.0}, "b": {"mean": 40.0}})])},
            ("hinted", "unclear", "unclear"),
            ("hinted", "more"),
        ),
        ({}, ("not studied", "not studied", "not studied"), ("not studied", None)),
    ],
    ids=["more", "less", "alike", "states more", "states none", "disagree", "untested", "nothing"],
)
def test_a_finding_follows_the_numbers(studies, findings, answer):
    found = [judged(studies, **way) for way in WAYS]
    assert tuple(c.finding for c in found) == findings
    assert {(c.comparisons[0].finding, c.comparisons[0].side) for c in found} == {answer}
    if studies:
        assert len({c.sentence for c in found}) == 1, (
            "the sentence is that of the numbers, whatever was claimed"
        )
    assert all((c.certainty is None) == (not studies) for c in found)


def test_equal_numbers_that_nobody_tested_are_no_likeness():
    equal = result({"a": {"mean": 50.0}, "b": {"mean": 50.0}})
    assert judged({"one": study([equal])}, **WAYS[2]).finding == "unclear"


def test_a_contrary_study_counts_although_nobody_cites_it():
    contrary = study([arms(40, 70)], n=400)
    others = [f"other{n}" for n in range(12)]
    studies = MORE | dict.fromkeys(others, contrary)
    assert judged(MORE).finding == "found"
    conclusion = judged(studies)
    assert conclusion.finding != "found" and {
        row.study for row in conclusion.comparisons[0].rows
    } == {*MORE, *others}
    assert conclusion.comparisons[0].conflict


def test_a_review_never_counts_beside_its_studies():
    review = study([arms(40, 90)], design="review", n=900)
    assert judged(MORE | {"two": review}).comparisons == judged(MORE).comparisons
    catalog = of(MORE | {"two": review}, {A: [claim(cites=[{"key": "two", "at": "abstract"}])]})
    assert conclude(catalog).findings == [], "yet it is a fair thing to cite"


def test_growth_is_not_answered_by_activation_nor_the_other_way_round():
    assert judged(MORE, outcome="growth").finding == "not studied"
    told = growth(
        {"a": {"change_percent": 20.0, "sd": 4.0}, "b": {"change_percent": 4.0, "sd": 4.0}}
    )
    grown = {"one": study([told])}
    assert (
        judged(grown).finding == "not studied"
        and judged(MORE, outcome="length").finding == "not studied"
    )
    assert judged(grown, outcome="growth").finding == "found"


# --- several parts ----------------------------------------------------------------------------------------------------

BOTH = {"part": [LONG, SHORT]}
SIDE, HINT, NULL = (
    arms(60, 40, parts=(SHORT,)),
    stated("of", parts=(SHORT,)),
    stated("neither", parts=(SHORT,)),
)


def many(*results, k=12):
    return {
        name: study([r for r in results if r], n=30)
        for name in ("one", *(f"like{n}" for n in range(k - 1)))
    }


@pytest.mark.parametrize(
    ("studies", "finding"),
    [
        (many(arms(60, 40), SIDE), "found"),
        (many(arms(60, 40)) | {"hint": study([HINT])}, "hinted"),
        (many(arms(60, 40)), "not studied"),
        (many(arms(60, 40)) | {"null": study([NULL])}, "unclear"),
        (many(arms(60, 40), arms(40, 60, parts=(SHORT,))), "opposite"),
        (many(arms(40, 60, parts=(SHORT,))), "opposite"),
        ({"one": study([stated("neither")])}, "unclear"),
    ],
)
def test_a_claim_on_several_parts_is_as_good_as_its_weakest(studies, finding):
    conclusion = judged(studies, **BOTH)
    assert (conclusion.finding, len(conclusion.comparisons)) == (finding, 2)


def test_the_certainty_of_several_parts_is_the_lowest():
    conclusion = judged(many(arms(60, 40)) | {"hint": study([HINT])}, **BOTH)
    levels = [c.certainty.level for c in conclusion.comparisons]
    assert len(set(levels)) == 2 and conclusion.certainty.level == min(levels, key=LEVELS.index)


def test_parts_with_the_same_answer_share_a_sentence():
    conclusion = judged({"one": study([stated("of"), HINT])}, **BOTH)
    assert (
        len(conclusion.told) == 1
        and "long head" in conclusion.sentence
        and "short head" in conclusion.sentence
    )
    assert conclusion.reason.count("A direction was reported") == 1


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
    ids=["stated", "untested", "estimates"],
)
def test_parts_with_different_answers_do_not(results):
    first, second = judged({"one": study(results)}, **BOTH).told[:2]
    assert "long head" in first.sentence and "short head" not in first.sentence
    assert "short head" in second.sentence and "long head" not in second.sentence


def test_parts_that_rest_on_different_studies_do_not_share_a_sentence():
    conclusion = judged({"one": study([stated("of")]), "two": study([HINT])}, **BOTH)
    assert len([told for told in conclusion.told if told.sentence]) == 2


def test_one_number_over_two_parts_is_told_once():
    told = {"one": study([arms(60, 40, parts=(LONG, SHORT))])}
    conclusion = judged(told, **BOTH)
    assert (
        len([t for t in conclusion.told if t.sentence]) == 1
        and conclusion.sentence.count("MVIC") == 1
    )


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


def test_a_dispute_lets_a_contradicted_claim_stand_and_does_not_change_its_finding(tmp_path):
    assert found_in(tmp_path, LESS, claim(disputed="The electrodes sat elsewhere.")) == []
    assert judged(LESS, disputed="The electrodes sat elsewhere.").finding == "opposite"


@pytest.mark.parametrize(
    ("studies", "says"), [(MORE, "found"), ({"one": study([stated("neither")])}, "unclear")]
)
def test_a_needless_dispute_is_found_at_its_key(tmp_path, studies, says):
    [(rule, line, finding)] = found_in(
        tmp_path, studies, claim(disputed="The electrodes sat elsewhere.")
    )
    assert (rule, line) == (
        "needless-dispute",
        "disputed: The electrodes sat elsewhere.",
    ) and says in finding.message


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
    assert plain.certainty.level != "very low" == told.certainty.level
    last = told.certainty.steps[-1].reason
    assert "Both groups knew" in last and "one" in last
    assert (told.finding, told.comparisons[0].estimate) == (
        plain.finding,
        plain.comparisons[0].estimate,
    )
    assert told.sentence != plain.sentence


@pytest.mark.parametrize("missing", ["because", "cites"])
def test_an_authored_certainty_needs_a_reason_and_a_source(missing):
    with pytest.raises(ValidationError):
        Claim.model_validate(claim(certainty={k: v for k, v in AUTHORED.items() if k != missing}))
    with pytest.raises(ValidationError):
        Claim.model_validate(claim(certainty=AUTHORED | {"cites": []}))


def test_no_authored_certainty_makes_the_untested_certain():
    assert judged({}, certainty=AUTHORED | {"level": "high"}).certainty is None


# --- activation and growth of one pair --------------------------------------------------------------------------------

GROWN = growth({"a": {"change_percent": 2.0, "sd": 4.0}, "b": {"change_percent": 20.0, "sd": 4.0}})


@pytest.mark.parametrize(
    ("pair", "agree"),
    [((60, 40), False), ((40, 60), True), ((50, 50), None)],
    ids=["opposite", "same", "no side"],
)
def test_pairs_on_which_both_were_measured_say_whether_they_agree(pair, agree):
    found = conclude(of(many(arms(*pair), GROWN)))
    [told] = found.kinds
    assert told.agree is agree and told.question.outcome == "growth" and told.sentence.endswith(".")


@pytest.mark.parametrize(
    "results",
    [
        [arms(60, 40)],
        [arms(60, 40), GROWN | {"parts": [SHORT]}],
        [arms(60, 40, relative_to=SHORT), GROWN],
    ],
    ids=["one kind", "another part", "a ratio"],
)
def test_other_answers_are_not_compared(results):
    assert conclude(of({"one": study(results, n=30)})).kinds == []


# --- growth along length ----------------------------------------------------------------------------------------------


def test_what_length_seems_to_add_is_told_of_each_muscle_whose_lengths_are_known():
    """Growth factors 1.02 against 1.20 at a length of 0.3 against 0.8: a steep line, drawn towards the prior's 0.05."""
    shares = {A: 0.3, B: 0.8}
    found = conclude(of(many(GROWN, k=3)), lambda exercise, part: shares.get(exercise, "not known"))
    slope = found.slopes["lantern"]
    assert (
        0.05 < slope.mean < log(1.20 / 1.02) / 0.5
        and slope.people == 90
        and slope.differences == pytest.approx((0.5, 0.5))
    )
    assert conclude(of(many(GROWN))).slopes == {}
    assert conclude(of(many(GROWN)), lambda exercise, part: "not known").slopes == {}


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
        and found.fields[LONG, "activation", None].comparisons[0].side == "more"
    )
    assert [found.of(id)[0].finding for id in (A, B)] == ["found", "found"], (
        "more with A is less with B"
    )


@pytest.mark.parametrize(
    ("told", "start"),
    [
        ({"common_practice": "Taught."}, "Commonly taught, untested here: "),
        ({"similar_to": {"exercise": B}}, "Cited, but untested here: "),
        ({"less_than": {"part": SHORT}}, "Cited, but untested here: "),
    ],
)
def test_what_nothing_tests_is_told_as_claimed(told, start):
    assert judged({}, **told).sentence.startswith(start)


def test_the_demo_concludes_as_its_numbers_say(demo):
    """Growth factors 1.14 and 1.09 with p < 0.01 in 18 people: a ratio of 1.046, whose spread nobody printed."""
    found = conclude(demo)
    growth_claim, taught = found.of("crate-curl")
    assert (growth_claim.finding, taught.finding) == ("hinted", "not studied")
    answer = growth_claim.comparisons[0]
    assert answer.estimate.ratio == pytest.approx(1.14 / 1.09) and answer.borrowed
    assert answer.rows[0].texts == (
        "Seated crate curl 14%, standing cable curl 9%; p < 0.01 (abstract)",
    )
    assert answer.rows[0].read == "abstract"


def test_published_numbers_reach_the_shipped_sentence(concluded):
    """Maeo et al. 2021, Med Sci Sports Exerc 53:825-837, abstract: whole hamstrings +14% seated, +9% prone."""
    told = [
        c.sentence
        for c in concluded.of("seated-leg-curl")
        if any(r.study == "maeo2021" for x in c.comparisons for r in x.rows)
    ]
    assert any("14% against 9%" in text for text in told)
    assert not any(f.rule == "unusable-number" for f in concluded.findings)
