"""The page of methods: every convention, verdict and word, and a worked example."""

from __future__ import annotations

from dataclasses import replace
from typing import get_args

import pytest
from folders import ROOT
from made import LONG, POOLED, a_book, compared, concluded, row

from build_tools.evidence.certainty.words import MEANING
from build_tools.evidence.claims.conclusions import Question
from build_tools.evidence.claims.verdict import RatioInterval, Verdict
from build_tools.evidence.wording.names import Names
from build_tools.evidence.wording.sentences import Behind, answer
from build_tools.site.book import Book
from build_tools.site.pages import methods


def methods_page(made: Book) -> str:
    return made.fill("methods.md", (ROOT / "content" / "methods.md").read_text(encoding="utf-8"))


def test_the_worked_example_is_chosen_by_rule() -> None:
    alone = compared(
        "crate-curl", "cable-curl", row(estimate=(1.5, 1.2, 1.9)), estimate=(1.5, 1.2, 1.9)
    )
    made = a_book([concluded(alone), concluded(POOLED, index=1)])
    found = methods.chosen(made.shelf)
    assert found and found[0].index == 1  # several samples before one
    text = methods_page(made)
    assert "3.5% more (from 0.5% more to 6.6% more)" in text and "2 more samples bear on it" in text
    without = methods_page(
        a_book([concluded(compared("crate-curl", "cable-curl", row(direction="more")))])
    )
    assert "No claim of this handbook rests on a pooled number yet" in without


def test_methods_says_what_an_assumed_correlation_changes() -> None:
    sensitive = replace(
        POOLED, sensitive="It rests on an assumed correlation: there would be likeness with 0.9."
    )
    assert "there would be likeness with 0.9." in methods_page(a_book([concluded(sensitive)]))
    assert "Over these ranges no claim of this handbook gets another answer." in methods_page(
        a_book([concluded(POOLED)])
    )


def test_methods_explains_every_convention_and_every_word(demo_book: Book) -> None:
    text = methods_page(demo_book)
    for _, convention in demo_book.shelf.handbook.conventions.items():
        assert convention.means in text and (convention.common_practice or "") in text
    for word in (
        "Shown",
        "Leaning",
        "Not shown",
        "Contradicted",
        "Untested",
        "High",
        "Moderate",
        "Low",
        "Very low",
    ):
        assert f"<dt>{word}</dt>" in text


@pytest.mark.parametrize("level", MEANING)
def test_methods_quotes_the_words_that_sentences_use(level: str, demo_book: Book) -> None:
    question = Question("crate-curl", "cable-curl", LONG, "growth")
    said = answer(
        Names(demo_book.shelf.catalog),
        question,
        (LONG,),
        "more",
        level,  # type: ignore[arg-type]
        Behind("1 study of 18 people"),
        RatioInterval(1.1, 1.05, 1.2),
    )
    assert f"{methods.WORDING[level]} " in said[0].lower() + said[1:]


def test_methods_knows_every_verdict() -> None:
    """Against what the judge itself can say."""
    assert set(methods.VERDICTS) == set(get_args(Verdict))


def test_dois_lead_to_the_handbooks_own_page_where_there_is_one(demo_book: Book) -> None:
    desk = demo_book.shelf.at("methods.md")
    pieces = methods.linked(
        desk, "Ours (doi:10.0000/invented.1), theirs (doi:10.1186/1471-2288-8-79, Table 3)."
    )
    assert [piece.href for piece in pieces if piece.href] == [
        "../sources/wick2030/",
        "https://doi.org/10.1186/1471-2288-8-79",
    ]
    assert (
        "".join(piece.text for piece in pieces if not piece.href) == "Ours (), theirs (, Table 3)."
    )
