"""Every view of a posture has its drawing."""

from __future__ import annotations

from build_tools.movement.posture.pose import VIEWS
from build_tools.site.figures.views import DRAWN


def test_every_view_is_drawn() -> None:
    assert set(DRAWN) == set(VIEWS.values())
