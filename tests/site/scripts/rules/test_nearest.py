"""What may stand in place of an exercise. Outside source: Jaccard's index of two sets, by Python's own sets."""

from __future__ import annotations

from typing import Any

import script_rules
from hypothesis import given
from hypothesis import strategies as st
from worlds import IDS, PARTS, THINGS


def known() -> st.SearchStrategy[dict[str, dict[str, Any]]]:
    some = st.lists(st.sampled_from(PARTS), unique=True, max_size=4)
    one = st.fixed_dictionaries(
        {
            "direct": some,
            "equipment": st.lists(st.sampled_from(THINGS), unique=True, max_size=2),
            "swaps": st.lists(st.sampled_from(IDS), unique=True, max_size=2),
        }
    )
    return st.fixed_dictionaries({id: one for id in IDS}).map(
        lambda found: {id: {"name": id, **each} for id, each in found.items()}
    )


@given(known(), st.sampled_from(IDS), st.sampled_from(IDS))
def test_likeness_is_jaccards_index(exercises: dict[str, Any], a: str, b: str) -> None:
    one, other = (set(exercises[id]["direct"]) for id in (a, b))
    wanted = len(one & other) / len(one | other) if one & other else 0
    assert script_rules.nearest.likeness(exercises, a, b) == wanted


@given(known(), st.sampled_from(IDS), st.lists(st.sampled_from(THINGS), unique=True))
def test_named_swaps_come_first_then_the_most_alike(
    exercises: dict[str, Any], id: str, equipment: list[str]
) -> None:
    found = script_rules.nearest.nearest(exercises, id, equipment, [], 99)
    ids = [one["exercise"] for one in found]
    assert id not in ids and len(ids) == len(set(ids))
    named = [other for other in exercises[id]["swaps"] if other != id]
    assert ids[: len(named)] == named and [one["named"] for one in found].count(True) == len(named)
    rest = [script_rules.nearest.likeness(exercises, id, other) for other in ids[len(named) :]]
    assert rest == sorted(rest, reverse=True) and all(rest)
    for one in found:
        other = exercises[one["exercise"]]
        assert set(one["shared"]) == set(other["direct"]) & set(exercises[id]["direct"])
        assert set(one["lacks"]) == set(other["equipment"]) - set(equipment)
    held = ids[:1]
    left = script_rules.nearest.nearest(exercises, id, equipment, held, 2)
    assert [one["exercise"] for one in left] == ids[1:3]
