"""Bodies seen from the front and from the head, wrists and shoulder girdles: places and moments worked by hand.

The lengths are those of Winter's figure 4.1 for 1.75 m: upper arm 0.186, forearm 0.146, grip 0.04, shoulder width 0.259.
"""

from __future__ import annotations

from math import asin, cos, degrees, radians, sin
from typing import get_args

import pytest
from folders import SHIPPED
from repetitions import WEIGHTLESS

from build_tools.catalog.entries import Movement, Vocabulary
from build_tools.catalog.load import load
from build_tools.movement.load.curve import Curve
from build_tools.movement.load.moments import Unknown, curves
from build_tools.movement.load.working import working_segment
from build_tools.movement.posture.body import REFERENCE, Body
from build_tools.movement.posture.frame import OTHER, Frame
from build_tools.movement.posture.limits import impossible, not_shown, out_of_range
from build_tools.movement.posture.pose import PLACE, VIEWS, frames
from build_tools.movement.posture.words import key_postures, placed, seen

VOCABULARY: Vocabulary = load(SHIPPED).vocabulary.data
HALF, ARM, FOREARM, GRIP = 1.75 * 0.259 / 2, 1.75 * 0.372, 1.75 * 0.186, 1.75 * 0.04
G, MASS = 9.81, 10.0
DUMBBELLS = {"kind": "free-weight", "at": "hand"}


def made(
    position: str,
    start: dict[str, float],
    end: dict[str, float] | None = None,
    load: object = None,
    **more: object,
) -> Movement:
    resisted = load or {"kind": "body-weight"}
    return Movement.model_validate(
        {"position": position, "from": start, "to": end or start, "load": resisted, **more}
    )


def test_every_view_that_the_catalog_may_write_is_placed_and_shows_what_it_reckons_with() -> None:
    assert list(VIEWS) == list(get_args(Movement.model_fields["view"].annotation))
    assert set(PLACE) == set(VIEWS.values())
    for name, view in VIEWS.items():
        assert posture("standing", {"elbow": 0}, view=name).view is view
        assert view.reckoned | view.turns.keys() | view.unreckoned_standing | set(
            view.stands_for.values()
        ) <= set(view.joints)
        assert set(view.joints) <= VOCABULARY.joints.keys(), "the vocabulary names each joint"


@pytest.mark.parametrize(
    ("view", "at"), [("side", (0.5, 1.2)), ("front", (-0.3, 1.2)), ("above", (0.3, 0.5))]
)
def test_a_place_half_a_metre_ahead_and_0_3_to_the_right_is_seen_from_each_side(
    view: str, at: tuple[float, float]
) -> None:
    """Right is to the left of the page from the front, and to the right from the head of someone who faces up the page."""
    assert VIEWS[view].on_page(
        (0.0, 0.0), 0.0, forward=0.5, left=-0.3, height=1.2
    ) == pytest.approx(at)


def posture(*args: object, **more: object) -> Frame:
    return frames(made(*args, **more), VOCABULARY, steps=2)[0]  # type: ignore[arg-type]


def reckoned(
    movement: Movement, body: Body = WEIGHTLESS, one_side: bool = False
) -> dict[str, Curve] | Unknown:
    shown = frames(movement, VOCABULARY, body, steps=3)
    return curves(
        movement,
        VOCABULARY.positions[movement.position],
        shown,
        body,
        one_side=one_side,
        load_mass=MASS,
    )


def ends(movement: Movement, joint: str, one_side: bool = False) -> tuple[float, float]:
    found = reckoned(movement, one_side=one_side)
    assert not isinstance(found, Unknown), found.why
    return found[joint].samples[0].moment, found[joint].samples[-1].moment


# --- seen from the head --------------------------------------------------------------


def test_arms_straight_out_and_straight_ahead() -> None:
    out, ahead = frames(
        made("standing", {"shoulder-horizontal": 0}, {"shoulder-horizontal": 90}, view="above"),
        VOCABULARY,
        steps=2,
    )
    assert out.joints["hand"] == pytest.approx((-HALF - ARM, 0)), (
        "the left hand to the left of the page, the face up"
    )
    assert ahead.joints["hand"] == pytest.approx((-HALF, ARM)) and ahead.joints[
        OTHER + "hand"
    ] == pytest.approx((HALF, ARM))


