"""Tables, read back by Python's ``csv``; cells that OWASP names (CSV injection: = + - @, tab, return) cannot begin a formula."""

from __future__ import annotations

import csv
import io

from hypothesis import given
from hypothesis import strategies as st
from script_rules import table

CELLS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00"), max_size=12)


@given(st.lists(st.lists(CELLS, min_size=2, max_size=2), min_size=1, max_size=4))
def test_every_cell_comes_back_and_none_is_a_formula(rows: list[list[str]]) -> None:
    text = table.table(rows)
    read = list(csv.reader(io.StringIO(text, newline="")))
    assert len(read) == len(rows)
    for got, given_row in zip(read, rows, strict=True):
        for cell, value in zip(got, given_row, strict=True):
            assert cell in (value, f"'{value}")
            assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))


def test_nothing_is_an_empty_cell() -> None:
    assert table.table([[None, 3, "a,b"]]) == ',3,"a,b"\r\n'
