"""What may stand in place of an exercise. Outside source: Jaccard's index of two sets, by Python's own sets."""

from __future__ import annotations

from typing import Any

import script_rules
from hypothesis import given
from hypothesis import strategies as st
from worlds import IDS, PARTS, THINGS, WORRIES


def known() -> st.SearchStrategy[dict[str, dict[str, Any]]]:
    some = st.lists(st.sampled_from(PARTS), unique=True, max_size=4)
    one = st.fixed_dictionaries(
        {
            "direct": some,
            "helped": some,
            "concerns": st.lists(st.sampled_from(WORRIES), unique=True, max_size=2),
            "equipment": st.lists(st.sampled_from(THINGS), unique=True, max_size=2),
            "swaps": st.lists(st.sampled_from(IDS), unique=True, max_size=2),
        }
    )
    return st.fixed_dictionaries({id: one for id in IDS}).map(
        lambda found: {
            id: {
                "name": id,
                **each,
                "credits": {part: 0.5 for part in each["helped"]}
                | {part: 1 for part in each["direct"]},
            }
            for id, each in found.items()
        }
    )


def likeness(exercises: dict[str, Any], a: str, b: str) -> float:
    """Jaccard's index of what both train directly."""
    one, other = (set(exercises[id]["direct"]) for id in (a, b))
    return len(one & other) / len(one | other) if one & other else 0


@given(
    known(),
    st.sampled_from(IDS),
    st.lists(st.sampled_from(THINGS), unique=True),
    st.lists(st.sampled_from(WORRIES), unique=True),
)
def test_named_swaps_come_first_then_the_most_alike(
    exercises: dict[str, Any], id: str, equipment: list[str], concerns: list[str]
) -> None:
    wish, own = {"equipment": equipment, "concerns": concerns}, exercises[id]
    found = script_rules.nearest.nearest(exercises, id, wish, [], 99)
    ids = [one["exercise"] for one in found]
    assert id not in ids and len(ids) == len(set(ids))
    named = {other for other in own["swaps"] if other != id}
    assert {one["exercise"] for one in found if one["named"]} == named

    def place(one: dict[str, Any]) -> tuple[bool, bool, bool, float]:
        other = one["exercise"]
        near = own["swaps"].index(other) if one["named"] else -likeness(exercises, id, other)
        return not one["named"], bool(one["lacks"]), bool(one["concerns"]), near

    places = [place(one) for one in found]
    assert places == sorted(places)
    for one in found:
        other = exercises[one["exercise"]]
        assert set(one["lacks"]) == set(other["equipment"]) - set(equipment)
        assert set(one["concerns"]) == set(other["concerns"]) & set(concerns)
        same = set(other["equipment"]) == set(own["equipment"])
        assert one["needs"] == (None if same else other["equipment"])
        told = [*one["gone"], *one["half"]]  # "lamp" alone: all of its parts
        missing = set(own["direct"]) - set(other["direct"])
        assert bool(told) == bool(missing)
        assert {part for part in told if "/" in part} <= missing
        assert all(part not in other["credits"] for part in one["gone"])
    alike = {other for other in exercises if likeness(exercises, id, other)} - {id}
    assert set(ids) == named | alike
    left = script_rules.nearest.nearest(exercises, id, wish, ids[:1], 2)
    assert [one["exercise"] for one in left] == ids[1:3]


def test_what_differs_by_hand() -> None:
    """A squat for the thigh and the hip; a leg extension leaves the hip out; a belt squat only helps it."""
    plain = {"swaps": [], "equipment": [], "concerns": []}
    thigh, hip = "thigh/front", "hip/back"
    exercises = {
        "squat": {**plain, "direct": [thigh, hip], "credits": {thigh: 1, hip: 1}},
        "belt": {**plain, "direct": [thigh], "credits": {thigh: 1, hip: 0.5}},
        "extension": {**plain, "direct": [thigh], "credits": {thigh: 1}, "equipment": ["machine"]},
    }
    known = {id: {"name": id, **each} for id, each in exercises.items()}
    wish = {"equipment": ["machine"], "concerns": []}
    belt, extension = script_rules.nearest.nearest(known, "squat", wish, [], 9)
    assert (belt["gone"], belt["half"], belt["more"], belt["needs"]) == ([], ["hip"], [], None)
    assert (extension["gone"], extension["half"], extension["needs"]) == (["hip"], [], ["machine"])
    assert script_rules.nearest.nearest(known, "extension", wish, [], 9)[0]["exercise"] == "belt"
    assert script_rules.nearest.nearest(known, "extension", wish, [], 9)[1]["more"] == ["hip"]