def test_hands_meet_in_the_middle() -> None:
    frame = posture(
        "standing", {"shoulder-horizontal": 90 + degrees(asin(HALF / ARM))}, view="above"
    )
    assert frame.joints["hand"][0] == pytest.approx(0) and frame.joints[
        OTHER + "hand"
    ] == pytest.approx(frame.joints["hand"])


def test_elbow_and_rotation_bring_the_hand_to_the_middle() -> None:
    assert (
        posture("standing", {"shoulder-horizontal": 0, "elbow": 90}, view="above").joints["hand"][1]
        > 0.2
    ), "to the front"
    inward, ahead, outward = (
        posture("standing", {"shoulder-rotation": r}, view="above").joints["hand"]
        for r in (50, 0, -50)
    )
    assert abs(inward[0]) < abs(ahead[0]) < abs(outward[0]) and ahead == pytest.approx(
        (-HALF, FOREARM)
    )


def test_a_turn_to_the_left_takes_the_left_shoulder_back() -> None:
    frame = posture("standing", {"spine-rotation": 30}, view="above")
    assert frame.joints["shoulder"] == pytest.approx(
        (-HALF * cos(radians(30)), -HALF * sin(radians(30)))
    )
    assert frame.joints["hip"][1] == pytest.approx(0), "the pelvis stays"


@pytest.mark.parametrize(
    ("position", "gravity", "turn"),
    [
        ("seated-upright", 0.0, 0),
        ("on-flat-bench", 1.0, 0),
        ("inclined-bench", sin(radians(45)), 0),
        ("prone", 1.0, 180),
        ("side-lying", 1.0, -90),
    ],
)
def test_gravity_lies_in_the_plane_as_far_as_the_trunk_lies_down(
    position: str, gravity: float, turn: float
) -> None:
    frame = posture(position, {"shoulder-horizontal": 0}, view="above")
    assert (frame.gravity, frame.turn) == pytest.approx((gravity, turn))


def test_a_fly_is_heaviest_with_the_arms_out_and_nothing_with_the_arms_up() -> None:
    fly = made(
        "on-flat-bench",
        {"shoulder-horizontal": 0},
        {"shoulder-horizontal": 90},
        DUMBBELLS,
        view="above",
    )
    assert ends(fly, "shoulder-horizontal") == pytest.approx((MASS / 2 * G * ARM, 0)), (
        "one of two dumbbells at arm's length"
    )
    inclined = fly.model_copy(update={"position": "inclined-bench"})
    assert ends(inclined, "shoulder-horizontal")[0] == pytest.approx(
        MASS / 2 * G * ARM * sin(radians(45))
    )


def test_a_reverse_fly_asks_the_other_side() -> None:
    fly = made(
        "prone", {"shoulder-horizontal": 90}, {"shoulder-horizontal": 0}, DUMBBELLS, view="above"
    )
    assert ends(fly, "shoulder-horizontal") == pytest.approx((0, -MASS / 2 * G * ARM))


def test_turning_out_on_the_side_is_heaviest_with_the_forearm_level() -> None:
    turn = made(
        "side-lying",
        {"shoulder-rotation": 0},
        {"shoulder-rotation": -90},
        DUMBBELLS,
        view="above",
        other={"from": {"shoulder-rotation": 0}, "to": {"shoulder-rotation": 0}},
    )
    assert ends(turn, "shoulder-rotation", one_side=True) == pytest.approx((-MASS * G * FOREARM, 0))


def test_a_cable_from_the_right_loads_the_outward_turn_of_the_left_arm() -> None:
    """Level with the hand, the line pulls square to a forearm that points ahead."""
    cable = {"kind": "cable", "at": "hand", "from": {"x": FOREARM, "left": -2.0, "height": "mid"}}
    turn = made(
        "standing",
        {"shoulder-rotation": 0},
        {"shoulder-rotation": -40},
        cable,
        view="above",
        other={"from": {"shoulder-rotation": 0}, "to": {"shoulder-rotation": 0}},
    )
    assert ends(turn, "shoulder-rotation", one_side=True)[0] == pytest.approx(-MASS * G * FOREARM)


