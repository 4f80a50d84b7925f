"""BibTeX as a format: where things stand, what is none, and files meant to harm."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

import pytest
from bibliography_records import GOOD, NEXT, read, record
from folders import ROOT

from build_tools.catalog.bibliography.bibtex import MAX_PROBLEMS
from build_tools.catalog.bibliography.references import (
    WHOLE_FILE,
)


def test_places_and_order(tmp_path: Path) -> None:
    text = (
        "% note\n\n"
        + GOOD
        + '\n  @article(amber2031, author="Amber, C", title={T},\njournal={J}, year={2031}, read={record})'
    )
    references, findings, broken = read(tmp_path, "\ufeff" + text.replace("\n", "\r\n"))
    assert findings == [] and not broken
    assert [(r.key, r.spot.line, r.spot.column) for r in references.values()] == [
        ("amber2031", 11, 3),
        ("wick2030", 3, 1),
    ]


def test_duplicates(tmp_path: Path) -> None:
    references, findings, broken = read(
        tmp_path,
        GOOD + "\n" + GOOD.replace("2030,\n  author", "2030,\n  year = 1999,\n  author") + GOOD,
    )
    assert findings == [
        ("duplicate-key", 9, 10, "the key `wick2030` is taken by the record on line 1"),
        ("duplicate-key", 17, 10, "the key `wick2030` is taken by the record on line 1"),
    ]
    assert references["wick2030"].spot.line == 1 and not broken
    assert read(tmp_path, record().replace("  year", "  Title = {U},\n  year"))[1] == [
        ("duplicate-key", 5, 3, "the field `title` stands here a second time")
    ]


def test_macros(tmp_path: Path) -> None:
    text = "@string{il = {Invented} # { Letters}}\n" + GOOD.replace(
        "{Invented Letters}", "IL"
    ).replace("  read", "  month = jan,\n  read")
    assert read(tmp_path, text)[0]["wick2030"].journal == "Invented Letters"
    # Macros of one file are unknown in the next.
    assert read(tmp_path, GOOD.replace("{Invented Letters}", "il"))[1] == [
        ("bibtex-syntax", 4, 13, "`il` is not defined by any @string")
    ]


UNMATCHED = "the braces or quotes from here on do not match"


@pytest.mark.parametrize(
    ("text", "line", "column", "message"),
    [
        (GOOD.replace("On lanterns}", "On lanterns"), 3, 3, UNMATCHED),
        (GOOD.replace("{On lanterns}", '"On lanterns'), 3, 3, UNMATCHED),
        (GOOD.replace("{On lanterns},", "{On lanterns}"), 4, 3, "this is not BibTeX: '}' expected"),
        (GOOD.replace("{On lanterns}", "On lanterns"), 3, 11, "`On` is not defined by any @string"),
        (GOOD.replace("title =", "title"), 3, 9, "this is not BibTeX: '=' expected"),
        (GOOD.replace("On lanterns}", "On} lanterns}"), 3, 16, "this is not BibTeX: '}' expected"),
        (GOOD.replace("{On lanterns}", '"On } lanterns"'), 3, 3, UNMATCHED),
        (GOOD.replace("On lanterns", "{" * 200 + "}" * 200), 3, 3, UNMATCHED),
        (GOOD.replace("wick2030,", ""), 2, 10, "this is not BibTeX: '}' expected"),
        ("@article wick2030\n", 1, 10, "this is not BibTeX: '(' or '{' expected"),
        ("Dear reader\n" + GOOD, 1, 1, "text outside a record"),
        (GOOD + "article{lost2030,\n}\n", 8, 1, "text outside a record"),
        (GOOD + "}\n", 8, 1, "text outside a record"),
    ],
)
def test_what_is_not_bibtex_does_not_hide_the_next_record(
    tmp_path: Path, text: str, line: int, column: int, message: str
) -> None:
    references, findings, broken = read(tmp_path, text + NEXT)
    assert ("bibtex-syntax", line, column, message) in findings
    assert {rule for rule, *_ in findings} == {"bibtex-syntax"} and len(findings) <= 2
    assert "next2031" in references and broken and broken <= {"wick2030", WHOLE_FILE, "author"}


def test_comments_are_free(tmp_path: Path) -> None:
    references, findings, _ = read(
        tmp_path, "% a comment\n  % another\n@comment{anything {at} all}\n" + GOOD + "% end"
    )
    assert findings == [] and list(references) == ["wick2030"]


HOSTILE = {
    "an unclosed quote before many braces": '@a{k, t = "' + "{}" * 200_000,
    "an unclosed brace in every record": "@article{k,t={\n" * 250_000,
    "only braces": "@a{k, t = " + "{" * 1_000_000,
    "only at signs": "@" * 1_000_000,
    "many names": "@article{k, author={" + "A and " * 40_000 + "B}}",
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_hostile_files_are_answered_in_time(tmp_path: Path, text: str) -> None:
    start = time.perf_counter()
    _, findings, broken = read(tmp_path, text)
    assert findings and broken and len(findings) <= MAX_PROBLEMS + 1
    assert time.perf_counter() - start < 10


def test_reading_nothing_does_not_import_pybtex() -> None:
    script = "import sys, build_tools.catalog.load; sys.exit('pybtex' in sys.modules or 'latexcodec' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", script], cwd=ROOT).returncode == 0
