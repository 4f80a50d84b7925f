"""What the manuals' examples do not show: outside forms, true siblings, and files that cannot be read."""

from __future__ import annotations

import importlib
from datetime import date
from pathlib import Path

import pytest
from examples import TODAY
from hypothesis import given
from hypothesis import strategies as st

from build_tools.catalog.load import load
from build_tools.checks.rule import Context, all_rules
from build_tools.checks.rules import (
    absolute_words,
    caution_asks,
    look_alike_letters,
    plain_text,
    reference_identifier,
    review_due,
)

RULES = all_rules()
DOI = reference_identifier.FORMS["doi"][0]


# DOI Handbook, "DOI Name Syntax": the two examples, and a prefix of numbers and points only (read as a copy of doi.info).
# The third is from memory of ISO 26324; the last two are in this repository's catalog.
@pytest.mark.parametrize(
    "doi",
    [
        "10.1000/xyz-123",
        "10.1109/5.771073",
        "10.1000.10/123456",
        "10.1249/MSS.0000000000002523",
        "10.1007/s00421-019-04181-y",
        "10.0000/invented.1",
    ],
)
def test_well_formed_doi(doi: str) -> None:
    assert DOI.fullmatch(doi)


@pytest.mark.parametrize(
    "doi",
    [
        "doi:10.1000/xyz-123",
        "https://doi.org/10.1000/xyz-123",
        "10.1000",
        "10.1000/",
        "11.1000/xyz",
        "10.abc/xyz",
        "10.1000/xyz 123",
        "10.1000/xyz-123.",
        "10.12/xyz",
    ],
)
def test_malformed_doi(doi: str) -> None:
    assert not DOI.fullmatch(doi)


# Crossref, "DOIs and matching regular expressions" (11 August 2015): /^10.\d{4,9}/[-._;()/:A-Z0-9]+$/i matches 74.4 of 74.9 million DOIs.
@given(st.from_regex(r"\A10\.[0-9]{4,9}/[-._;()/:A-Za-z0-9]{0,20}[A-Za-z0-9)]\Z"))
def test_every_modern_crossref_doi_is_well_formed(doi: str) -> None:
    assert DOI.fullmatch(doi)


@pytest.mark.parametrize(
    "ask",
    [
        "Ask a licensed physiotherapist or doctor.",
        "Your GP knows your history.",
        "Talk to your midwife first.",
        "Ask a registered health professional.",
        "See a qualified sports physiotherapist.",
    ],
)
def test_professionals(ask: str) -> None:
    assert caution_asks.PROFESSIONAL.search(ask)


@pytest.mark.parametrize(
    "ask",
    ["Ask your coach.", "Ask a professional.", "Ask a qualified friend.", "Ask at the gym's desk."],
)
def test_others_are_no_professionals(ask: str) -> None:
    assert not caution_asks.PROFESSIONAL.search(ask)


def test_every_absolute_word_has_its_remedy() -> None:
    assert (
        all(absolute_words.ABSOLUTE.values())
        and set(absolute_words.ABSOLUTE) > absolute_words.IN_INSTRUCTIONS
    )


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Plain words, 30 degrees.", []),
        ("naïve Élévation", []),
        ("жим лёжа", []),
        ("TGF-β and PGC-1α, 5 μV", []),
        ("Рress", ["Рress"]),
        ("curl with а cable", []),
        ("cаble", ["cаble"]),
        ("bοx", ["bοx"]),
    ],
)
def test_words_of_two_alphabets(text: str, words: list[str]) -> None:
    assert [word for word, _ in look_alike_letters.mixed(text)] == words


# The forms of CommonMark's own examples of emphasis, code, links, lists and entities, and of what is none of them (from memory).
@pytest.mark.parametrize(
    "text",
    [
        "*foo bar*",
        "**foo bar**",
        "_foo bar_",
        "`foo`",
        "[link](/uri)",
        "[foo][bar]",
        "- foo",
        "1. one",
        "# foo",
        "&copy; 2020",
        "https://foo.bar.baz",
        "foo@bar.example.com",
        "See www.foo.bar",
    ],
)
def test_markup(text: str) -> None:
    assert any(form.search(text) for _, form, _ in plain_text.MARKUP)