def test_a_band_between_the_hands_pulls_them_together() -> None:
    band = {"kind": "band", "at": "hand", "from": "other-hand"}
    apart = made(
        "standing", {"shoulder-horizontal": 90}, {"shoulder-horizontal": 0}, band, view="above"
    )
    first, last = ends(apart, "shoulder-horizontal")
    assert first < 0 and last == pytest.approx(0), (
        "no lever once both arms and the band are one line"
    )


@pytest.mark.parametrize("load", [DUMBBELLS, {"kind": "body-weight"}])
def test_a_weight_that_pulls_along_the_body_is_not_reckoned(load: object) -> None:
    turned = made(
        "standing", {"shoulder-horizontal": 0}, {"shoulder-horizontal": 90}, load, view="above"
    )
    assert reckoned(turned) == Unknown("the weight pulls along the body, not in the drawn plane")


# --- seen from the front --------------------------------------------------------------


def test_someone_on_the_side_keeps_the_left_up() -> None:
    frame = posture("side-lying", {"hip-abduction": 0}, view="front")
    assert (
        frame.joints["head"][0] < 0 < frame.joints["ankle"][0]
        and frame.joints["hip"][1] > frame.joints[OTHER + "hip"][1]
    )
    assert frame.joints["hip"][1] == pytest.approx(frame.joints["ankle"][1])


def test_a_leg_lifted_on_the_side_weighs_most_when_level() -> None:
    lift = made(
        "side-lying",
        {"hip-abduction": 0},
        {"hip-abduction": 40},
        view="front",
        other={"from": {"hip-abduction": 0}, "to": {"hip-abduction": 0}},
    )
    found = reckoned(lift, REFERENCE, one_side=True)
    assert not isinstance(found, Unknown)
    thigh, shank = (REFERENCE.length(name) for name in ("thigh", "shank"))
    # de Leva 1996: shares of mass and distances of the centres; the foot hangs on the ankle, its centre a sole's height further.
    by_hand = (
        75
        * G
        * (
            0.1416 * 0.4095 * thigh
            + 0.0433 * (thigh + 0.4395 * shank)
            + 0.0137 * (thigh + shank + 0.039 * 1.75)
        )
    )
    assert found["hip-abduction"].samples[0].moment == pytest.approx(by_hand, rel=1e-3)
    assert found["hip-abduction"].samples[-1].moment == pytest.approx(
        by_hand * cos(radians(40)), rel=0.01
    )


def test_a_side_support_rests_on_elbow_and_foot() -> None:
    frame = posture("side-support", {"hip-abduction": 0}, view="front")
    elbow, shoulder = frame.joints[OTHER + "elbow"], frame.joints[OTHER + "shoulder"]
    assert elbow == pytest.approx((0, 0.04)) and shoulder[0] == pytest.approx(0, abs=1e-6), (
        "the arm is upright"
    )
    assert frame.joints[OTHER + "ankle"][1] == pytest.approx(0.05, abs=1e-3)


def test_a_shrug_lifts_the_shoulders_by_a_lever_of_half_their_width() -> None:
    shrug = made(
        "standing-tall",
        {"scapular-elevation": 0},
        {"scapular-elevation": 30},
        DUMBBELLS,
        view="front",
    )
    low, high = frames(shrug, VOCABULARY, steps=2)
    assert high.joints["shoulder"][1] - low.joints["shoulder"][1] == pytest.approx(HALF / 2)
    assert ends(shrug, "scapular-elevation") == pytest.approx(
        (MASS / 2 * G * HALF, MASS / 2 * G * HALF * cos(radians(30)))
    )


