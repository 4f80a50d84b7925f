"""Mean length over a version's own range.

Outside the project: the ranges that three trials print (abstracts of pedrosa2022, pedrosa2023 and kassiano2023a), and that each
calls its first half the one at long muscle lengths; two trials of holds (alegre2014, noorkoiv2014) do so for the bent knee.
"""

from __future__ import annotations

import pytest
from shipped_lengths import catalog

from build_tools.movement.length.length import (
    STEPS,
    WHOLE,
    Lengths,
    MeanLengths,
    Missing,
    Repetition,
    path,
)
from build_tools.movement.posture.pose import between, frames, key_angles

LATERAL, BICEPS, CALF = (
    "quadriceps/vastus-lateralis",
    "elbow-flexors/biceps-brachii-long-head",
    "calf/gastrocnemius-medial-head",
)


def keys(exercise: str) -> list[dict[str, float]]:
    return key_angles(catalog().exercises[exercise].data.movement, catalog().vocabulary.data)


@pytest.mark.parametrize(
    ("exercise", "joint", "printed"),
    [
        ("leg-extension", "knee", 65),  # 100 to 65 degrees, and 65 to 30
        ("preacher-curl", "elbow", 68),  # 0 to 68, and 68 to 135
        (
            "leg-press-calf-raise",
            "ankle",
            0,
        ),  # 25 degrees up to the square ankle, and on to 25 down
    ],
)
def test_the_halves_meet_about_where_trials_part_them(exercise, joint, printed) -> None:
    versions = catalog().vocabulary.data.versions
    lower, upper = versions["lower-half"].range, versions["upper-half"].range
    assert lower[1] == upper[0]
    assert between(keys(exercise), lower[1])[joint] == pytest.approx(printed, abs=10)


@pytest.mark.parametrize(
    ("exercise", "part"),
    [("leg-extension", LATERAL), ("preacher-curl", BICEPS), ("leg-press-calf-raise", CALF)],
)
def test_the_first_half_is_the_long_one_and_the_two_make_the_whole(exercise, part) -> None:
    tell = MeanLengths(catalog())
    whole, lower, upper = (
        tell(f"{exercise}{version}", part) for version in ("", "@lower-half", "@upper-half")
    )
    assert lower > whole + 0.1 > upper + 0.2
    # A mean over time is the mean of the means over its two halves.
    assert (lower + upper) / 2 == pytest.approx(whole, abs=1e-3)


def test_a_hold_with_a_bent_knee_is_the_long_one() -> None:
    tell = MeanLengths(catalog())
    assert (
        tell("leg-extension@held-long", LATERAL) > tell("leg-extension@held-short", LATERAL) + 0.2
    )
    ranges = catalog().exercises["leg-extension"].data.version_ranges
    for version, printed in (("held-long", (90, 87.5)), ("held-short", (50, 38.1))):
        ends = [between(keys("leg-extension"), share)["knee"] for share in ranges[version]]
        assert all(ends[1] <= angle <= ends[0] for angle in printed)


def test_a_squat_to_parallel_ends_with_the_thigh_level() -> None:
    """Plane geometry: hip and knee are then equally high."""
    data = catalog()
    squat = data.exercises["back-squat"].data
    end = squat.version_ranges["to-parallel"][1]
    drawn = frames(squat.movement, data.vocabulary.data, steps=101)
    apart = [abs(frame.joints["hip"][1] - frame.joints["knee"][1]) for frame in drawn]
    nearest = apart.index(min(apart))
    assert nearest / 100 == pytest.approx(end, abs=0.03)
    assert (
        between(keys("back-squat"), squat.version_ranges["shallow"][1])["knee"] == 60
    )  # bloomquist2013


def test_a_stretch_over_several_key_frames_follows_the_turn() -> None:
    there_and_back = [{"knee": 0.0}, {"knee": 100.0}, {"knee": 0.0}]
    angles = [at["knee"] for at in path(there_and_back, (0.25, 0.75))]
    assert (angles[0], max(angles), angles[-1]) == (50, 100, 50)
    assert len(angles) == 2 * STEPS + 1
    assert path(there_and_back, WHOLE) == path(there_and_back)
    assert {at["knee"] for at in path(there_and_back, (0.5, 0.5))} == {100}


def test_a_version_without_a_range_has_no_length() -> None:
    lengths = Lengths(catalog())
    assert isinstance(lengths.of(LATERAL, "leg-extension"), Repetition)
    assert lengths.of(LATERAL, "leg-extension@slow-lowering") == Missing(
        "this version does not say over which range it runs"
    )
    assert lengths.of(LATERAL, "no-such-lift@lower-half") == Missing("the exercise is not known")
    assert lengths.of("quadriceps/rectus-femoris", "leg-extension@lower-half") == Missing(
        "no model value is available for this muscle"
    )
