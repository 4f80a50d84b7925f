"""Which pieces of a body stand out, and which stand behind."""

from __future__ import annotations

from pathlib import Path

from drawn_figures import course, of
from folders import ROOT

from build_tools.site.figures.body import body
from build_tools.site.figures.limbs import piece


def test_the_working_segment_is_told_by_weight() -> None:
    """It stands apart from the rest by its own style: solid in every stylesheet, outlined the rest."""
    css = (Path(ROOT) / "build_tools" / "site" / "styles" / "handbook.css.jinja").read_text(
        encoding="utf-8"
    )
    assert ".hb-pose__work { fill: currentColor;" in css
    assert ".hb-pose__body { fill: var(--hb-paper);" in css
    frame = course("shipped", "seated-leg-curl")[0]
    work = next(shape for shape in body(frame, "shank") if shape.style == "work")
    assert work.d == piece(frame, "shank").d


def test_a_leg_that_does_something_else_is_drawn_behind() -> None:
    styles = [
        shape.style for shape in of("shipped", "rear-foot-raised-split-squat").poses[0].shapes
    ]
    assert "far" in styles and styles.index("far") < styles.index("body")
    assert "far" not in [shape.style for shape in of("shipped", "back-squat").poses[0].shapes]