def test_forearms_up_ahead_and_down() -> None:
    """An upper arm level to the side: turned out the hand is above it, turned in below; towards the viewer only the elbow is seen."""

    def arm(rotation: float) -> Frame:
        return posture(
            "standing",
            {"shoulder-abduction": 90, "elbow": 90, "shoulder-rotation": rotation},
            view="front",
        )

    level = arm(0).joints["elbow"][1]
    assert arm(-90).joints["hand"][1] == pytest.approx(level + FOREARM) and arm(90).joints["hand"][
        1
    ] == pytest.approx(level - FOREARM)
    assert arm(0).joints["hand"] == pytest.approx(arm(0).joints["elbow"])


def test_a_pelvis_drops_about_the_standing_leg() -> None:
    drop = made(
        "standing",
        {"hip-abduction": 0},
        {"hip-abduction": 0},
        view="front",
        stays="other",
        other={"from": {"hip-abduction": 0}, "to": {"hip-abduction": -10}},
    )
    level, dropped = frames(drop, VOCABULARY, steps=2)
    assert (
        dropped.joints["hip"][1]
        < dropped.joints[OTHER + "hip"][1]
        == pytest.approx(level.joints[OTHER + "hip"][1])
    )
    assert dropped.segments[OTHER + "thigh"].angle == pytest.approx(0)


# --- wrist, girdle and plane in the side view ---------------------------------------------


@pytest.mark.parametrize(("grip", "sign"), [("underhand", 1), ("overhand", -1)])
def test_a_wrist_curl(grip: str, sign: int) -> None:
    """A level forearm: the weight hangs a grip's length beyond the wrist, and on the back of an overhand one."""
    curl = made(
        "seated",
        {"shoulder": 0, "elbow": 90, "wrist": 0},
        {"shoulder": 0, "elbow": 90, "wrist": 60},
        DUMBBELLS,
        grip=grip,
    )
    first, last = ends(curl, "wrist")
    assert first == pytest.approx(sign * MASS * G * GRIP) and last == pytest.approx(
        sign * MASS * G * GRIP / 2
    )
    low, high = frames(curl, VOCABULARY, steps=2)
    assert (high.joints["hand"][1] > low.joints["hand"][1]) == (sign > 0)


def test_the_girdle_carries_the_arm_forward() -> None:
    punch = made(
        "supine",
        {"scapular-protraction": 0, "shoulder": 90},
        {"scapular-protraction": 20, "shoulder": 90},
    )
    back, ahead = frames(punch, VOCABULARY, steps=2)
    assert ahead.joints["hand"][1] - back.joints["hand"][1] == pytest.approx(
        HALF * sin(radians(20))
    ), "up, for someone on the back"
    assert ahead.joints["mid_shoulder"] == pytest.approx(back.joints["mid_shoulder"])


def test_joints_that_leave_the_plane_have_no_curve() -> None:
    press = made(
        "on-flat-bench",
        {"shoulder": 90, "elbow": 0},
        {"shoulder": -10, "elbow": 100},
        DUMBBELLS,
        out_of_plane=["shoulder", "elbow"],
    )
    assert reckoned(press) == Unknown("the arms also move out of the drawn plane")
    half = reckoned(press.model_copy(update={"out_of_plane": ["shoulder"]}))
    assert not isinstance(half, Unknown) and set(half) == {"elbow"}


def test_feet_stand_on_the_floor_beside_every_bench() -> None:
    for position in (
        "on-flat-bench",
        "inclined-bench",
        "chest-on-bench",
        "seated-upright",
        "hands-behind-on-bench",
    ):
        for tilt in (None, VOCABULARY.positions[position].at - 10):
            frame = posture(position, {"shoulder": 0}, tilt=tilt)
            assert frame.joints["heel"][1] == pytest.approx(0, abs=0.01) and frame.joints["toe"][
                1
            ] == pytest.approx(0, abs=0.01)


# --- words and checks -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("position", "view", "words"),
    [
        ("standing", "side", ""),
        ("standing", "front", "seen from the front"),
        ("standing", "above", "seen from above"),
        ("on-flat-bench", "above", "seen from the head end"),
        ("bent-over", "above", "seen from the head end"),
    ],
)
def test_from_where_it_is_seen(position: str, view: str, words: str) -> None:
    assert seen(made(position, {"elbow": 0}, view=view), VOCABULARY) == words


