"""Stances from above: wide, narrow, turned out, and the bar with the hands on it."""

from __future__ import annotations

import shipped_made

from build_tools.site.figures.insets.feet import feet
from build_tools.site.figures.insets.inset import Inset


def drawn(id: str) -> Inset:
    inset = feet(shipped_made.catalog().exercises[id].data, shipped_made.vocabulary())
    assert inset
    return inset


def reach(id: str, style: str) -> float:
    return max(x for s in drawn(id).shapes if s.style == style for x, _ in s.room)


def test_three_deadlifts_are_told_apart() -> None:
    assert reach("sumo-deadlift", "body") > 2 * reach("conventional-deadlift", "body")
    # Hands inside the feet, outside them, and on a frame that goes round the person.
    hands = {
        id: max(x for s in drawn(id).shapes[-2:] for x, _ in s.room)
        for id in ("sumo-deadlift", "conventional-deadlift", "hex-bar-deadlift")
    }
    assert hands["sumo-deadlift"] < reach("sumo-deadlift", "body")
    assert hands["conventional-deadlift"] > reach("conventional-deadlift", "body")
    frame = next(s for s in drawn("hex-bar-deadlift").shapes if len(s.room) == 9)
    assert min(y for _, y in frame.room) < 0 < max(y for _, y in frame.room)
    assert len({drawn(id).says for id in hands}) == 3


def test_toes_turn_out_only_where_a_cue_says_so() -> None:
    """The heel of a turned foot stands nearer to the middle than its ball."""

    def turned(id: str) -> float:
        soles = next(s for s in drawn(id).shapes if s.style == "body")
        left = soles.room[:4]
        return (left[2][0] + left[3][0]) - (left[0][0] + left[1][0])

    assert turned("sumo-deadlift") > turned("back-squat") > 0.05
    assert abs(turned("romanian-deadlift")) < 0.05
    assert "toes" not in drawn("romanian-deadlift").says


def test_where_no_cue_tells_a_stance_nothing_is_drawn() -> None:
    exercise = shipped_made.catalog().exercises["barbell-row"].data
    assert feet(exercise, shipped_made.vocabulary()) is None
