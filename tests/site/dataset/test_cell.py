"""Cells of CSV: what the csv module reads back, and what no spreadsheet takes for a formula."""

from __future__ import annotations

import csv
import io

import pytest
from hostile import HOSTILE
from hypothesis import given
from hypothesis import strategies as st

from build_tools.site.dataset.cell import cell, written

#: The first characters that OWASP's page on CSV injection names.
FIRST = ["=", "+", "-", "@", "\t", "\r", "\n"]


@pytest.mark.parametrize("first", FIRST)
def test_a_text_that_looks_like_a_formula_is_marked(first: str) -> None:
    assert cell(f"{first}1+1") == f"'{first}1+1"
    assert cell([f"{first}1", "b"]) == f"'{first}1 | b"


@pytest.mark.parametrize(
    ("value", "expected"),
    [(-3.5, "-3.5"), (12.0, "12"), (0.1 + 0.2, "0.3"), (7, "7"), (None, ""), (True, "yes"), (False, "no"),
     ("'quoted", "'quoted"), ([], "")],
)  # fmt: skip
def test_what_is_no_text_is_not_marked(value: object, expected: str) -> None:
    assert cell(value) == expected  # type: ignore[arg-type]


@given(st.lists(st.lists(HOSTILE, min_size=3, max_size=3), max_size=5))
def test_rows_come_back_as_they_were(rows: list[list[str]]) -> None:
    """By the standard library's reader, lines ended by CR LF as RFC 4180 has them (section 2, 1)."""
    text = written(["a", "b", "c"], rows).decode()
    read = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert read == [["a", "b", "c"], *([cell(value) for value in row] for row in rows)]
    assert text.endswith("\r\n")
    assert not any(value.startswith(tuple(FIRST)) for row in read for value in row)