def test_the_words_of_a_view_and_of_the_other_side() -> None:
    turn = made(
        "standing",
        {"shoulder-rotation": 40},
        {"shoulder-rotation": -30},
        view="above",
        other={"from": {"shoulder-rotation": 0}, "to": {"shoulder-rotation": 0}},
    )
    assert placed(turn, VOCABULARY) == "Standing, seen from above"
    assert [told.words for told in key_postures(turn, VOCABULARY)] == [
        "forearms turned in 40°; other side: forearms pointing ahead",
        "forearms turned out 30°; other side: forearms pointing ahead",
    ]


@pytest.mark.parametrize(
    ("movement", "segment"),
    [
        (made("forearms-on-floor", {"hip": 0}), "trunk"),
        (made("seated", {"wrist": -40}, {"wrist": 40}), "forearm"),
        (
            made(
                "standing-tall", {"scapular-elevation": 0}, {"scapular-elevation": 25}, view="front"
            ),
            "upper_arm",
        ),
        (
            made("standing", {"shoulder-rotation": 40}, {"shoulder-rotation": -40}, view="above"),
            "forearm",
        ),
        (made("seated", {"hip-abduction": 0}, {"hip-abduction": 35}, view="above"), "thigh"),
        (made("standing", {"spine-rotation": -40}, {"spine-rotation": 40}, view="above"), "trunk"),
    ],
)
def test_what_works(movement: Movement, segment: str) -> None:
    assert working_segment(frames(movement, VOCABULARY)) == segment


def test_checks_know_the_views() -> None:
    assert [t.path for t in impossible(made("side-lying", {"hip": 0}), VOCABULARY)] == [
        ("position",)
    ]
    assert not list(
        impossible(made("standing", {"shoulder-horizontal": 0}, view="above"), VOCABULARY)
    ), "no floor is seen"
    assert [t.path for t in out_of_range(made("seated", {"wrist": 120}))] == [
        ("from", "wrist"),
        ("to", "wrist"),
    ]
    assert [t.path for t in not_shown(made("seated", {"knee": 10}, view="above"))] == [
        ("from", "knee"),
        ("to", "knee"),
    ]


# --- a leg lifted while the other knee carries ---------------------------------

KNEELS = {"hip": 90.0, "knee": 108.0, "ankle": -70.0, "shoulder": 88.0, "elbow": 10.0}
LIFTED = {"hip": -2.0, "knee": 2.0, "ankle": -10.0, "shoulder": 88.0, "elbow": 10.0}


def on_hand_and_knee(stays: str) -> Movement:
    """One leg is lifted into line with the trunk; the other leg kneels and the arm of the lifted side stands."""
    return made(
        "one-hand-and-knee",
        KNEELS,
        LIFTED,
        other={"from": KNEELS, "to": KNEELS},
        stays=stays,
        via=[{**KNEELS, "hip": 42.0, "knee": 95.0, "ankle": -55.0}],
    )


def test_the_hip_of_a_lifted_leg_holds_that_leg_and_no_more() -> None:
    # By hand with de Leva's table 4 (men, 75 kg, 1.75 m): thigh 10.62 kg with its centre at 0.410 of 0.429 m, shank 3.25 kg at
    # 0.440 of 0.431 m, foot 1.03 kg beyond the ankle, all nearly level: 9.81 x (1.87 + 2.01 + about 0.95) = 47 N m.
    found = reckoned(on_hand_and_knee("other"), REFERENCE, one_side=True)
    assert isinstance(found, dict)
    assert abs(found["hip"].samples[-1].moment) == pytest.approx(47, abs=3)


def test_a_rest_on_hand_and_knee_is_judged_by_the_leg_that_stays() -> None:
    assert list(impossible(on_hand_and_knee("other"), VOCABULARY)) == []
    assert any(
        "knees miss" in trouble.message or "below the floor" in trouble.message
        for trouble in impossible(on_hand_and_knee("this"), VOCABULARY)
    )
