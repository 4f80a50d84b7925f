"""The lines of a copied statement, by cases made for them. In a browser: ``site/client/test_share.py``."""

from __future__ import annotations

from script_rules import citation

BOOK = {
    "title": "Lantern Yard handbook",
    "owner": "Lantern Yard",
    "licence": "CC0-1.0",
    "reviewed": "1 December 2026",
    "references": {"wick2030": ["Wick, A. (2030). Glow. https://doi.org/10.1/x", "abstract read"]},
}
STATEMENT = {
    "sentence": "  It grew\n more.  ",
    "sure": "Certainty: low",
    "cited": ["wick2030"],
    "names": {"wick2030": "Wick 2030"},
    "address": "https://lantern.example/a/#claim-1",
    "today": "2 December 2026",
    "book": BOOK,
}


def test_sentence_certainty_sources_days_licence_and_address_stand_in_lines() -> None:
    assert citation.citation(STATEMENT).splitlines() == [
        "“It grew more.” Certainty: low.",
        "Wick, A. (2030). Glow. https://doi.org/10.1/x [abstract read]",
        "Lantern Yard handbook, Lantern Yard. Last reviewed 1 December 2026; copied 2 December 2026. Licence: CC0-1.0.",
        "https://lantern.example/a/#claim-1",
    ]


def test_without_records_the_short_names_stand() -> None:
    bare = citation.citation({**STATEMENT, "sure": "", "book": None}).splitlines()
    assert bare == [
        "“It grew more.”",
        "Wick 2030",
        "Copied 2 December 2026.",
        "https://lantern.example/a/#claim-1",
    ]


def test_each_source_counts_once_and_only_sources_count() -> None:
    hrefs = [
        "../../sources/wick2030/#result-1",
        "sources/wick2030/",
        "../../sources/",
        "#claim-1",
        "/x/sources/glow2031/",
    ]
    assert citation.keys(hrefs) == ["wick2030", "glow2031"]


def test_rows_of_an_answer_become_sentences() -> None:
    assert (
        citation.sentences([["Choose", " Crate curl "], ["Why", "It grew more."]])
        == "Choose: Crate curl. Why: It grew more."
    )
