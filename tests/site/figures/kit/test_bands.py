"""Bands that are tied to nothing end at the body, and one that helps runs from the bar to the knee."""

from __future__ import annotations

import pytest
import shipped_made
from drawn_figures import of

from build_tools.movement.posture.facing import shown_key_frames
from build_tools.movement.posture.frame import Frame
from build_tools.site.figures.kit.bands import held_end, helping, is_tied

BANDS = [id for id, e in shipped_made.catalog().exercises.items() if "band" in e.data.equipment]


def first(id: str) -> Frame:
    movement = shipped_made.catalog().exercises[id].data.movement
    return shown_key_frames(movement, shipped_made.vocabulary())[0]


@pytest.mark.parametrize("id", BANDS)
def test_every_band_is_drawn(id: str) -> None:
    """A zigzag: the only lines of more than four corners that are no arrow."""
    for pose in of("shipped", id).poses:
        assert [s for s in pose.shapes if s.style == "cord" and len(s.room) > 5]


def test_it_stands_on_what_its_cue_says() -> None:
    curl, march = first("band-curl"), first("band-march")
    assert held_end(curl, (0.1, 0.0)) in (curl.joints["toe"], curl.joints["heel"])
    assert held_end(march, (0.05, 0.05))[1] < 0.15
    for id, tied in (("band-side-step", False), ("band-row", True), ("band-pushdown", True)):
        assert is_tied(shipped_made.catalog().exercises[id].data) == tied


def test_a_band_around_both_ankles_needs_no_post() -> None:
    pose = of("shipped", "band-side-step").poses[-1]
    assert "kit" not in {shape.style for shape in pose.shapes}


def test_the_band_of_a_pull_up_lifts_a_knee() -> None:
    exercise, frame = (
        shipped_made.catalog().exercises["band-assisted-pull-up"].data,
        first("band-assisted-pull-up"),
    )
    (band,) = helping(exercise, frame)
    top, bottom = band.room[0], band.room[-1]
    assert top[1] == frame.joints["hand"][1]
    assert abs(bottom[0] - frame.joints["knee"][0]) < 0.1
    assert 0 < frame.joints["knee"][1] - bottom[1] < 0.12
