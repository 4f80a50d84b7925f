"""Interpolation: exact on the grid, bounded between, and nothing past the box."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shipped_lengths import muscle
from shipped_made import catalog

from build_tools.catalog.length_table import Grid
from build_tools.movement.length.grid import MuscleGrid, OutOfRange

MUSCLES = list(catalog().model.data.muscles)


@pytest.mark.parametrize("id", MUSCLES)
def test_the_table_itself_comes_back(id: str) -> None:
    grid = muscle(id)
    column = grid.grid.lengths[grid.muscle.column]
    first, second = grid.grid.joints
    assert all(
        grid.length(at) == pytest.approx(column[at[first], at[second]], abs=1e-9)
        for at in grid.box_angles()
    )


def test_a_plane_is_interpolated_exactly() -> None:
    """Bilinear interpolation reproduces a + b x + c y + d x y (any textbook of numerical methods)."""
    angles = (-20.0, 0.0, 20.0), (0.0, 30.0, 60.0, 90.0)
    grid = muscle("semitendinosus")
    lengths = {(x, y): 300 + 0.5 * x - 0.3 * y + 0.01 * x * y for x, y in product(*angles)}
    made = MuscleGrid(
        grid.muscle.model_copy(update={"box": {"hip": [-20, 20], "knee": [0, 90]}}),
        Grid(("hip", "knee"), angles, {grid.muscle.column: lengths}),
    )
    for x, y in ((-13, 7), (0, 0), (19.5, 89), (20, 90), (-20, 0)):
        assert made.length({"hip": x, "knee": y}) == pytest.approx(
            300 + 0.5 * x - 0.3 * y + 0.01 * x * y
        )


@pytest.mark.parametrize("id", MUSCLES)
def test_held_out_angles(id: str) -> None:
    """Leaving out every second angle, the left-out ones come back within 2.4 mm; the error of linear interpolation grows with the
    square of the step, so the whole table is off by about a quarter of that, 0.6 mm, which is less than 1% of any two-joint range.
    Sharp bends of a path (a muscle that begins to wrap) do not shrink that fast, hence the bound on the share too."""
    grid = muscle(id)
    column, axes = (
        grid.grid.lengths[grid.muscle.column],
        [sorted({at[joint] for at in grid.box_angles()}) for joint in grid.grid.joints],
    )
    short, long = grid.extremes
    errors = []
    for n, axis in enumerate(axes):
        for low, held, high in zip(axis[:-2], axis[1:-1], axis[2:], strict=True):
            for other in axes[1 - n]:
                at = [(angle, other) if n == 0 else (other, angle) for angle in (low, held, high)]
                errors.append(abs((column[at[0]] + column[at[2]]) / 2 - column[at[1]]))
    assert max(errors) < 2.4 and max(errors) / 4 < 0.015 * (long - short)


@given(st.sampled_from(MUSCLES), st.floats(0, 1), st.floats(0, 1))
def test_between_the_corners_of_its_cell(id: str, u: float, v: float) -> None:
    grid = muscle(id)
    at = {
        joint: box[0] + share * (box[1] - box[0])
        for (joint, box), share in zip(grid.muscle.box.items(), (u, v), strict=False)
    }
    short, long = grid.extremes
    assert short - 1e-9 <= grid.length(at) <= long + 1e-9


@pytest.mark.parametrize("id", MUSCLES)
def test_nothing_past_the_box(id: str) -> None:
    grid = muscle(id)
    for joint, (low, high) in grid.muscle.box.items():
        for angle in (low - 0.01, high + 0.01):
            with pytest.raises(OutOfRange, match=f"the {joint} is at .* is trusted from"):
                grid.length({joint: angle})
        grid.length({joint: low}), grid.length({joint: high})


def test_a_joint_that_the_muscle_does_not_cross_makes_no_difference() -> None:
    grid = muscle("biceps-femoris-short-head")
    assert grid.length({"knee": 35, "hip": 300, "elbow": -7}) == grid.length({"knee": 35})


def test_arms_are_length_lost_per_radian() -> None:
    """A made-up column that shortens by 30 mm per radian of the knee and lengthens by 60 per radian of the hip."""
    from math import radians

    angles = (0.0, 10.0, 20.0), (0.0, 10.0, 20.0)
    grid = muscle("semitendinosus")
    lengths = {(x, y): 300 + 60 * radians(x) - 30 * radians(y) for x, y in product(*angles)}
    made = MuscleGrid(grid.muscle, Grid(("hip", "knee"), angles, {grid.muscle.column: lengths}))
    assert made.arms("knee", 0, 20) == pytest.approx([30, 30]) and made.arms(
        "hip", 0, 20, other=10
    ) == pytest.approx([-60, -60])
