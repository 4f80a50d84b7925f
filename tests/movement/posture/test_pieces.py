"""Where the pieces of a body hang, held against the definition of the anatomical position: front is to the right, down is down."""

from __future__ import annotations

import pytest
from seen_bodies import posture

from build_tools.movement.posture.pieces import SPANS, hung

STANDING = posture("standing-tall", {"hip": 0.0})


@pytest.mark.parametrize("segment", [*SPANS, "pelvis", "shoulder-blade", "foot"])
def test_standing_all_hangs_straight_down_with_the_front_to_the_right(segment: str) -> None:
    piece = hung(STANDING, "", segment)  # type: ignore[arg-type]
    assert piece and piece.down == pytest.approx((0.0, -1.0), abs=1e-9)
    x, y = piece.joint
    assert piece.at(0.1, 0.02) == pytest.approx((x + 0.02, y - 0.1))
    assert piece.of(piece.at(0.1, 0.02)) == pytest.approx((0.1, 0.02))


def test_a_bent_knee_turns_the_front_of_the_shank_down() -> None:
    bent = posture("standing-tall", {"hip": 0.0, "knee": 90.0})
    piece = hung(bent, "", "shank")
    assert piece and piece.down == pytest.approx((-1.0, 0.0), abs=1e-9)
    (x, y), (a, b) = piece.at(0.0, 0.1), bent.joints["knee"]
    assert (x - a, y - b) == pytest.approx((0.0, -0.1))


def test_an_arm_that_points_at_the_viewer_has_no_direction() -> None:
    raised = posture("standing-tall", {"shoulder-rotation": 0.0})
    assert hung(raised, "", "upper-arm") is None and hung(raised, "", "forearm")
