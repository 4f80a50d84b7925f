"""Finding exercises by the page's script: each field of a query by a case made for it, and what must hold over the shipped catalog.

The rules are the handbook's own; the folding of accents is that of Unicode (NFKD without marks, UAX 15), by Python's ``unicodedata``.
"""

from __future__ import annotations

import unicodedata
from typing import Any

import pytest
import shipped_made
from queries import EMPTY, drawn, queries
from script_rules import Kept, finder, text

WICK, BASE = "lamp/wick", "lamp/base"


def exercise(name: str, **changed: Any) -> dict[str, Any]:
    return {
        "name": name,
        "also": [],
        "equipment": [],
        "position": "standing",
        "sides": "both",
        "concerns": [],
        "credits": {WICK: 1},
        "marks": {},
        **changed,
    }


MADE = {
    "muscles": {"lamp": {"parts": [WICK, BASE]}},
    "parts": {WICK: {}, BASE: {}},
    "orders": {WICK: ["d", "b", "c"]},
    "exercises": {
        "a": exercise("Ascent", credits={BASE: 1, WICK: 0.5}, marks={BASE: [0, "growth"]}),
        "b": exercise("Curl", also=["Übung"], equipment=["cable", "crate"], sides="one"),
        "c": exercise("Dip", concerns=["knee"], marks={WICK: [8, "length"]}),
        "d": exercise("Raise", marks={WICK: [3, "growth", "activation"]}),
    },
}


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ({}, ["a", "b", "c", "d"]),
        ({"part": BASE}, ["a"]),
        ({"part": "lamp"}, ["a", "b", "c", "d"]),
        ({"part": WICK}, ["d", "b", "c", "a"]),  # its order first, then those of half a set
        ({"kind": "growth"}, ["a", "d"]),
        ({"part": WICK, "kind": "growth"}, ["d"]),
        ({"part": "lamp", "kind": "growth"}, ["a", "d"]),
        ({"kind": "length"}, ["c"]),
        ({"has": ["none"]}, ["a", "c", "d"]),
        ({"has": ["cable"]}, ["a", "c", "d"]),
        ({"has": ["cable", "crate"]}, ["a", "b", "c", "d"]),
        ({"position": "lying"}, []),
        ({"sides": "one"}, ["b"]),
        ({"avoid": ["knee"]}, ["a", "b", "d"]),
        ({"name": "UBUNG curl"}, ["b"]),
        ({"name": "ascents"}, ["a"]),
        ({"name": "ra"}, ["d"]),
        ({"name": "curl dip"}, []),
    ],
)
def test_each_field(asked: dict[str, Any], found: list[str]) -> None:
    assert finder.find(MADE, {**EMPTY, **asked}) == found


def test_what_to_ask_less() -> None:
    assert finder.relaxed(MADE, {**EMPTY, "sides": "one", "name": "dip", "avoid": ["knee"]}) == [
        ["name", 1]
    ]
    assert finder.relaxed(MADE, {**EMPTY, "sides": "one", "name": "dip"}) == [
        ["sides", 1],
        ["name", 1],
    ]


def test_marks_and_care() -> None:
    every = ["a", "b", "c", "d"]
    assert finder.grouped(MADE, every, {**EMPTY, "part": WICK}) == [
        {"sign": 3, "ids": ["d"]},
        {"sign": 8, "ids": ["c"]},
        {"sign": -1, "ids": ["a", "b"]},  # what nobody tested comes last
    ]
    assert finder.marked(MADE, "a", {**EMPTY, "part": "lamp"}) == {"sign": 0, "part": BASE}
    assert finder.marked(MADE, "b", {**EMPTY, "part": "lamp"}) == {"sign": -1, "part": WICK}
    assert finder.withCare(MADE, {**EMPTY, "avoid": ["knee"]}) == ["c"]
    assert finder.withCare(MADE, {**EMPTY, "avoid": ["knee"], "part": BASE}) == []
    assert finder.withCare(MADE, EMPTY) == []


@pytest.mark.parametrize("word", ["Übung", "Ąß", "Ǆ", "ﬁne", "crème brûlée"])
def test_accents_are_folded_as_unicode_says(word: str) -> None:
    plain = "".join(
        c
        for c in unicodedata.normalize("NFKD", word)
        if not unicodedata.category(c).startswith("M")
    )
    assert text.folded(word) == plain.lower()


@pytest.fixture(scope="module")
def data() -> dict[str, Any]:
    return shipped_made.find_data()


def test_what_always_holds(data: dict[str, Any]) -> None:
    """Everything found fits each thing asked for; less equipment and more care never add an exercise; a count is what would be found."""
    results = []
    slim = Kept({key: data[key] for key in ("muscles", "orders", "exercises")})
    for query in drawn(queries(data), 100):
        found = finder.find(slim, query)
        results.append(len(found))
        assert len(set(found)) == len(found)
        for one in (data["exercises"][id] for id in found):
            assert not query["has"] or set(one["equipment"]) <= set(query["has"])
            assert not set(one["concerns"]) & set(query["avoid"])
            assert query["position"] in ("", one["position"]) and query["sides"] in (
                "",
                one["sides"],
            )
            assert not query["part"] or any(
                ref == query["part"] or ref.startswith(f"{query['part']}/")
                for ref in one["credits"]
            )
        for kit in query["has"][:2] if len(query["has"]) > 1 else ():
            assert set(
                finder.find(
                    slim, {**query, "has": [other for other in query["has"] if other != kit]}
                )
            ) <= set(found)
        care = finder.withCare(slim, query)
        assert not set(care) & set(found)
        assert all(set(data["exercises"][id]["concerns"]) & set(query["avoid"]) for id in care)
        groups = finder.grouped(slim, found, query)
        assert sorted(id for group in groups for id in group["ids"]) == sorted(found)
        more = {**query, "avoid": sorted({*query["avoid"], min(data["concerns"])})}
        assert set(finder.find(slim, more)) <= set(found)
        for field, count in finder.relaxed(slim, query):
            assert count == len(finder.find(slim, {**query, field: EMPTY[field]})) > 0
    assert 0 in results and sum(map(bool, results)) > 10  # else nothing was compared
