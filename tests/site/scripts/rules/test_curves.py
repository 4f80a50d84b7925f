"""Labels of curves. What must hold is geometry: no label covers another, none leaves its room, and their order is that of the curves."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from script_rules import curves


@given(
    st.lists(st.tuples(st.floats(0, 110), st.sampled_from([18.0, 33.0])), min_size=1, max_size=3)
)
def test_labels_do_not_collide(wanted: list[tuple[float, float]]) -> None:
    places, heights = [list(side) for side in zip(*wanted, strict=True)]
    found = curves.apart(places, heights, 0, 130)
    order = sorted(range(len(wanted)), key=lambda n: (places[n], n))
    for above, below in pairwise(order):
        assert found[below] - found[above] >= (heights[above] + heights[below]) / 2 - 1e-9
    for place, height in zip(found, heights, strict=True):
        assert height / 2 - 1e-9 <= place <= 130 - height / 2 + 1e-9


def test_a_label_with_room_stays_at_its_curve() -> None:
    assert curves.apart([20, 80], [18, 18], 0, 130) == [20, 80]


def test_curves_about_one_joint_are_told_together() -> None:
    assert curves.together(["knee", "hip", "knee"]) == [[0, 2], [1]]
    assert curves.together([]) == []


def test_parts_whose_curves_look_alike_are_one_drawing() -> None:
    flat, near, far = [50, 50], [54, 50], [56, 50]
    assert curves.alike([[flat, None], [near, None], [far, None], [flat, flat]], 5) == [
        [0, 1],
        [2],
        [3],
    ]


@pytest.mark.parametrize(
    ("name", "lines"),
    [
        ("Bench press", ["Bench press"]),
        ("Standing cable leg curl", ["Standing cable leg", "curl"]),
        ("Rear-foot-raised split squat", ["Rear-foot-raised", "split squat"]),
    ],
)
def test_names_in_lines(name: str, lines: list[str]) -> None:
    assert curves.lines(name, 19) == lines
