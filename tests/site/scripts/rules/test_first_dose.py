"""How a proposal begins: days by hand and by every week there is; how many and how far apart is the handbook's own rule.

The least number of days and the reserve are those of ``programme.yaml``, whose sources stand there.
"""

from __future__ import annotations

from itertools import combinations
from typing import Any

import script_rules
import shipped_made
from hypothesis import given
from hypothesis import strategies as st
from worlds import Days, entry

from build_tools.catalog.entries import Programme

WICK = "lamp/wick"
GOAL: dict[str, Any] = {
    "weekly_sets": {"low": 10, "high": 20},
    "weekly_sessions": {"low": 2},
    "repetitions_left": {"low": 0, "high": 3},
}


def begun(
    days: Days, trained: list[int], sets: float = 0, most: int = 12, muscle: float = 0
) -> dict[str, Any]:
    counts = {WICK: {"sets": sets, "days": trained}} if trained or sets else {}
    known = {
        "counts": counts,
        "muscles": {"lamp": {"sets": muscle, "days": trained}},
        "goal": GOAL,
        "most": most,
    }
    return script_rules.first_dose.begun(WICK, days, known)


def week(*on: int, rows: int = 1) -> Days:
    return [[entry("a", 3, "8")] * rows if n in on else [] for n in range(7)]


def test_by_hand() -> None:
    # An empty week: Monday, then the first of the two days that lie three from it.
    assert begun(week(), []) == {"days": [0, 3], "sets": 5, "repetitions": "8-12", "left": 2}
    # Days on which the client comes; one of them trains the part, and one more is wanted.
    assert begun(week(0, 2, 4), [0], 3)["days"] == [4]  # Friday lies three days before Monday
    assert begun(week(0, 2, 4), [0], 3)["sets"] == 5
    # Both are taken already: still one, as far from them as can be.
    assert begun(week(0, 2, 4, 6), [0, 4], 6)["days"] == [2]
    # Every other day lies beside one of them: better the same day than the next.
    assert begun(week(0, 1, 3, 4), [0, 3], 6)["days"] == [0]
    assert begun(week(2), [])["days"] == [2]
    assert begun(week(2, rows=12), [])["days"] == []  # no room
    # The muscle has 16 of 20 sets: two days of two; where it has them all, still one.
    assert [begun(week(), [], muscle=held)["sets"] for held in (10, 16, 20, 30)] == [5, 2, 1, 1]


def test_the_reserve_is_the_middle_of_the_cited_range() -> None:
    programme: Programme = shipped_made.catalog().programme.data  # type: ignore[union-attr]
    for goal, left in (("growth", 2), ("strength", 1)):
        dose = programme.goals[goal].repetitions_left
        ends = {end: value for end in ("low", "high") if (value := getattr(dose, end)) is not None}
        known = {
            "counts": {},
            "muscles": {},
            "goal": {**GOAL, "repetitions_left": ends},
            "most": 12,
        }
        made = script_rules.first_dose.begun(WICK, week(), known)
        assert made["left"] == left


@given(st.sets(st.integers(0, 6)), st.sets(st.integers(0, 6)), st.integers(0, 30))
def test_days_are_apart_as_far_as_the_week_allows(on: set[int], taken: set[int], sets: int) -> None:
    trained = sorted(on & taken)
    found = begun(week(*on), trained, sets)
    assert set(found["days"]) <= (on or set(range(7))) and found["days"] == sorted(found["days"])
    wanted = max(1, 2 - len(trained))
    assert len(found["days"]) == min(wanted, len(on) or 7) and 1 <= found["sets"] <= 5

    def gap(some: set[int]) -> int:
        return min((min((a - b) % 7, (b - a) % 7) for a, b in combinations(some, 2)), default=7)

    if wanted == 1:
        [day], gaps = found["days"], [gap({other, *trained}) for other in on - set(trained)]
        if day in trained:
            assert all(one == 1 for one in gaps), (
                "the same day only where every other lies beside one"
            )
        else:
            assert gap({day, *trained}) == max(gap({day}), *gaps) if not trained else max(gaps)
