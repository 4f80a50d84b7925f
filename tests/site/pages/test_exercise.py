"""What the page of an exercise says of conclusions that the demo catalog does not have."""

from __future__ import annotations

import re

import pytest
from made import LONG, POOLED, a_book, compared, concluded, file, page, row

from build_tools.evidence.claims.conclusions import Disagreement, Question, Row


def test_a_claim_shows_its_verdict_and_certainty_in_words() -> None:
    made = a_book([concluded(POOLED)])
    text = page(made, "exercises/crate-curl.md")
    assert "Composed on the claim." in text
    assert re.search(r"Verdict</a>: shown\. .*Certainty</a>: low\.", text)
    below = text.partition("Numbers and reasons")[2]
    for words in (
        f"Growth of {made.shelf.names.part(LONG)} is greater with the crate curl",
        "The interval lies there.",
        "Curl 14%, other 9%",
        "Taken back from t.",
        "No spread reported.",
        "<b>One level down.</b> Few people.",
        "<b>Two levels down.</b> The samples differ.",
        "<b>At most moderate.</b> Read in the abstract only.",
        "A new study of the same question would be expected",
    ):
        assert words in below


def test_a_contradicted_claim_shows_the_sentence_and_the_authors_reason() -> None:
    made = a_book([concluded(POOLED, verdict="contradicted")], disputed="Their crate was too low")
    text = page(made, "exercises/crate-curl.md")
    visible = text.partition('<details class="hb-below">')[0]
    assert "Composed on the claim." in visible and "Verdict</a>: contradicted." in visible
    assert "<b>The author disputes this:</b> Their crate was too low." in visible
    assert (
        "Their crate was too low."
        in page(made, "gaps.md").partition("## Disagreements")[2].partition("## Thin")[0]
    )


def test_kinds_that_differ_are_told_on_the_page_and_among_the_gaps() -> None:
    sentence = "Growth and activity point different ways."
    made = a_book(
        [concluded(POOLED)],
        disagreements=[
            Disagreement(Question("crate-curl", "cable-curl", LONG, "growth"), sentence)
        ],
    )
    for id in ("crate-curl", "cable-curl"):
        text = page(made, f"exercises/{id}.md")
        assert sentence in text and text.rpartition(sentence)[0].count(
            "<details"
        ) == text.rpartition(sentence)[0].count("</details")
    assert sentence not in page(made, "exercises/lamp-raise.md")
    assert sentence in page(made, "gaps.md")


@pytest.mark.parametrize(
    ("given", "words"),
    [
        (row(estimate=(1.05, 1.01, 1.09)), "5% more (from 1% more to 9% more)"),
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
    drawn = file(made, "figures/exercises/crate-curl/claim-1-1.svg")
    assert (words in drawn) == (
        given.stated or given.estimate is not None
    )  # what nobody stated is not drawn
