"""The page of moved statements: newest first, where they stand now, and why as far as it is known."""

from __future__ import annotations

import re
import shutil
from html import unescape
from pathlib import Path

import pytest
from folders import DEMO
from site_building import render

from build_tools.catalog.load import load
from build_tools.committed import record
from build_tools.site.book import Book
from build_tools.site.pages.evidence import changes


def page(book: Book) -> str:
    return next(page.text for page in book.pages if page.uri == changes.URI)


def words(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def book_of(folder: Path, *replaced: tuple[str, str]) -> Book:
    """The book of the demo with its record changed."""
    root = Path(shutil.copytree(DEMO, folder / "catalog"))
    text = (root / record.FILE).read_text()
    for old, new in replaced:
        assert old in text
        text = text.replace(old, new)
    (root / record.FILE).write_text(text)
    return render(load(root, "catalog"))


def test_the_newest_day_comes_first_with_its_counts(demo_book: Book) -> None:
    text = page(demo_book)
    assert re.findall(r"^## (.+?) \{#(.+)\}", text, re.MULTILINE) == [
        ("1 November 2026", "day-2026-11-01"),
        ("1 October 2026", "day-2026-10-01"),
    ]
    assert "1 statement moved: 1 weaker. The rule for lamps changed." in words(text)
    assert "Gone: 1 statement on exercises" in text and "New: 1 pair on parts" in text


def test_a_move_says_both_sentences_and_why(demo_book: Book) -> None:
    """Sentences that both sides share are left out; studies that came and went are named."""
    told = words(page(demo_book))
    assert "Now: In one small study, growth of the long head leaned towards" in told
    assert "Before: No clear difference in growth of the long head" in told
    assert "The range is taken" not in told
    assert re.search(r"Why: .+ 2030 came in\. .+ 2031 no longer counts\.", told)
    assert re.search(r"Why: Same study, weighed anew: .+ 2030\.", told)


def test_a_claim_is_found_under_the_number_that_it_has_now(tmp_path: Path) -> None:
    moved = book_of(tmp_path, ("/exercises/crate-curl/#claim-1", "/exercises/crate-curl/#claim-7"))
    assert 'href="../exercises/crate-curl/#claim-1"' in page(moved)


def test_what_is_gone_is_told_without_a_link(tmp_path: Path) -> None:
    gone = book_of(
        tmp_path,
        ("/exercises/crate-curl/#claim-1", "/exercises/old-curl/#claim-1"),
        ("first: crate-curl", "first: old-curl"),
    )
    assert "<b>Firmer.</b> Old-curl against standing cable curl: growth, long head of" in page(gone)


def test_the_same_words_for_several_parts_are_one_line(tmp_path: Path) -> None:
    again = """      - at: "/muscles/lantern/short-head/#growth-cable-curl-crate-curl"
        outcome: growth
        first: cable-curl
        second: crate-curl
        before:
          sentence: "The crate curl grew the long head more."
          answers:
            - [lantern/short-head, found, less, low]
          rests on: [wick2030]
        now:
          sentence: "The crate curl may grow the long head more."
          answers:
            - [lantern/short-head, hinted, less, very low]
          rests on: [wick2030]
    gone:
"""
    both = page(book_of(tmp_path, ("    gone:\n", again)))
    assert both.count("Now:</b> The crate curl may grow") == 1
    assert "2 statements moved: 2 weaker." in both
    line = next(line for line in both.splitlines() if "<b>Weaker.</b>" in line)
    assert words(line) == (
        "Weaker. Standing cable curl against crate curl: growth, "
        "long head of the lantern muscle , short head of the lantern muscle"
    )


@pytest.mark.parametrize(
    ("because", "expected"),
    [
        ("[study wick2030]", "Why: What is entered of Wick et al. 2030 changed."),
        ("[convention margin_growth]", "Why: A convention changed: margin growth."),
        ("[rule]", "Why: A rule of the program changed; Wick et al. 2030 is as before."),
        (
            "[entry exercises/crate-curl, model]",
            "Why: What is entered of the exercises or their muscles changed. The model of lengths changed.",
        ),
        ("[vocabulary]", "Why: What is laid down of measures, designs or positions changed."),
    ],
)
def test_what_is_known_of_the_reason_is_told(tmp_path: Path, because: str, expected: str) -> None:
    """Studies that came in or went say it all; of the same studies it is told what changed."""
    book = book_of(tmp_path, ("    gone:\n", f"        because: {because}\n    gone:\n"))
    assert expected in words(page(book))


def test_a_long_list_can_be_narrowed(
    tmp_path: Path, demo_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert 'data-part="narrow"' not in page(demo_book)
    monkeypatch.setattr(changes, "LONG", 2)
    long = page(book_of(tmp_path))
    assert '<option value="lantern">' in long and '<option value="weaker">Weaker</option>' in long
    assert long.count('<li data-entry data-muscle="lantern"') == 2


def test_a_handbook_without_a_record_says_so(tmp_path: Path) -> None:
    root = Path(shutil.copytree(DEMO, tmp_path / "catalog"))
    (root / record.FILE).unlink()
    assert "Nothing is recorded yet." in page(render(load(root, "catalog")))
