"""Summaries of curves whose shape is known in closed form."""

from math import asin, cos, degrees, radians

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from known_curves import curve, hanging

from build_tools.movement.load.curve import Curve, Instant


def test_a_standing_curl():
    """Reference sheet: 0-140°, peak at 90°, 52 % of the range above 80 % of the peak. Closed form: (180 - 2 asin 0.8) / 140 = 52.7 %."""
    found = curve(hanging, 0, 140).summary()
    assert (found.peak_angle, found.peak_moment) == pytest.approx((90, 25.5))
    assert found.high == pytest.approx((180 - 2 * degrees(asin(0.8))) / 140, abs=1e-3)
    assert found.high == pytest.approx(0.52, abs=0.01)
    assert (found.asks, found.changes_sign, found.lowest) == ("flexors", False, 0)
    assert found.vanishes == ((0, pytest.approx(degrees(asin(0.1)) / 140, abs=1e-3)),)


def test_a_curl_with_the_upper_arm_supported_at_45_degrees():
    """Reference sheet: the peak comes at 45° of elbow flexion, where the forearm is level."""
    assert curve(lambda e: hanging(45 + e), 0, 140).summary().peak_angle == pytest.approx(45)


def test_a_lateral_raise():
    """Reference sheet: a dumbbell peaks with the arm level, at 90°."""
    assert curve(hanging, 0, 90, "shoulder").summary().peak_share == 1


def test_a_prone_curl_with_a_weight_on_the_ankle():
    """Reference sheet: peak with the knee straight, nothing near 90°."""
    found = curve(lambda k: 30 * cos(radians(k)), 0, 90, "knee").summary()
    assert (found.peak_angle, found.peak_share) == (0, 0)
    assert found.vanishes == ((pytest.approx(1 - degrees(asin(0.1)) / 90, abs=1e-3), 1),)


def test_a_curve_that_passes_to_the_other_side():
    """Prone curl on to 120°: beyond 90° the weight pulls the heel towards the seat, half as hard at the end (cos 120°)."""
    found = curve(lambda k: 30 * cos(radians(k)), 0, 120, "knee").summary()
    assert found.changes_sign
    assert curve(lambda k: 30 * cos(radians(k)), 0, 120, "knee").normalised()[-1] == pytest.approx(
        -0.5
    )
    assert len(found.vanishes) == 1
    assert found.vanishes[0][0] < 90 / 120 < found.vanishes[0][1]


def test_a_level_top_peaks_at_its_middle_and_is_high_throughout():
    found = curve(lambda _: -40.0, 20, 80).summary()
    assert (found.peak_share, found.peak_angle, found.high, found.lowest, found.asks) == (
        0.5,
        50,
        1,
        1,
        "extensors",
    )


def test_two_equal_peaks_give_the_first():
    found = curve(lambda a: abs(a - 50), 0, 100, steps=101).summary()
    assert found.peak_share == 0


def test_no_load_has_no_summary():
    idle = curve(lambda _: 0.0, 0, 90)
    assert idle.summary() is None
    assert set(idle.normalised()) == {0}


def test_a_moment_without_a_value_is_refused():
    with pytest.raises(ValueError, match="about the elbow is not finite"):
        curve(lambda a: float("inf") if a > 45 else 1.0, 0, 90).summary()


# Two peaks that only rounding tells apart, once here and once there.
@example(moments=[-199.99999999999997, 200.0], factor=41.243556118637166)
@given(st.lists(st.floats(-200, 200), min_size=2, max_size=30), st.floats(0.01, 100))
def test_the_size_of_the_load_does_not_change_the_shape(moments, factor):
    def made(k):
        return Curve(
            "hip",
            tuple(Instant(i / (len(moments) - 1), float(i), k * m) for i, m in enumerate(moments)),
        )

    plain, scaled = made(1), made(factor)
    if min(plain.peak, scaled.peak) < 1e-3:
        return
    assert scaled.normalised() == pytest.approx(plain.normalised())
    assert scaled.summary().high == pytest.approx(plain.summary().high, abs=1e-6)


@example([199.99999999999997, 200.0])
@given(st.lists(st.floats(-200, 200), min_size=2, max_size=30))
def test_a_summary_stays_within_its_bounds(moments):
    made = Curve(
        "hip", tuple(Instant(i / (len(moments) - 1), float(i), m) for i, m in enumerate(moments))
    )
    found = made.summary()
    if found is None:
        return
    assert max(map(abs, made.normalised())) == 1
    assert 0 <= found.high <= 1 + 1e-9
    assert all(0 <= a < b <= 1 + 1e-9 for a, b in found.vanishes)
    assert all(b < c for (_, b), (c, _) in zip(found.vanishes, found.vanishes[1:], strict=False))
