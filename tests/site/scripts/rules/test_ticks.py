"""What a client ticks off.

Outside check: the hash by the test vectors of FNV-1a, 64 bits, in IETF draft-eastlake-fnv (from memory), and by that algorithm written anew.
"""

from __future__ import annotations

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st
from script_rules import ticks

SIZES = st.lists(st.integers(1, 20), min_size=1, max_size=12)


@pytest.mark.parametrize(
    ("text", "hash"),
    [("", "cbf29ce484222325"), ("a", "af63dc4c8601ec8c"), ("foobar", "85944171f73967e8")],
)
def test_the_name_is_the_published_hash(text: str, hash: str) -> None:
    assert ticks.hashed(text) == hash


@given(st.text(string.ascii_letters + string.digits + ".-_"))
def test_the_name_of_any_fragment(text: str) -> None:
    hash = 0xCBF29CE484222325
    for byte in text.encode():
        hash = (hash ^ byte) * 0x100000001B3 % 2**64
    assert ticks.hashed(text) == f"{hash:016x}"


@given(
    SIZES.flatmap(
        lambda all: st.tuples(*(st.lists(st.booleans(), min_size=n, max_size=n) for n in all))
    )
)
def test_what_is_kept_comes_back(marks: tuple[list[bool], ...]) -> None:
    sizes = [len(each) for each in marks]
    kept = ticks.write(list(marks))
    assert (kept is None) == (not any(map(any, marks)))
    assert ticks.read(kept, sizes) == list(marks)


@pytest.mark.parametrize("text", [None, "", "11", "11.0.1", "12.0", "11.00", "11.0.", "<b>"])
def test_what_does_not_fit_counts_as_nothing(text: str | None) -> None:
    assert ticks.read(text, [2, 1]) == [[False, False], [False]] == ticks.blank([2, 1])
