"""The lengths and masses of the body, against measures printed elsewhere."""

from __future__ import annotations

import pytest
from seen_bodies import posture

from build_tools.movement.posture.balance import PAIRED, SINGLE, centre_of_mass
from build_tools.movement.posture.body import MASS_MEN


# de Leva 1996: the fractions of all segments make one body (arithmetic on the published table).
def test_segment_masses_make_one_body() -> None:
    assert sum(MASS_MEN[name] for name in SINGLE) + 2 * sum(
        MASS_MEN[name] for name in PAIRED
    ) == pytest.approx(1, abs=2e-4)


# Textbooks put the centre of mass of a standing man at 56 to 57 per cent of stature (from memory: Hay, The Biomechanics of Sports
# Techniques, 4th edition). How much it rises with the arms overhead is reckoned by hand.
def test_centre_of_mass_of_a_standing_man() -> None:
    x, y = centre_of_mass(posture("standing-tall", {"hip": 0}))
    assert 0.55 < y / 1.75 < 0.58 and -0.01 < x < 0.02
    raised = centre_of_mass(posture("standing-tall", {"shoulder": 180}))
    # Each arm's parts turn about the shoulder: twice their distance below it (0.186, 0.146, 0.04 of stature; de Leva's centres).
    by_hand = (
        2
        * 2
        * (
            0.0271 * 0.5772 * 0.186
            + 0.0162 * (0.186 + 0.4574 * 0.146)
            + 0.0061 * (0.186 + 0.146 + 0.04)
        )
    )
    assert (raised[1] - y) / 1.75 == pytest.approx(by_hand, rel=1e-6)


# Winter 2009, figure 4.1: heights of the joints of a standing person as fractions of stature.
@pytest.mark.parametrize(
    ("joint", "height"), [("ankle", 0.039), ("knee", 0.285), ("hip", 0.530), ("shoulder", 0.818)]
)
def test_heights_of_the_joints(joint: str, height: float) -> None:
    assert posture("standing", {"hip": 0}).joints[joint][1] == pytest.approx(height * 1.75)
