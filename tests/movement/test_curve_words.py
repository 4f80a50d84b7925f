"""Every sentence on load and length, from courses made by hand.

Outside check: a mass on a straight limb swung from hanging to level asks sin(angle) of its peak (any statics textbook).
"""

from __future__ import annotations

from math import radians, sin

import pytest
import shipped_made

from build_tools.movement.course import Course, Courses
from build_tools.movement.curve_words import length_told, load_told, told, when_hard
from build_tools.movement.length.length import Missing, Repetition
from build_tools.movement.load.curve import Curve, Instant
from build_tools.movement.load.moments import Unknown

N = 61
TIMES = [n / (N - 1) for n in range(N)]
SWING = Curve("hip", tuple(Instant(t, 90 * t, -sin(radians(90 * t))) for t in TIMES))
LEVEL = Curve("hip", tuple(Instant(t, 90 * t, -10) for t in TIMES))
TURNING = Curve("hip", tuple(Instant(t, 90 * t, -1 + 1.5 * t) for t in TIMES))
MACHINE = Unknown("depends on the machine")


def run(start: float, end: float) -> Repetition:
    return Repetition(tuple(start + (end - start) * t for t in TIMES))


def course(load: Curve | Unknown, asked: str = "ab", **lengths: Repetition | Missing) -> Course:
    loads = {ref: load for ref in lengths if ref in asked} if isinstance(load, Curve) else {}
    return Course(
        "hip", (0, 90), ("the top", "the bottom"), load, loads, dict(lengths), tuple(lengths)
    )


def named(refs: list[str]) -> str:
    return " and ".join(f"part {ref}" for ref in refs)


LONG, FLAT, FALLING, SOME = run(0.4, 0.9), run(0.5, 0.6), run(0.8, 0.1), run(0.1, 0.4)
NONE = Missing("no model value is available for this muscle")
CASES = [
    (
        course(SWING, a=LONG),
        "Hardest near the bottom, where the muscle is longest (80% of its own range). Almost no load near the top.",
        [],
    ),
    (
        course(SWING, a=SOME),
        "Hardest near the bottom, where the muscle is longest for this exercise (30% of its own range). "
        "Almost no load near the top.",
        [],
    ),
    (
        course(SWING, a=FALLING),
        "Hardest near the bottom, where the muscle is between its longest and its shortest (20% of its own range). "
        "Almost no load near the top.",
        [],
    ),
    (
        course(SWING, a=run(0.9, 0.6)),
        "Hardest near the bottom, where the muscle is shortest for this exercise (70% of its own range). "
        "Almost no load near the top.",
        [],
    ),
    (
        course(SWING, a=FLAT),
        "Hardest near the bottom, while the muscle hardly changes its length (60% of its own range). "
        "Almost no load near the top.",
        [],
    ),
    (
        course(SWING, a=LONG, b=FLAT),
        "Hardest near the bottom; the parts differ in length there. Almost no load near the top.",
        [
            "Longest, at 80% of its own range: part a.",
            "Hardly changing, at 60% of its own range: part b.",
        ],
    ),
    (
        course(SWING, a=LONG, b=run(0.2, 0.5)),
        "Hardest near the bottom, where the muscle is longest for this exercise "
        "(40 to 80% of its own range, depending on the part). Almost no load near the top.",
        [],
    ),
    (
        course(SWING, a=LONG, b=NONE),
        "Hardest near the bottom, where part a is longest (80% of its own range). Almost no load near the top. "
        "No model value is available for the length of part b.",
        [],
    ),
    (
        course(SWING, a=NONE),
        "Hardest near the bottom. Almost no load near the top. "
        "No model value is available for the length of this part.",
        [],
    ),
    (
        course(SWING, a=NONE, b=NONE),
        "Hardest near the bottom. Almost no load near the top. "
        "No model value is available for the length of these parts.",
        [],
    ),
    (
        course(SWING, "ab", a=LONG, b=LONG, c=FLAT),
        "Hardest near the bottom, where each part that it asks for is longest "
        "(80% of its own range). Almost no load near the top.",
        [],
    ),
    (
        course(SWING, "abd", a=LONG, b=LONG, c=FLAT, d=NONE),
        "Hardest near the bottom, where each part that it asks for and the model knows is "
        "longest (80% of its own range). Almost no load near the top. No model value is available for the length of part d.",
        [],
    ),
    (
        course(LEVEL, a=FALLING),
        "The load about the hip is about the same throughout, while the muscle goes from long to short.",
        [],
    ),
    (
        course(LEVEL, a=FLAT),
        "The load about the hip is about the same throughout, while the muscle is around the middle of its range.",
        [],
    ),
    (
        course(LEVEL, a=NONE),
        "The load about the hip is about the same throughout. "
        "No model value is available for the length of this part.",
        [],
    ),
    (
        course(LEVEL, a=FALLING, b=FLAT),
        "The load about the hip is about the same throughout; the parts differ in length.",
        ["From long to short: part a.", "Around the middle of its range: part b."],
    ),
    (
        course(TURNING, a=LONG),
        "Hardest near the top, where the muscle is shortest for this exercise (40% of its own range). "
        "The load changes from one side of the hip to the other on the way.",
        [],
    ),
    (
        course(MACHINE, a=FALLING),
        "The load depends on the machine. The muscle goes from long to short.",
        [],
    ),
    (
        course(MACHINE, a=FALLING, b=FLAT),
        "The load depends on the machine; the parts differ in length.",
        ["From long to short: part a.", "Around the middle of its range: part b."],
    ),
    (
        course(MACHINE, a=NONE),
        "The load depends on the machine. No model value is available for the length of this part.",
        [],
    ),
    (
        course(Unknown("where the load meets the body is not given"), a=FALLING),
        "The load is not known: where the load meets the body is not given. The muscle goes from long to short.",
        [],
    ),
]


