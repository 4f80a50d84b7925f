"""The page of methods: every convention, finding and word, and a worked example."""

from __future__ import annotations

import html
import re
from dataclasses import replace
from typing import get_args

import pytest
from made import POOLED, a_book, compared, concluded, row

from build_tools.evidence.certainty.rating import LEVELS
from build_tools.evidence.certainty.words import MEANING
from build_tools.evidence.claims.conclusions import ClaimFinding
from build_tools.evidence.wording.table import ROWS
from build_tools.site.book import Book
from build_tools.site.pages import methods
from build_tools.site.sections import labels


def methods_page(made: Book) -> str:
    return made.fill("methods.md", made.written["methods.md"])


def test_the_worked_example_is_chosen_by_rule() -> None:
    alone = compared(
        "crate-curl", "cable-curl", row(estimate=(1.5, 1.2, 1.9)), estimate=(1.5, 1.2, 1.9)
    )
    made = a_book([concluded(alone), concluded(POOLED, index=1)])
    found = methods.chosen(made.shelf)
    assert found and found[0].index == 1  # several samples before one
    text = methods_page(made)
    assert "3.5% more (from 0.5% more to 6.6% more)" in text
    assert "1 more without a spread of its own" in text
    example = text.partition("{#example}")[2].partition("<svg")[0]
    for study in ("Wick et al. 2030", "Glow 2031"):  # what each paper prints, and its ratio
        assert example.count(study) == 2
    without = methods_page(
        a_book([concluded(compared("crate-curl", "cable-curl", row(direction="more")))])
    )
    assert "No claim of this handbook rests on a pooled number yet" in without


def test_methods_says_what_an_assumed_correlation_changes() -> None:
    sensitive = replace(
        POOLED, sensitive="It rests on what is assumed: there would be likeness with 0.9."
    )
    assert "there would be likeness with 0.9." in methods_page(a_book([concluded(sensitive)]))
    assert "Over these ranges no claim of this handbook gets another answer." in methods_page(
        a_book([concluded(POOLED)])
    )


def test_methods_explains_every_convention_and_every_word(demo_book: Book) -> None:
    text = methods_page(demo_book)
    for _, convention in demo_book.shelf.handbook.conventions.items():
        assert convention.means in text and (convention.common_practice or "") in text
    for word in (*labels.FINDINGS, *MEANING):
        assert f"<dt>{word[0].upper()}{word[1:]}</dt>" in text
    assert "erdict" not in re.sub('id="verdicts"', "", text)


@pytest.mark.parametrize("row", ROWS)
def test_methods_prints_the_table_that_sentences_are_made_from(row: str, demo_book: Book) -> None:
    text = methods_page(demo_book)
    table = text.partition("hb-sentences")[2].partition("</table>")[0]
    for level in LEVELS:
        said = html.escape(methods.phrase(row, level), quote=False)  # type: ignore[arg-type]
        assert said in table.replace("&#39;", "'").replace("&#34;", '"')


def test_methods_knows_every_finding() -> None:
    """Against what the judge itself can say."""
    assert set(labels.FINDINGS) == set(get_args(ClaimFinding))


def test_anchors_that_pages_ever_linked_to_are_there(demo_book: Book) -> None:
    """``verdicts`` is what ``findings`` was called once."""
    text = methods_page(demo_book)
    former = [
        "verdicts",
        "certainty",
        "conventions",
        "posture",
        "example",
        "ratio",
        "together",
        "not",
    ]
    for anchor in {*methods.ANCHORS, *former}:
        assert f"{{#{anchor}}}" in text or f'id="{anchor}"' in text


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
