"""Which pieces of a body stand out, and which stand behind."""

from __future__ import annotations

import re
from pathlib import Path

from drawn_figures import course, lines, of
from folders import ROOT

from build_tools.site.figures.body import body
from build_tools.site.figures.muscle_lines import NO_LINES


def test_a_line_is_told_by_its_thickness() -> None:
    """Twice the outline that is seen, half of whose stroke the body covers; no colour of its own in any stylesheet."""
    for name in (
        "styles/drawings.css",
        "styles/client/posture.css",
    ):
        css = (Path(ROOT) / "build_tools" / "site" / name).read_text(encoding="utf-8")
        assert ".hb-pose__muscle { stroke-width: 9; }" in css
        assert re.search(
            r"\.hb-pose__body \{ fill: [^;]+; stroke-width: 9; paint-order: stroke; \}", css
        )


def test_an_arm_hides_the_lines_of_the_legs_behind_it() -> None:
    frame, drawn = course("shipped", "romanian-deadlift")[0], lines("shipped", "romanian-deadlift")
    assert [shape.style for shape in body(frame, drawn)] == ["body", "muscle", "body"]
    frame, drawn = course("shipped", "barbell-curl")[0], lines("shipped", "barbell-curl")
    assert [shape.style for shape in body(frame, drawn)] == ["body", "body", "muscle"]
    assert [shape.style for shape in body(frame, NO_LINES)] == ["body", "body"]


def test_a_leg_that_does_something_else_is_drawn_behind() -> None:
    styles = [
        shape.style for shape in of("shipped", "rear-foot-raised-split-squat").poses[0].shapes
    ]
    assert "far" in styles and styles.index("far") < styles.index("body")
    assert "far" not in [shape.style for shape in of("shipped", "back-squat").poses[0].shapes]