@pytest.mark.parametrize(("given", "sentence", "each"), CASES)
def test_sentence(given: Course, sentence: str, each: list[str]) -> None:
    assert told(given, named, "hip") == (sentence, each)


def test_a_load_is_told_as_the_sine_that_it_is() -> None:
    # sin 22.5, 45, 67.5 degrees: 0.383, 0.707, 0.924
    assert load_told(SWING, "hip") == (
        "Load about the hip, as a share of its peak: 0% at the start, 40% a quarter of the way, "
        "70% halfway, 90% three quarters of the way, 100% at the end."
    )


def test_a_length_is_told_in_tenths() -> None:
    assert length_told(LONG, "part a") == (
        "Length of part a, as a share of its own range: 40% at the start, 50% a quarter of the way, "
        "70% halfway, 80% three quarters of the way, 90% at the end."
    )


def test_the_length_counts_while_the_load_is_above_four_fifths() -> None:
    """sin(x) >= 0.8 from 53.13 degrees on: the mean of a straight line from there to 90 degrees is its middle."""
    assert course(SWING, a=run(0, 1)).length_when_hard("a") == pytest.approx(
        (53.13 / 90 + 1) / 2, abs=0.01
    )
    assert course(MACHINE, a=run(0, 1)).length_when_hard("a") == pytest.approx(0.5)
    assert course(SWING, a=NONE).length_when_hard("a") is None
    assert when_hard(course(SWING, a=LONG), "a") == "longest"


@pytest.fixture(scope="module")
def shipped() -> Courses:
    return shipped_made.courses()


@pytest.mark.parametrize(
    ("id", "joint"),
    [("romanian-deadlift", "hip"), ("nordic-curl", "knee"), ("seated-leg-curl", "knee")],
)
def test_the_hamstrings_are_asked_where_they_pull(shipped: Courses, id: str, joint: str) -> None:
    assert shipped.of(id).joint == joint


def test_a_squat_loads_the_hamstrings_at_the_hip_and_the_front_of_the_thigh_at_the_knee(
    shipped: Courses,
) -> None:
    """Anatomy: the hamstrings straighten the hip and bend the knee, and a squat asks to straighten the knee."""
    loads = shipped.of("back-squat").loads
    assert (
        loads["hamstrings/biceps-femoris-long-head"].joint == "hip"
        and loads["quadriceps/vastus-lateralis"].joint == "knee"
    )


def test_a_one_joint_head_is_not_asked_at_the_hip(shipped: Courses) -> None:
    """Anatomy: the short head of the biceps femoris does not cross the hip."""
    bridge = shipped.of("bent-knee-bridge")
    assert "hamstrings/biceps-femoris-short-head" in bridge.lengths
    assert "hamstrings/biceps-femoris-short-head" not in bridge.loads
