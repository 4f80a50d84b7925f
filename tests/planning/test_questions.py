"""Files by muscle together are the whole, and each holds its own muscle alone."""

from __future__ import annotations

from typing import Any

import shipped_made

from build_tools.planning.questions import ASKED, of_muscle, shared


def test_no_file_holds_what_another_holds() -> None:
    whole = shipped_made.planner_data()
    first = shared(whole)
    assert not {"statements", "orders"} & first.keys() and first["trained"] == list(whole["orders"])
    assert not any(key in one for one in first["exercises"].values() for key in ASKED)
    for muscle, known in whole["muscles"].items():
        held = of_muscle(whole, muscle)
        parts = {
            part for one in held["exercises"].values() for told in one.values() for part in told
        }
        assert {*parts, *held["orders"]} <= {*known["parts"]}


def test_the_files_together_are_the_whole() -> None:
    whole = shipped_made.planner_data()
    orders: dict[str, Any] = {}
    told: dict[str, dict[str, dict[str, Any]]] = {
        id: {key: {} for key in ASKED} for id in whole["exercises"]
    }
    for muscle in whole["muscles"]:
        held = of_muscle(whole, muscle)
        orders |= held["orders"]
        for id, one in held["exercises"].items():
            told[id]["joints"] |= one.get("joints", {})
            told[id]["lengths"] |= one.get("lengths", {})
            told[id]["best"] |= {
                part: {place: held["statements"][n] for place, n in places.items()}
                for part, places in one.get("best", {}).items()
            }
    assert orders == whole["orders"]
    for id, one in whole["exercises"].items():
        assert told[id]["joints"] == one["joints"] and told[id]["lengths"] == one["lengths"]
        assert told[id]["best"] == {
            part: {place: whole["statements"][n] for place, n in places.items()}
            for part, places in one["best"].items()
        }
