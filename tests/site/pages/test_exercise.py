"""What the page of an exercise says of conclusions that the demo catalog does not have."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from made import LONG, POOLED, SHORT, a_book, compared, concluded, outlook, page, row

from build_tools.evidence.claims.conclusions import ClaimFinding, KindsCompared, Row
from build_tools.evidence.terms import Question
from build_tools.evidence.wording.sentences import ComposedAnswer
from build_tools.site.sections import statements


def test_a_claim_shows_its_finding_and_certainty_in_words() -> None:
    made = a_book([concluded(POOLED)])
    text = page(made, "exercises/crate-curl.md")
    assert "Composed on the claim." in text
    assert re.search(r"Finding</a>: found\. .*Certainty</a>: low\.", text)
    below = text.partition("Numbers and reasons")[2]
    for words in (
        f"The crate curl grows {made.shelf.names.part(LONG)} more than the standing cable curl.",
        "The interval lies there.",
        "Curl 14%, other 9%",
        "Taken back from t.",
        "No spread reported.",
        "<b>One level down.</b> Few people.",
        "<b>Two levels down.</b> The samples differ.",
        "<b>At most moderate.</b> Read in the abstract only.",
        "The chance that the crate curl is ahead at all is 98%; by 2% or more, 80%.",
        "One more study of 20 people would change this answer with a chance of 34%.",
        "If one more study found ...",
    ):
        assert words in below


@pytest.mark.parametrize("noise", [-(2**-53), 0, 2**-53])
def test_at_even_chances_the_last_digit_of_a_machine_names_nobody(noise: float) -> None:
    made = a_book([concluded(replace(POOLED, more=0.5 + noise))])
    assert "The chance that the crate curl is ahead at all is 50%" in page(
        made, "exercises/crate-curl.md"
    )


def test_what_one_more_study_would_make_of_it_is_told_one_step_further_below() -> None:
    text = page(a_book([concluded(POOLED)]), "exercises/crate-curl.md")
    table = text.partition("If one more study found ...</summary>")[2].partition("</table>")[0]
    rows = [re.sub("<[^>]+>", " ", row).split() for row in table.split("<tr>")[1:]]
    assert [" ".join(row) for row in rows] == [
        "It finds with 20 people with 80 people",
        "2% more with the standing cable curl Nothing clear Nothing clear",
        "No difference A lean: the crate curl A lean: the crate curl",
    ]


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        (
            {"finding": "hinted", "outlook": outlook(0.5)},
            "A study of about 40 people would settle it.",
        ),
        (
            {"finding": "unclear", "outlook": outlook(0.5, None)},
            "About three more studies of 20 people would settle it.",
        ),
        (
            {"finding": "unclear", "outlook": outlook(0.5, None, None)},
            "Not even 20 more studies like these would settle it.",
        ),
        (
            {"finding": "hinted", "outlook": outlook(0.5), "measured": "whole"},
            "What is missing is a study that measures it alone.",
        ),
    ],
)
def test_what_would_settle_an_open_answer(changed: dict[str, object], words: str) -> None:
    made = a_book([concluded(replace(POOLED, **changed))])
    assert words in page(made, "exercises/crate-curl.md")


def test_what_follows_a_sentence_stands_apart_from_it() -> None:
    told = (
        ComposedAnswer("One head grew more.", ("Lying down.",)),
        ComposedAnswer("So did the other.", ()),
        ComposedAnswer("", ("One leg.",)),
    )
    text = page(a_book([concluded(POOLED, told=told)]), "exercises/crate-curl.md")
    claim = text.partition('id="claim-1"')[2].partition("<svg")[0]
    paragraphs = [
        re.sub("<[^>]+>", "", p) for p in claim.split('<p class="hb-sentence" data-said>')[1:]
    ]
    assert [p.partition("\n")[0].strip() for p in paragraphs] == [
        "One head grew more. Lying down.",
        "So did the other.",
        "One leg.",
    ]


def test_statements_stand_by_weight_and_what_says_less_is_folded_by_number() -> None:
    findings: list[ClaimFinding] = ["not studied", "unclear", "hinted", "found", "unclear"]
    desk = a_book([concluded(POOLED)]).shelf.at("exercises/crate-curl.md")
    desk.shelf.conclusions.claims["crate-curl"] = [
        replace(concluded(POOLED), finding=finding, certainty=None) for finding in findings
    ]
    groups = statements.view(desk, "crate-curl")
    assert [claim.finding for claim in groups[0].claims] == ["found", "hinted"]
    assert [(heading, len(claims)) for heading, claims in groups[0].folded] == [
        ("Measured, nothing clear", 2),
        ("Taught, or printed without a test", 1),
    ]
    told = statements.left_out(desk, groups)
    assert "measured, nothing clear 2 and taught, or printed without a test 1" in told


def test_two_parts_of_one_exercise_carry_no_mark_of_the_map() -> None:
    within = replace(POOLED, question=Question(LONG, SHORT, LONG, "growth", within="crate-curl"))
    for comparison, marked in ((POOLED, True), (within, False)):
        text = page(a_book([concluded(comparison)]), "exercises/crate-curl.md")
        found = text.partition('<p class="hb-found">')[2].partition("</p>")[0]
        assert ("hb-sign" in found) is marked


def test_a_statement_leads_to_the_table_of_its_study_in_one_step() -> None:
    text = page(a_book([concluded(POOLED)]), "exercises/crate-curl.md")
    found = text.partition('<p class="hb-found">')[2].partition("</p>")[0]
    assert re.search(r'href="\.\./\.\./sources/[^"]+#result-\d+"', found), found


def test_nothing_is_asked_to_settle_what_was_found() -> None:
    assert "would settle it" not in page(a_book([concluded(POOLED)]), "exercises/crate-curl.md")


def test_what_is_folded_twice_stays_out_of_the_search() -> None:
    """The theme's search ends an exclusion at the first end tag of the same name, so only another tag may hold the folds."""
    text = page(a_book([concluded(POOLED)]), "exercises/crate-curl.md")
    fold = text.partition("<aside data-search-exclude>")[2].partition("</aside>")[0]
    assert fold.count("<details") == 2 and "<aside" not in fold


