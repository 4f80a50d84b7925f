"""Movements that hardly show are enlarged, with a line at the height from which they start."""

from __future__ import annotations

import pytest
from drawn_figures import EVERY, of

#: The review of the figures: start and finish hardly differ; shrugs and the punch move the same joint as the overhead shrug.
SMALL = {
    "pelvic-drop",
    "overhead-shrug",
    "push-up-plus",
    "wrist-curl",
    "reverse-wrist-curl",
    "cable-wrist-curl",
    "barbell-shrug",
    "dumbbell-shrug",
    "supine-arm-punch",
    "ball-squeeze",
}


@pytest.mark.parametrize("id", [id for name, id in EVERY if name == "shipped"])
def test_only_what_hardly_shows_is_enlarged(id: str) -> None:
    enlarged = [inset for inset in of("shipped", id).insets if inset.pairs]
    assert len(enlarged) == (2 if id in SMALL else 0)


@pytest.mark.parametrize("id", sorted(SMALL))
def test_both_ends_are_looked_at_through_the_same_window_with_the_same_line(id: str) -> None:
    first, last = (inset for inset in of("shipped", id).insets if inset.pairs)
    assert first.box == last.box and first.says != last.says
    assert first.shapes[-2] == last.shapes[-2]  # the line
    assert first.shapes[-1] != last.shapes[-1]  # the joint
    assert "way" not in {shape.style for shape in first.shapes}  # no arrow across it
