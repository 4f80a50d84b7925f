"""Rows of the page Compare, by cases made for each rule. The rules are the handbook's own: growth first, nothing tested stays blank."""

from __future__ import annotations

from typing import Any

from script_rules import grid

PLACES = ["arm", "arm/front", "arm/back", "leg", "leg/calf", "leg/shin", "neck", "neck/side"]
DIRECT, HELPED, TESTED = {"counts": "direct"}, {"counts": "indirect"}, {"sign": "sign-growth-found"}


def told(part: str, rank: int) -> dict[str, Any]:
    return {"part": part, "rank": rank}


def refs(rows: list[dict[str, Any]]) -> list[tuple[str, list[str]]]:
    return [(row["muscle"], [one["part"] for one in row["parts"]]) for row in rows]


def test_a_part_stands_where_it_is_trained_measured_or_compared() -> None:
    rows = grid.grid(PLACES, [{"arm/front": HELPED}, {"leg/shin": TESTED}], [told("arm/back", 9)])
    assert refs(rows) == [("arm", ["arm/front", "arm/back"]), ("leg", ["leg/shin"])]


def test_growth_that_was_compared_goes_first_then_what_is_trained_most() -> None:
    cells = [{"arm/front": DIRECT, "leg/calf": DIRECT}, {"leg/calf": DIRECT, "neck/side": HELPED}]
    assert [m for m, _ in refs(grid.grid(PLACES, cells, []))] == ["leg", "arm", "neck"]
    activation = grid.grid(PLACES, cells, [told("neck/side", 5)])
    assert [m for m, _ in refs(activation)] == ["neck", "leg", "arm"]
    growth = grid.grid(PLACES, cells, [told("neck/side", 5), told("arm", 3)])
    assert [m for m, _ in refs(growth)] == ["arm", "neck", "leg"]
    assert growth[0]["told"] == [told("arm", 3)]
    taught = grid.grid(PLACES, cells, [told("neck/side", 9)])  # a word of teaching moves nothing
    assert [m for m, _ in refs(taught)] == ["leg", "arm", "neck"]


def test_what_is_only_helped_and_never_compared_stands_aside() -> None:
    cells = [{"arm/front": DIRECT, "arm/back": HELPED, "neck/side": TESTED, "leg/calf": HELPED}]
    rows = grid.grid(PLACES, cells, [told("leg/calf", 7)])
    arm, leg, neck = sorted(rows, key=lambda row: row["muscle"])
    assert [one["aside"] for one in arm["parts"]] == [False, True] and not arm["aside"]
    assert not leg["aside"] and not leg["parts"][0]["aside"]
    assert neck["aside"]


def test_pairs_that_no_study_compares() -> None:
    assert grid.uncompared(["a", "b"], []) == [[]]
    assert grid.uncompared(["a", "b"], [["b", "a"]]) == []
    assert grid.uncompared(["a", "b", "c"], [["a", "b"]]) == [["c"]]
    assert grid.uncompared(["a", "b", "c"], [["a", "b"], ["c", "b"]]) == [["a", "c"]]
    assert grid.uncompared(["a", "b", "c", "d"], [["a", "b"]]) == [["c"], ["d"]]