def test_an_opposite_finding_shows_the_sentence_and_the_authors_reason() -> None:
    made = a_book([concluded(POOLED, finding="opposite")], disputed="Their crate was too low")
    text = page(made, "exercises/crate-curl.md")
    visible = text.partition("## What it favours")[2].partition("<details")[0]
    assert "Composed on the claim." in visible and "Finding</a>: opposite." in visible
    assert "<b>The author disputes this:</b> Their crate was too low." in visible
    assert (
        "Their crate was too low."
        in page(made, "gaps.md").partition("## Disagreements")[2].partition("\n## ")[0]
    )


@pytest.mark.parametrize(
    ("agree", "heading"),
    [
        (True, "Activation and growth agree."),
        (False, "Activation and growth part ways."),
        (None, "Activation and growth, both measured."),
    ],
)
def test_whether_activation_and_growth_agree_is_told_on_the_pages(
    agree: bool | None, heading: str
) -> None:
    sentence = "What growth and activity say of it."
    asked = Question("crate-curl", "cable-curl", LONG, "growth")
    made = a_book([concluded(POOLED)], kinds=[KindsCompared(asked, agree, sentence)])
    for uri in (
        "exercises/crate-curl.md",
        "exercises/cable-curl.md",
        "muscles/lantern/long-head.md",
    ):
        before, found, _ = page(made, uri).partition(f"<b>{heading}</b> {sentence}")
        assert found and before.count("<details") == before.count("</details")
    assert sentence not in page(made, "exercises/lamp-raise.md")
    assert (sentence in page(made, "gaps.md")) == (agree is False)


@pytest.mark.parametrize(
    ("given", "words"),
    [
        (row(estimate=(1.05, 1.01, 1.09)), "5% more (from 1% more to 9% more)"),
        (row(ratio=1.05, direction="more"), "5% more, without a spread of its own"),
        (row(direction="less"), "less, by how much is not known"),
        (row(direction="neither"), "no difference reported"),
        (row(stated=True), "different answers in different measurements"),
        (
            row(direction="more", stated=False),
            "unequal, but no test of the two was read, so not counted",
        ),
        (row(), "no direction given"),
    ],
)
def test_a_sample_in_words_on_the_page_and_in_the_drawing(given: Row, words: str) -> None:
    made = a_book(
        [concluded(compared("crate-curl", "cable-curl", given, row("glow2031", (1.5, 1.2, 1.8))))]
    )
    text = page(made, "exercises/crate-curl.md")
    assert f"<b>{words}</b>" in text
    drawn = text.partition('<svg class="hb-plot"')[2].partition("</figure>")[0]
    assert (words in drawn) == (
        given.stated or given.estimate is not None
    )  # what nobody stated is not drawn
