"""Limbs read back from the drawing by the rules of the SVG recommendation for arcs, and compared with the published segment lengths."""

from __future__ import annotations

import re
from math import dist, hypot

import pytest
from drawn_figures import EVERY, course, numbers

from build_tools.movement.posture.body import REFERENCE
from build_tools.site.figures.limbs import HALF, piece
from build_tools.site.figures.shapes import SCALE, Shape

LIMBS = ("thigh", "shank", "upper_arm", "forearm")


def read(shape: Shape) -> tuple[float, float, float]:
    """Distance of a taper's two circles and their radii, metres, from its path alone.

    The straight side touches both circles, so it is as long as the legs of a right
    triangle with the distance of the centres and the difference of the radii.
    """
    match = re.fullmatch(r"M\S.*?a(\d+) .*?l(.*?)a(\d+) .*?Z", shape.d)
    assert match, shape.d
    (x, y), wide, narrow = numbers(match[2]), float(match[1]), float(match[3])
    return hypot(hypot(x, y), wide - narrow) / SCALE, wide / SCALE, narrow / SCALE


@pytest.mark.parametrize(("name", "id"), EVERY)
def test_limbs_are_as_long_as_the_published_segments(name: str, id: str) -> None:
    """Within one and a half drawing units, 7.5 mm; what points towards the viewer is seen shorter, never longer."""
    for frame in course(name, id):
        for segment in (name for name in LIMBS if name in frame.segments):
            seen = dist(frame.segments[segment].start, frame.segments[segment].end)
            if frame.view.name == "side" and "shoulder-rotation" not in frame.angles:
                assert seen == pytest.approx(REFERENCE.length(segment))
            assert seen <= REFERENCE.length(segment) + 1e-9
            if seen > max(HALF[segment]):
                length, wide, narrow = read(piece(frame, segment))
                assert length == pytest.approx(seen, abs=1.5 / SCALE)
                assert (wide, narrow) == pytest.approx(HALF[segment], abs=0.5 / SCALE)
