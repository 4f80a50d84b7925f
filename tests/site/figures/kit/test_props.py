"""What cues ask for is drawn where they ask for it; and every piece of kit of an exercise shows.

The sizes come from the exercises' own cues, quoted below.
"""

from __future__ import annotations

from math import dist

import pytest
import shipped_made
from drawn_figures import EVERY, of

from build_tools.movement.posture.facing import shown_key_frames
from build_tools.movement.posture.frame import Frame
from build_tools.movement.posture.words import placed
from build_tools.site.figures.shapes import Shape

#: Kit that must be seen; pulleys, anchors and racks follow from the load, a plate may lie on a belt.
SEEN = {
    "barbell",
    "hex-bar",
    "dumbbell",
    "kettlebell",
    "plate",
    "band",
    "cable",
    "flat-bench",
    "incline-bench",
    "decline-bench",
    "preacher-bench",
    "box",
    "exercise-ball",
    "small-ball",
    "chair",
    "wall",
    "dip-bars",
    "pull-up-bar",
    "low-bar",
    "suspension-straps",
    "loading-belt",
    "ab-wheel",
    "sliders",
    "ankle-anchor",
    "hammer",
}
KIT = {"kit", "cord", "ring", "hub"}


def course(id: str) -> tuple[Frame, ...]:
    movement = shipped_made.catalog().exercises[id].data.movement
    return shown_key_frames(movement, shipped_made.vocabulary())


def kit(id: str, pose: int = 0) -> list[Shape]:
    return [shape for shape in of("shipped", id).poses[pose].shapes if shape.style in KIT]


def box_of(shape: Shape) -> tuple[float, float, float, float]:
    xs, ys = [p[0] for p in shape.room], [p[1] for p in shape.room]
    return min(xs), max(xs), min(ys), max(ys)


@pytest.mark.parametrize("id", [id for name, id in EVERY if name == "shipped"])
def test_kit_shows(id: str) -> None:
    needs = set(shipped_made.catalog().exercises[id].data.equipment)
    if needs & SEEN:
        assert kit(id) and kit(id, -1)


def test_lean_one_hand_on_a_bench() -> None:
    """Dumbbell row: the free hand lies still on a bench while the other arm pulls."""
    first, last = course("dumbbell-row")
    hand = first.joints["other_hand"]
    assert hand == last.joints["other_hand"] and first.joints["hand"] != last.joints["hand"]
    tops = [box_of(s) for s in kit("dumbbell-row") if s.style == "kit"]
    assert any(left < hand[0] < right and 0 < hand[1] - top < 0.05 for left, right, _, top in tops)


def test_place_a_soft_ball_between_your_knees() -> None:
    for pose, frame in enumerate(course("ball-squeeze")):
        knees = [frame.joints[side + "knee"] for side in ("", "other_")]
        left, right, low, high = next(
            box_of(s)
            for s in kit("ball-squeeze", pose)
            if s.style == "kit"
            and len(s.room) == 2
            and abs(box_of(s)[0] + box_of(s)[1]) < 1e-6
            and box_of(s)[1] < knees[0][0]
        )
        assert low < knees[0][1] < high
        assert right - left < dist(*knees)


def test_handles_hang_a_hands_width_above_the_floor() -> None:
    """Suspended push-up: neither page nor figure says that the hands are on the floor."""
    exercise = shipped_made.catalog().exercises["suspended-push-up"].data
    assert "floor" not in placed(exercise.movement, shipped_made.vocabulary())
    straps = [box_of(s) for s in kit("suspended-push-up") if s.style == "cord"]
    assert max(high for *_, high in straps) > 2.0
    assert min(low for _, _, low, _ in straps) == pytest.approx(0.2, abs=0.02)


def test_the_balls_of_the_feet_stand_on_the_edge() -> None:
    for pose, frame in enumerate(course("seated-calf-raise")):
        toe = frame.joints["toe"]
        tops = [box_of(s) for s in kit("seated-calf-raise", pose) if s.style == "kit"]
        assert any(
            left < toe[0] < right and low == 0 and top == pytest.approx(toe[1])
            for left, right, low, top in tops
        )


def test_slide_your_arms_up() -> None:
    """Wall slide: the arrow goes up along the wall and stays on the person's side of it."""
    way = next(s for s in of("shipped", "wall-slide").poses[0].shapes if s.style == "way").room
    assert way[-1][1] - way[0][1] > 0.3
    wall = min(box_of(s)[0] for s in kit("wall-slide") if s.style == "kit")
    assert max(x for x, _ in way) < wall


def test_the_plate_of_a_belt_hangs_and_almost_reaches_the_floor() -> None:
    standing, sitting = (
        next(box_of(s) for s in kit("belt-squat", pose) if s.style == "ring") for pose in (0, -1)
    )
    assert standing[2] > sitting[2] >= 0 and sitting[2] < 0.15
