"""A bar that somebody hangs from is a bar: its end is in the hand, and something carries it."""

from __future__ import annotations

import pytest
import shipped_made
from drawn_figures import of

from build_tools.movement.posture.facing import shown_key_frames
from build_tools.site.figures.kit.bars import hex_frame

HANGS = [
    id
    for id, e in shipped_made.catalog().exercises.items()
    if {"pull-up-bar", "low-bar", "suspension-straps"} & set(e.data.equipment)
]


@pytest.mark.parametrize("id", HANGS)
def test_a_hand_holds_the_end_of_a_bar_that_stands_on_the_floor_or_hangs(id: str) -> None:
    exercise = shipped_made.catalog().exercises[id].data
    frames = shown_key_frames(exercise.movement, shipped_made.vocabulary())
    for frame, pose in zip(frames, of("shipped", id).poses, strict=False):
        x, y = frame.joints["hand"]
        ends = [s.room for s in pose.shapes if s.style == "hub" and len(s.room) == 2]
        assert any(
            sum(p[0] for p in room) / 2 == pytest.approx(x)
            and sum(p[1] for p in room) / 2 == pytest.approx(y)
            for room in ends
        )
        carried = [s for s in pose.shapes if s.style in ("kit", "cord")]
        lowest = min(p[1] for s in carried for p in s.room)
        highest = max(p[1] for s in carried for p in s.room)
        assert highest > y and (lowest <= 0 or "suspension-straps" in exercise.equipment)


def test_a_hex_bar_reaches_before_and_behind_and_has_raised_handles() -> None:
    shapes = hex_frame((0.1, 0.3))
    frame = next(s for s in shapes if s.style == "hub" and len(s.room) == 4)
    xs, ys = [p[0] for p in frame.room], [p[1] for p in frame.room]
    assert min(xs) < -0.2 and max(xs) > 0.4 and max(ys) < 0.3
    plates = next(s for s in shapes if s.style == "ring")
    assert max(p[0] for p in plates.room) - min(p[0] for p in plates.room) == pytest.approx(0.45)


def test_plates_never_come_before_the_face() -> None:
    """The review of the figures: the ring hid the face of these."""
    for id in ("back-squat", "front-squat", "half-squat", "good-morning", "overhead-press"):
        for pose in of("shipped", id).poses:
            styles = [shape.style for shape in pose.shapes]
            assert styles.index("ring") < styles.index("body"), id
