"""Shapes by the rules of the SVG recommendation: the direction of arcs and the fill rule."""

from __future__ import annotations

import re

from drawn_figures import numbers

from build_tools.site.figures.shapes import area, disc, limb


def test_overlapping_pieces_unite() -> None:
    """Every closed piece runs the same way round, so that none cuts a hole (the fill rule of the recommendation is nonzero)."""
    for shape in (
        disc((0, 1), 0.2),
        limb((0, 1), (0.3, 0.2), 0.1, 0.05),
        limb((0, 0), (-0.5, 0.5), 0.05, 0.1),
        area([(0, 0), (1, 0), (1, 1)]),
        area([(0, 0), (1, 1), (1, 0)]),
    ):
        assert _clockwise(shape.d) > 0, shape.d


def _clockwise(d: str) -> float:
    """Twice the area inside the corners of a path, with a small bow for each arc; positive runs clockwise on the page."""
    assert set(re.findall(r"a\d+ \d+ 0 [01] ([01])", d)) <= {"1"}  # no arc runs the other way
    at, points = (0.0, 0.0), []
    for command, body_ in re.findall(r"([Mlah])([^MlahZ]*)", d):
        values = numbers(body_)
        steps = (
            [values[5:7]]
            if command == "a"
            else [values[i : i + 2] for i in range(0, len(values), 2)]
        )
        for x, y in steps:
            new = (x, y) if command == "M" else (at[0] + x, at[1] + y)
            if (
                command == "a"
            ):  # the bow's middle lies to the left of the way, seen along it with y down
                points.append(
                    (
                        (at[0] + new[0]) / 2 + (new[1] - at[1]) / 2,
                        (at[1] + new[1]) / 2 - (new[0] - at[0]) / 2,
                    )
                )
            at = new
            points.append(at)
    return sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(points, [*points[1:], points[0]], strict=True)
    )
