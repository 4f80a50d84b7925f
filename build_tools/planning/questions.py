"""The data of the working pages in files: what every page asks at once, and by muscle what only an answer on its parts needs.

``data/planner.json`` is what ``planner_data`` makes without "statements" and "orders" and without the "joints", "lengths" and "best" of
exercises; it has "trained" besides, the parts that have an order. ``data/planner/<muscle>.json`` holds those of the muscle's parts::

    {"orders": {part: [...]}, "exercises": {id: {"joints"?, "lengths"?, "best"?}}, "statements": [...]}

"best" counts in the statements of its own file. ``scripts/rules/questions.js`` puts them together again.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

#: What an exercise tells part by part and only an answer needs.
ASKED = ("joints", "lengths", "best")


def shared(planner: dict[str, Any]) -> dict[str, Any]:
    """``data/planner.json`` of the whole that ``planner_data.planner`` makes."""
    kept = {key: value for key, value in planner.items() if key not in ("statements", "orders")}
    kept["exercises"] = {
        id: {key: value for key, value in one.items() if key not in ASKED}
        for id, one in planner["exercises"].items()
    }
    return kept | {"trained": list(planner["orders"])}


def of_muscle(
    planner: dict[str, Any], muscle: str, among: Iterable[str] | None = None
) -> dict[str, Any]:
    """``data/planner/<muscle>.json`` of that whole. ``among``: the exercises that may have to do with the muscle, in the order of the
    whole; all of them unless given. Raises KeyError for an unknown muscle."""
    parts = planner["muscles"][muscle]["parts"]
    number: dict[int, int] = {}  # in the whole -> here
    exercises = {}
    for id in planner["exercises"] if among is None else among:
        one = planner["exercises"][id]
        told = {key: {part: one[key][part] for part in parts if part in one[key]} for key in ASKED}
        told["best"] = {
            part: {place: number.setdefault(n, len(number)) for place, n in places.items()}
            for part, places in told["best"].items()
        }
        if found := {key: value for key, value in told.items() if value}:
            exercises[id] = found
    return {
        "orders": {part: planner["orders"][part] for part in parts if part in planner["orders"]},
        "exercises": exercises,
        "statements": [planner["statements"][n] for n in number],
    }
