"""What the map's page decides live.

From outside: keys in a table are those of the ARIA Authoring Practices (data grid: arrows by one cell, Home and End in the row, with
Control in the column's or grid's ends); a fragment is what RFC 3986 lets stand in one.
"""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from script_rules import evidence_map as rules

KNOWN = {
    "muscle": ["calf", "chest", "all"],
    "has": ["none", "band", "dumb-bell"],
    "avoid": ["knee", "hip"],
}
BAND = {"equipment": ["band"], "concerns": ["knee"]}
BODY: dict[str, list[str]] = {"equipment": [], "concerns": []}


@pytest.mark.parametrize(
    ("exercise", "has", "avoid", "fits"),
    [
        (BAND, [], [], True),
        (BAND, ["band"], [], True),
        (BAND, ["band", "none"], ["hip"], True),
        (BAND, ["none"], [], False),
        (BAND, [], ["knee"], False),
        (BODY, ["none"], ["knee", "hip"], True),
        (BODY, ["band"], [], True),
    ],
)
def test_what_suits(
    exercise: dict[str, list[str]], has: list[str], avoid: list[str], fits: bool
) -> None:
    assert rules.suits(exercise, {"muscle": "", "has": has, "avoid": avoid}) is fits


queries = st.fixed_dictionaries(
    {
        "muscle": st.sampled_from(["", *KNOWN["muscle"]]),
        "has": st.lists(st.sampled_from(KNOWN["has"]), unique=True).map(sorted),
        "avoid": st.lists(st.sampled_from(KNOWN["avoid"]), unique=True).map(sorted),
    }
)


@given(queries)
def test_a_query_comes_back_from_its_fragment(query: dict[str, object]) -> None:
    fragment = rules.written(query)
    assert rules.asked(KNOWN, fragment) == query
    assert re.fullmatch(r"(#[A-Za-z0-9\-._~!$&'()*+,;=:@/?]+)?", fragment)  # RFC 3986, 3.5


@pytest.mark.parametrize(
    "fragment",
    ["", "#", "#in-thigh", "#has=", "#has=%3Cb%3E,gone", "#muscle", "#=&&=,,", "#constructor=x"],
)
def test_an_unknown_fragment_asks_nothing(fragment: str) -> None:
    assert rules.asked(KNOWN, fragment) == {"muscle": "", "has": [], "avoid": []}


#: Two heads, and rows with a link, a gap, a link; nothing stands in the corner.
CELLS = [[False, True, True, True], [True, True, False, True], [True, False, False, True]]


@pytest.mark.parametrize(
    ("at", "key", "far", "to"),
    [
        ([1, 1], "ArrowRight", False, [1, 3]),
        ([1, 3], "ArrowLeft", False, [1, 1]),
        ([1, 1], "ArrowUp", False, [0, 1]),
        ([0, 2], "ArrowDown", False, None),
        ([0, 3], "ArrowDown", False, [1, 3]),
        ([2, 3], "ArrowRight", False, None),
        ([1, 0], "ArrowUp", False, None),
        ([1, 3], "Home", False, [1, 0]),
        ([2, 0], "End", False, [2, 3]),
        ([2, 3], "Home", True, [0, 3]),
        ([0, 1], "End", True, [1, 1]),
        ([1, 1], "Enter", False, None),
    ],
)
def test_where_a_key_leads(at: list[int], key: str, far: bool, to: list[int] | None) -> None:
    assert rules.led(CELLS, at, key, far) == to


grids = st.integers(1, 6).flatmap(
    lambda width: st.lists(
        st.lists(st.booleans(), min_size=width, max_size=width), min_size=1, max_size=6
    )
)


@given(
    grids,
    st.data(),
    st.sampled_from(["ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "Home", "End"]),
)
def test_a_key_leads_only_to_what_can_be_reached(
    cells: list[list[bool]], data: st.DataObject, key: str
) -> None:
    at = [
        data.draw(st.integers(0, len(cells) - 1)),
        data.draw(st.integers(0, len(cells[0]) - 1)),
    ]
    to = rules.led(cells, at, key, data.draw(st.booleans()))
    assert to is None or cells[to[0]][to[1]]
