"""Addresses that name what has another id since, each by a case; addresses are read back as form data is (``urllib.parse``)."""

from __future__ import annotations

from urllib.parse import parse_qs

import pytest
from hypothesis import given
from hypothesis import strategies as st
from script_rules import moved as rules

MOVED = {
    "exercises": {"lamp-curl": "crate-curl", "box": "crate"},
    "parts": {"lamp/wick": "lantern/long-head", "lamp": "lantern"},
}


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("", ""),
        ("part=lamp/wick", "part=lantern/long-head"),
        ("part=lamp%2Fwick&has=band", "part=lantern/long-head&has=band"),
        ("parts=lamp/wick,lantern/long-head&week=AbC_-", "parts=lantern/long-head&week=AbC_-"),
        ("exercises=lamp-curl,lamp,lamp-curl", "exercises=crate-curl,lamp"),
        # Another field, another kind, and what is no field at all.
        ("name=lamp&part=box", "name=lamp&part=box"),
        ("week=lamp-curl&exercises", "week=lamp-curl&exercises"),
        ("part=constructor&__proto__=lamp", "part=constructor&__proto__=lamp"),
        ("part=lamp=wick", "part=lamp=wick"),
    ],
)
def test_each_field(before: str, after: str) -> None:
    assert rules.renewed(before, MOVED) == after


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["part", "parts", "exercises", "name", "week"]),
            st.lists(
                st.sampled_from(["lamp", "lamp-curl", "lamp/wick", "x"]), min_size=1, unique=True
            ),
        ),
        unique_by=lambda field: field[0],
        min_size=1,
    )
)
def test_every_old_id_and_nothing_else_is_replaced(fields: list[tuple[str, list[str]]]) -> None:
    text = "&".join(f"{name}={','.join(values)}" for name, values in fields)
    kinds = {"part": "parts", "parts": "parts", "exercises": "exercises"}
    expected = {
        name: [
            ",".join(
                dict.fromkeys(
                    MOVED.get(kinds.get(name, ""), {}).get(value, value) for value in values
                )
            )
        ]
        for name, values in fields
    }
    renewed = rules.renewed(text, MOVED)
    assert parse_qs(renewed) == expected
    assert rules.renewed(renewed, MOVED) == renewed
