"""Moments against textbooks (named beside each value) and against the principle of virtual work."""

from math import cos, pi, radians, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from build_tools.movement.load.statics import (
    GRAVITY,
    Force,
    band_tension,
    between,
    moment,
    pull,
    reactions,
    weight,
)

near = st.floats(-1.5, 1.5)
points = st.tuples(near, near)
newtons = st.floats(-500, 500)
forces = st.lists(st.builds(Force, points, newtons, newtons), min_size=1, max_size=6)
ORIGIN = (0.0, 0.0)


def force(mass, x, y=0.0):
    return weight(mass, (x, y))


def test_a_dumbbell_at_a_bent_elbow():
    """10 kg held 0.26 m from the elbow, forearm level: 10 × 9.81 × 0.26 = 25.5 N·m (own arithmetic)."""
    assert moment(ORIGIN, [force(10, 0.26)]) == pytest.approx(-25.5, abs=0.05)


def test_a_shot_held_in_the_hand():
    """Giancoli, Physics, 7th ed., p. 255, problem 37: 2.0 kg at 15 cm and 25 kg at 35 cm, g = 9.8; the muscle at 5 cm and 105° pulls
    about 1800 N (a worked solution was read on the web, not the book)."""
    about = -moment(ORIGIN, [force(2.0, 0.15), force(25, 0.35)])
    assert about / (0.05 * sin(radians(105))) == pytest.approx(1800, abs=50)


@pytest.mark.parametrize(("raised", "biceps"), [(0, 470), (30, 407)])
def test_a_book_on_the_forearm(raised, biceps):
    """Urone, College Physics, 1st ed., p. 318, problem 31 (a worked solution was read): 2.5 kg at 16 cm and 4 kg at 38 cm, forearm
    30° above level, biceps at right angles 4 cm from the elbow: 407 N. Level, 470 N, is the book's example 9.4, from memory."""
    c, s = cos(radians(raised)), sin(radians(raised))
    about = -moment(ORIGIN, [force(2.5, 0.16 * c, 0.16 * s), force(4.0, 0.38 * c, 0.38 * s)])
    assert about / 0.04 == pytest.approx(biceps, rel=0.005)


def test_a_trunk_leaning_until_level():
    """Serway and Jewett, Principles of Physics, 5th ed., problem 10.79 (worked solutions were read): a rod of 350 N, 200 N at its end, the
    muscle two thirds along at 12°: 2705 N."""
    length = 0.5
    about = -moment(ORIGIN, [Force((length / 2, 0), 0, -350), Force((length, 0), 0, -200)])
    assert about / (length * 2 / 3 * sin(radians(12))) == pytest.approx(2705.5, abs=0.5)


@pytest.mark.parametrize(
    ("pulley", "expected"),
    [
        # Forearm level, hand 0.30 m in front of the elbow, 100 N. Own arithmetic: lever = distance of the elbow from the line of pull.
        ((0.30, -0.90), -30.0),  # straight below: 0.30 × 100
        (
            (1.30, 0.0),
            0.0,
        ),  # straight ahead, level with the elbow: the line passes through the joint
        ((0.30, 1.00), 30.0),  # straight above: 0.30 × 100 the other way
        (
            (0.60, -0.40),
            -24.0,
        ),  # below and ahead, a 3-4-5 line: 0.30 × 80 (the upright part of the pull)
    ],
)
def test_a_cable_at_several_pulley_heights(pulley, expected):
    assert moment(ORIGIN, [pull((0.30, 0.0), pulley, 100)]) == pytest.approx(expected, abs=1e-9)


def test_a_pulley_on_the_hand_has_no_direction():
    with pytest.raises(ValueError, match="pulley or anchor lies on the point"):
        pull((0.3, 0.1), (0.3, 0.1), 100)


def test_a_band_pulls_in_proportion_to_its_stretch_and_never_pushes():
    """Own arithmetic: 200 N/m, slack 0.5 m."""
    assert [band_tension(length, 0.5, 200) for length in (0.3, 0.5, 0.75, 1.0)] == [0, 0, 50, 100]


def test_a_beam_on_two_supports():
    """A 600 N weight a third of the way along a 3 m beam: 400 N and 200 N (the textbook lever rule, own arithmetic)."""
    first, second = reactions(ORIGIN, (3, 0), [Force((1, 0.2), 0, -600)])
    assert (first.y, second.y) == pytest.approx((400, 200))


@given(
    points,
    points,
    st.lists(st.builds(weight, st.floats(0.1, 100), points), min_size=1, max_size=6),
    points,
)
def test_supports_leave_no_moment_about_any_point(a, b, weights, about):
    assume(abs(a[0] - b[0]) > 0.05)
    held = [*weights, *reactions(a, b, weights)]
    size = sum(abs(f.y) for f in held)
    assert moment(about, held) == pytest.approx(0, abs=1e-9 * size + 1e-9)
    assert sum(f.y for f in held) == pytest.approx(0, abs=1e-9 * size)


def test_supports_that_statics_cannot_tell_apart():
    with pytest.raises(ValueError, match="one above the other"):
        reactions(ORIGIN, (0, 1), [force(10, 0.3)])
    with pytest.raises(ValueError, match="sideways pull"):
        reactions(ORIGIN, (1, 0), [Force((0.5, 0), 50, -100)])


@given(points, forces)
def test_moment_is_the_work_of_a_small_turn(about, pulls):
    """Virtual work, an independent road to the same number: turn the body by a small angle, sum force × displacement."""
    turn = 1e-6

    def turned(p):
        x, y = p[0] - about[0], p[1] - about[1]
        return about[0] + x * cos(turn) - y * sin(turn), about[1] + x * sin(turn) + y * cos(turn)

    work = sum(f.x * (turned(f.at)[0] - f.at[0]) + f.y * (turned(f.at)[1] - f.at[1]) for f in pulls)
    assert work / turn == pytest.approx(moment(about, pulls), abs=0.02)


@given(points, forces)
def test_a_mirror_turns_the_moment_round(about, pulls):
    mirrored = [Force((-f.at[0], f.at[1]), -f.x, f.y) for f in pulls]
    assert moment((-about[0], about[1]), mirrored) == pytest.approx(-moment(about, pulls))


@given(points, points, st.floats(-3, 3), newtons)
def test_no_moment_where_the_line_of_action_passes_through_the_joint(
    about, towards, along, tension
):
    assume(abs(towards[0] - about[0]) + abs(towards[1] - about[1]) > 0.01)
    at = between(about, towards, along)
    assume(abs(along - 1) > 1e-3)
    assert moment(about, [pull(at, towards, tension)]) == pytest.approx(0, abs=1e-6)


@given(points, points, st.floats(0, 50), st.floats(0, 2 * pi))
def test_moment_moves_smoothly_with_the_load(about, at, mass, direction):
    """A millimetre of travel changes the moment by no more than weight × 1 mm."""
    moved = at[0] + 1e-3 * cos(direction), at[1] + 1e-3 * sin(direction)
    change = moment(about, [weight(mass, moved)]) - moment(about, [weight(mass, at)])
    assert abs(change) <= mass * GRAVITY * 1e-3 + 1e-9
