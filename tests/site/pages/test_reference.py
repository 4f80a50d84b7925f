"""What the page of a study says was made of its numbers."""

from __future__ import annotations

from dataclasses import replace

from made import LONG, POOLED, a_book, compared, concluded, page, row, two_lists


def test_a_study_page_says_what_was_made_of_its_numbers() -> None:
    either_way = compared(
        "cable-curl", "crate-curl", row(estimate=(0.95, 0.9, 1.0)), estimate=(0.95, 0.9, 1.0)
    )
    made = a_book([concluded(POOLED)], fields=[replace(two_lists(), comparisons=(either_way,))])
    text = page(made, "sources/wick2030.md")
    result = text.partition('id="result-1"')[2].partition("</tbody>")[0]
    assert (
        "What the handbook made of it (1)" in result
    )  # the same question the other way round is not told again
    assert (
        f"Standing cable curl against crate curl, {made.shelf.names.part(LONG).removeprefix('the ')}"
        in result
    )
    assert "5% less (from 10% less to no difference)" in result and "Taken back from t." in result
    assert "It enters no comparison of this handbook." in text.partition('id="result-2"')[2]