@pytest.mark.parametrize(
    "text",
    [
        "a * foo bar*",
        "foo_bar_baz",
        "5*6*78",
        "-one",
        "1.5 kg",
        "#hashtag",
        "Hold [gently] on.",
        "R&D; done",
        "Up, then down.The end.",
        "e.g. a band",
        "p.m. or a.m.",
    ],
)
def test_no_markup(text: str) -> None:
    assert not any(form.search(text) for _, form, _ in plain_text.MARKUP)


@pytest.mark.parametrize(
    ("day", "months", "due"),
    [
        (date(2024, 11, 30), 24, date(2026, 11, 28)),
        (date(2025, 12, 1), 1, date(2026, 1, 1)),
        (date(2026, 1, 31), 12, date(2027, 1, 28)),
    ],
)
def test_months_are_those_of_the_calendar(day: date, months: int, due: date) -> None:
    assert review_due.months_after(day, months) == due


@pytest.mark.parametrize(
    "file",
    [
        "muscles/lantern.yaml",
        "exercises/crate-curl.yaml",
        "exercises/cable-curl.yaml",
        "studies/wick2030.yaml",
        "studies/glow2031.yaml",
        "vocabulary.yaml",
        "handbook.yaml",
        "references.bib",
    ],
)
def test_a_file_that_cannot_be_read_does_not_cascade(file: str, demo: Path) -> None:
    (demo / file).write_text("{ broken", encoding="utf-8")
    catalog = load(demo, "demo")
    assert catalog.findings, "the file itself is reported"
    assert not [
        problem for rule in RULES.values() for problem in rule.check(Context(catalog, TODAY))
    ]


def test_a_published_id_without_an_entry_is_no_slip_of_the_pen(demo: Path) -> None:
    """`cable-curl` looks like another exercise, but the committed list knows it; its swap is told what became of it."""
    (demo / "exercises" / "cable-curl.yaml").rename(demo / "exercises" / "pulley-curl.yaml")
    told = helps(demo, "known_exercise")
    assert told and all(
        "`exercises: {cable-curl: its-new-id}`" in help and "did you mean" not in help
        for help in told
    )
    (demo / "moved.yaml").write_text("exercises: {cable-curl: pulley-curl}\n")
    assert set(helps(demo, "known_exercise")) == {"it has another id now: write `pulley-curl`"}
    (demo / "moved.yaml").write_text(
        "retired: {exercises: {cable-curl: {name: Cable curl, day: 2026-01-05, because: The cable tore.}}}\n"
    )
    assert set(helps(demo, "known_exercise")) == {
        "it was taken out on 2026-01-05 (The cable tore): name another, or leave it out"
    }


def test_a_published_part_and_source_without_an_entry_are_none_either(demo: Path) -> None:
    muscle = demo / "muscles" / "lantern.yaml"
    muscle.write_text(muscle.read_text().replace("  long-head:", "  great-head:"))
    assert all(
        "`parts: {lantern/long-head: its-new-id}`" in help for help in helps(demo, "known_part")
    )
    (demo / "moved.yaml").write_text("parts: {lantern/long-head: lantern/great-head}\n")
    assert set(helps(demo, "known_part")) == {"it has another id now: write `lantern/great-head`"}
    references = demo / "references.bib"
    references.write_text(references.read_text().replace("{wick2030,", "{wick2030a,"))
    assert any(
        "`sources: {wick2030: its-new-id}`" in help for help in helps(demo, "known_reference")
    )


def helps(catalog: Path, rule: str) -> list[str]:
    module = importlib.import_module(f"build_tools.checks.rules.{rule}")
    return [problem.help for problem in module.check(Context(load(catalog), date(2026, 12, 1)))]
