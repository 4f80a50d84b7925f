"""Lifts that begin by lowering, told from those that begin by lifting.

Outside check: how coaches call the two ends; every word here is common teaching.
"""

from __future__ import annotations

import pytest
import shipped_made

from build_tools.movement.load.lowering import is_lowering
from build_tools.movement.posture.facing import shown_key_frames
from build_tools.movement.posture.words import labels

#: A squat, a lunge, a hinge, a press from straight arms and a Nordic have their bottom at the end of the way down.
FROM_THE_TOP = """back-squat front-squat goblet-squat split-squat reverse-lunge hack-squat leg-press romanian-deadlift good-morning
    bench-press floor-press push-up suspended-push-up dip dumbbell-fly nordic-curl reverse-nordic-curl glute-ham-raise
    cable-pull-through hip-extension-45""".split()
#: Pulls, curls, raises, lifts from the floor and machines begin where the effort begins.
FROM_THE_START = """conventional-deadlift hip-thrust pull-up lat-pulldown barbell-row barbell-curl lateral-step-up step-up
    seated-leg-curl leg-extension cable-crunch overhead-press crunch side-plank band-pushdown straight-arm-pulldown clamshell
    hip-abduction-machine seated-machine-crunch reverse-fly""".split()


@pytest.mark.parametrize("id", FROM_THE_TOP + FROM_THE_START)
def test_what_is_lowered_first(id: str) -> None:
    movement = shipped_made.catalog().exercises[id].data.movement
    vocabulary = shipped_made.vocabulary()
    found = is_lowering(
        movement,
        vocabulary.positions[movement.position],
        shown_key_frames(movement, vocabulary),
    )
    assert found == (id in FROM_THE_TOP)
    first, *_, last = labels(movement, vocabulary)
    assert (first, last) == (("Top", "Bottom") if found else ("Start", "Finish"))


def test_what_is_held_has_one_name() -> None:
    holds = ["plank", "dead-hang", "plate-pinch", "suitcase-carry"]
    for id in holds:
        movement = shipped_made.catalog().exercises[id].data.movement
        assert labels(movement, shipped_made.vocabulary()) == ["Hold"]
