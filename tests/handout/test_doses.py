"""The ranges that a handout is held against: those of the invented demo catalog, by hand."""

from __future__ import annotations

from folders import DEMO

from build_tools.catalog.load import load
from build_tools.handout.doses import Range, ranges


def test_the_goals_together() -> None:
    programme = load(DEMO).programme
    assert programme is not None
    found = ranges(programme.data)
    assert found["repetitions"] == Range(
        1, 20, "The ranges in this handbook run from 1 to 20 repetitions. This is outside."
    )
    assert {field: (low, high) for field, (low, high, _) in found.items()} == {
        "repetitions": (1, 20),
        "load": (30, 85),
        "left": (0, 3),
        "rest": (60, 180),
        "tempo": (2, 6),
    }


def test_an_end_that_one_goal_leaves_open_is_open() -> None:
    programme = load(DEMO).programme
    assert programme is not None
    doses = programme.data.goals["growth"]
    closed = doses.model_copy(
        update={
            "rest_seconds": doses.rest_seconds.model_copy(update={"high": None}),
            "repetition_seconds": doses.repetition_seconds.model_copy(update={"low": None}),
            "repetitions_left": doses.repetitions_left.model_copy(update={"high": None}),
        }
    )
    found = ranges(
        programme.data.model_copy(update={"goals": {**programme.data.goals, "growth": closed}})
    )
    assert found["rest"][:2] == (60, None) and "start at 60 seconds of rest" in found["rest"].says
    assert found["tempo"][:2] == (None, 6) and "end at 6 seconds" in found["tempo"].says
    assert "left" not in found  # from nothing upwards: nothing is outside
