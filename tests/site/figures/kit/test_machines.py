"""Pads, plates and handles of machines are carried by something that reaches the floor."""

from __future__ import annotations

from math import dist

import pytest
import shipped_made
from drawn_figures import of

from build_tools.movement.load.forces import load_point
from build_tools.movement.posture.facing import shown_key_frames
from build_tools.site.figures.kit.machines import frame_of

MACHINES = [
    id
    for id, e in shipped_made.catalog().exercises.items()
    if e.data.movement.load.kind == "machine"
]


@pytest.mark.parametrize("id", MACHINES)
def test_no_machine_floats(id: str) -> None:
    drawn = of("shipped", id)
    if drawn.seen == "seen from above":
        return
    for pose in drawn.poses:
        kit = [shape for shape in pose.shapes if shape.style == "kit"]
        assert min(y for shape in kit for _, y in shape.room) <= 0.001


@pytest.mark.parametrize(
    "id",
    [
        id
        for id in MACHINES
        if id.endswith(("press", "row")) and "leg" not in id and "bar" not in id
    ],
)
def test_a_handle_keeps_the_length_of_its_lever(id: str) -> None:
    exercise = shipped_made.catalog().exercises[id].data
    vocabulary = shipped_made.vocabulary()
    frames = shown_key_frames(exercise.movement, vocabulary)
    position = vocabulary.positions[exercise.movement.position]
    lengths = []
    for frame in frames:
        lever = frame_of(exercise, position, frame, frames)[-1]
        assert lever.room[-1] == load_point(frame, "hand")
        lengths.append(dist(lever.room[0], lever.room[-1]))
    assert lengths[0] == pytest.approx(lengths[-1], abs=0.02)


def test_a_row_has_its_pad_before_the_chest_and_a_press_behind_the_back() -> None:
    """Their own cues: keep your chest against the pad; press your back into the seat."""
    for id, before in (("machine-row", True), ("machine-chest-press", False)):
        movement = shipped_made.catalog().exercises[id].data.movement
        frame = shown_key_frames(movement, shipped_made.vocabulary())[0]
        x, y = frame.joints["mid_back"]
        pads = [
            s
            for s in of("shipped", id).poses[0].shapes
            if s.style == "kit"
            and min(p[1] for p in s.room) < y < max(p[1] for p in s.room)
            and max(abs(p[0] - x) for p in s.room) < 0.2
        ]
        assert [all((p[0] > x) == before for p in pad.room) for pad in pads].count(True) == 1, id
