"""Differences of plain data: writing them back into the older side gives the newer one."""

from __future__ import annotations

import copy
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_tools.revisions import leaves
from build_tools.revisions.leaves import Leaf

SCALARS = st.one_of(st.integers(0, 3), st.booleans(), st.sampled_from(["a", "b", "c"]))
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(
        st.lists(SCALARS, max_size=4),
        st.dictionaries(st.sampled_from("kmn"), inner, min_size=1, max_size=3),
    ),
    max_leaves=8,
)
MAPPINGS = st.dictionaries(st.sampled_from("xyz"), VALUES, max_size=3)


def written_back(data: dict[str, Any], found: list[Leaf]) -> dict[str, Any]:
    """The older data with every leaf put in its place: an independent few lines, for mappings."""
    data = copy.deepcopy(data)
    for path, _, now in found:
        inner = data
        for key in path[:-1]:
            inner = inner.setdefault(key, {})
        if now is None:
            inner.pop(path[-1], None)
        else:
            inner[path[-1]] = now
    return data


def pruned(data: Any) -> Any:
    """Without mappings that hold nothing."""
    if not isinstance(data, dict):
        return data
    return {key: inner for key, value in data.items() if (inner := pruned(value)) != {}}


@given(before=MAPPINGS, now=MAPPINGS)
def test_the_leaves_lead_from_the_older_to_the_newer(
    before: dict[str, Any], now: dict[str, Any]
) -> None:
    found = list(leaves.differing(before, now))
    again = pruned(written_back(before, found))
    assert repr(sorted(again.items())) == repr(sorted(pruned(now).items())) or again == pruned(now)
    assert all(leaf.before != leaf.now or type(leaf.before) is not type(leaf.now) for leaf in found)


@given(data=MAPPINGS)
def test_the_same_has_none(data: dict[str, Any]) -> None:
    assert list(leaves.differing(data, copy.deepcopy(data))) == []


@pytest.mark.parametrize(
    ("before", "now", "expected"),
    [
        ({"n": 1}, {"n": 2}, [Leaf(("n",), 1, 2)]),
        ({"n": 1}, {"n": True}, [Leaf(("n",), 1, True)]),
        ({}, {"a": {"b": 1}}, [Leaf(("a", "b"), None, 1)]),
        ({"a": ["x"]}, {"a": ["x", "y"]}, [Leaf(("a",), ["x"], ["x", "y"])]),
        ({"a": [{"k": 1}]}, {"a": [{"k": 0}, {"k": 1}]}, [Leaf(("a", 0), None, {"k": 0})]),
        ({"a": [{"k": 1}, {"k": 2}]}, {"a": [{"k": 2}]}, [Leaf(("a", 0), {"k": 1}, None)]),
        ({"a": [{"k": 1, "l": 5}]}, {"a": [{"k": 2, "l": 5}]}, [Leaf(("a", 0, "k"), 1, 2)]),
    ],
)
def test_what_differs_is_named_at_its_place(before: Any, now: Any, expected: list[Leaf]) -> None:
    assert list(leaves.differing(before, now)) == expected


@pytest.mark.parametrize(
    ("before", "now", "expected"),
    [
        ([1, 2, 3], [1, 3], (0, 0, 1)),
        ([{"do": "a"}], [{"do": "b"}, {"do": "c"}], (1, 1, 0)),
        ({"move": ["a"]}, {"move": ["b"], "check": ["c"]}, (1, 1, 0)),
        (None, ["a"], (1, 0, 0)),
        ("a", "b", (0, 0, 0)),
    ],
)
def test_items_are_counted(before: Any, now: Any, expected: tuple[int, int, int]) -> None:
    assert leaves.counted_changes(before, now) == expected


@pytest.mark.parametrize(
    ("value", "is_number"),
    [
        (1, True),
        (1.5, True),
        ([1, 2], True),
        (True, False),
        ("1", False),
        ([], False),
        ([1, "a"], False),
    ],
)
def test_numbers_are_told_from_other_things(value: Any, is_number: bool) -> None:
    assert Leaf((), None, value).is_number is is_number
    assert Leaf((), value, None).is_number is is_number
