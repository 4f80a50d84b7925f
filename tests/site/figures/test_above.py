"""Figures seen from the head."""

from __future__ import annotations

import pytest
from drawn_figures import FLY, made, parsed

from build_tools.site.figures.figure import html


def test_seen_from_the_head_the_view_is_told_and_both_hands_carry() -> None:
    drawn = made(["dumbbell", "flat-bench"], **FLY)
    assert (
        drawn.position == "Lying face up on a bench, seen from the head end"
        and drawn.says.startswith(drawn.position)
    )
    root = parsed(html(drawn, "x", "Credit."))
    told = [p.text for p in root.iter("p") if p.text and "seen" in p.text]
    assert told == ["Start (seen from the head end)", "Finish (seen from the head end)"]
    xs = [x for shape in drawn.poses[0].shapes if shape.style == "hub" for x, _ in shape.room]
    assert min(xs) == pytest.approx(-max(xs))


@pytest.mark.parametrize(
    ("position", "floor"),
    [("on-flat-bench", True), ("bent-over", True), ("seated-upright", False), ("standing", False)],
)
def test_from_the_head_a_floor_is_seen_only_below_someone_who_lies_or_bends_over(
    position: str, floor: bool
) -> None:
    drawn = made(["dumbbell"], **FLY | {"position": position})
    assert ("floor" in {shape.style for shape in drawn.poses[0].shapes}) == floor


def test_a_turned_trunk_is_drawn_with_its_head() -> None:
    """The nose, the only thing beside the head's circle, goes to the left with a turn to the left."""
    drawn = made(
        ["none"],
        position="standing",
        view="above",
        load={"kind": "body-weight"},
        **{"from": {"spine-rotation": 0}, "to": {"spine-rotation": 40}},
    )
    heads = (next(s for s in reversed(pose.shapes) if s.style == "body") for pose in drawn.poses)
    ahead, left = ([x for x, _ in head.room] for head in heads)
    assert min(left) < min(ahead) - 0.01
