"""Curves of classic lifts against worked checks, closed forms and the work done over a small step of each joint."""

from dataclasses import replace
from math import degrees, dist, isfinite, radians, sin

import pytest
import shipped_made
from hypothesis import given
from hypothesis import strategies as st
from repetitions import (
    ALL,
    BAND_CURL,
    CALF_RAISE,
    HINGE,
    LATERAL_RAISE,
    PRONE_CURL,
    RECLINED_CURL,
    STANDING_CURL,
    SUPPORTED_CURL,
    VOCABULARY,
    WEIGHTLESS,
    movement,
    reckon,
)

from build_tools.catalog.entries import Load, OtherLimb
from build_tools.movement.load.forces import at_rest, load_point, weight_load, weights
from build_tools.movement.load.moments import (
    ARM,
    LEG,
    MOVES,
    Unknown,
    anchor_in,
    called,
    curves,
    leaves_plane,
)
from build_tools.movement.load.statics import GRAVITY
from build_tools.movement.posture.body import REFERENCE, Body
from build_tools.movement.posture.pose import frames

CATALOG = shipped_made.catalog()


def at(curve, angle):
    return next(s.moment for s in curve.samples if abs(s.angle - angle) < 1e-6)


# --- worked checks of the project's reference sheet (80 kg person, forearm 0.26 m: stature 1.78 m in the table used here) ---


def test_ten_kilograms_at_a_bent_elbow():
    """With a 7 cm grip, forearm and hand added: 35.5 N·m; without the weight of the arm 10 × 9.81 × 0.33 = 32.4."""
    person = Body(stature=0.26 / 0.146, mass=80)
    assert at(
        reckon(STANDING_CURL, person, one_side=True, load_mass=10)["elbow"], 90
    ) == pytest.approx(35.5, abs=0.1)
    bare = replace(WEIGHTLESS, stature=person.stature)
    assert at(
        reckon(STANDING_CURL, bare, one_side=True, load_mass=10)["elbow"], 90
    ) == pytest.approx(32.4, abs=0.1)


def test_a_standing_curl_peaks_at_90_degrees_and_is_hard_for_half_the_range():
    found = reckon(STANDING_CURL)["elbow"].summary()
    assert found.peak_angle == pytest.approx(90)
    assert found.high == pytest.approx(0.52, abs=0.01)


def test_an_incline_curl_loads_the_elbow_like_a_standing_one():
    """The upper arm hangs in both, so only its length differs."""
    assert reckon(RECLINED_CURL)["elbow"].normalised() == pytest.approx(
        reckon(STANDING_CURL)["elbow"].normalised()
    )


def test_a_supported_upper_arm_moves_the_peak_to_45_degrees():
    assert reckon(SUPPORTED_CURL, steps=131)["elbow"].summary().peak_angle == pytest.approx(45)


@pytest.mark.parametrize("one_side", [False, True])
def test_a_lateral_raise_peaks_at_90_degrees(one_side):
    assert reckon(LATERAL_RAISE, steps=111, one_side=one_side)[
        "shoulder-abduction"
    ].summary().peak_angle == pytest.approx(90)


def test_a_prone_curl_peaks_with_the_knee_straight_and_is_empty_near_90_degrees():
    """The foot's own weight moves the empty place by a few degrees."""
    found = reckon(PRONE_CURL, steps=91)["knee"]
    assert found.summary().peak_angle == pytest.approx(0, abs=5)
    assert abs(found.normalised()[-1]) < 0.15
    assert reckon(PRONE_CURL, WEIGHTLESS, steps=91)["knee"].normalised()[-1] == pytest.approx(
        0, abs=1e-9
    )


def test_a_leaning_trunk():
    """The sheet's closed form: M = g sin α [m_trunk (1 - c) L + m_head (L + 0.20) + (m_arms + m_bar) L], here with weightless arms, because
    the sheet puts them on the shoulders and a posture has them where they hold the bar."""
    body, bar = (
        replace(
            REFERENCE,
            mass_fractions={**REFERENCE.mass_fractions, "upper_arm": 0, "forearm": 0, "hand": 0},
        ),
        40,
    )
    length = body.length("trunk")
    whole = GRAVITY * (
        body.mass_of("trunk") * (1 - 0.431) * length
        + body.mass_of("head") * (length + 0.20)
        + bar * length
    )
    for sample in reckon(HINGE, body, load_mass=bar, steps=10)["hip"].samples:
        assert -sample.moment == pytest.approx(whole * sin(radians(sample.angle)), rel=0.002)


# --- own arithmetic, shown ---


@pytest.mark.parametrize(
    ("anchor", "moment"),
    [
        # Elbow bent 90°, 10 kg of pull (98.1 N), hand 0.3255 m (0.186 × 1.75) in front of the elbow at 1.0955 m.
        ({"x": 0.3255, "height": 0.1}, 31.93),  # straight below: 98.1 × 0.3255
        (
            {"x": 2.3255, "height": 1.106},
            0.0,
        ),  # level with the elbow: the line of pull passes through it
        ({"x": 0.3255, "height": 2.5}, -31.93),  # straight above: asks the extensors
    ],
)
def test_a_cable_at_three_pulley_heights(anchor, moment):
    curl = movement("standing", {"elbow": 80}, {"elbow": 100}, "cable", "hand", **{"from": anchor})
    elbow = frames(curl, VOCABULARY)[0].joints["elbow"]
    assert elbow == pytest.approx((0, 1.106), abs=1e-3)  # 0.818 - 0.186 of stature
    found = reckon(curl, WEIGHTLESS, steps=21, load_mass=10)["elbow"]
    assert at(found, 90) == pytest.approx(moment, abs=0.02)


def test_a_band_pulls_hardest_where_it_is_longest():
    """Weightless arm: moment over lever (distance of the elbow from the line) gives back the tension, which follows the stretch."""
    posed = frames(BAND_CURL, VOCABULARY, steps=15)
    anchor = anchor_in(posed[0], BAND_CURL.load)
    lengths = [dist(load_point(f, "hand"), anchor) for f in posed]
    stretch = [length - 0.8 * min(lengths) for length in lengths]
    curve = reckon(BAND_CURL, WEIGHTLESS, steps=15, load_mass=20)["elbow"]
    for frame, length, s, sample in zip(posed, lengths, stretch, curve.samples, strict=True):
        (hx, hy), (ex, ey) = load_point(frame, "hand"), frame.joints["elbow"]
        lever = ((hx - ex) * (anchor[1] - hy) - (hy - ey) * (anchor[0] - hx)) / length
        assert sample.moment == pytest.approx(-lever * 20 * GRAVITY * s / max(stretch))


def test_a_calf_raise_carries_the_whole_weight_over_the_toes():
    """At every height: (body weight × distance from toes to ankle) less the feet's own weight, asked of the calf."""
    posed = frames(CALF_RAISE, VOCABULARY, steps=9)
    for frame, sample in zip(posed, reckon(CALF_RAISE, steps=9)["ankle"].samples, strict=True):
        lever = frame.joints["toe"][0] - frame.joints["ankle"][0]
        assert -sample.moment == pytest.approx(75 * GRAVITY * lever, rel=0.03)


@pytest.mark.parametrize(
    ("name", "joint", "muscles"),
    [
        ("SQUAT", "hip", "extensors"),
        ("SQUAT", "knee", "extensors"),
        ("HINGE", "hip", "extensors"),
        ("NORDIC", "knee", "flexors"),
        ("PULL_UP", "elbow", "flexors"),
        ("PULL_UP", "shoulder", "extensors"),
        ("PUSH_UP", "elbow", "extensors"),
        ("PRESS", "elbow", "extensors"),
        ("PRESS", "shoulder", "flexors"),
        ("BRIDGE", "hip", "extensors"),
        ("LEG_EXTENSION", "knee", "extensors"),
        ("STANDING_CURL", "elbow", "flexors"),
        ("PRONE_CURL", "knee", "flexors"),
        ("CALF_RAISE", "ankle", "extensors"),
        ("CABLE_CURL", "elbow", "flexors"),
        ("BAND_CURL", "elbow", "flexors"),
    ],
)
def test_whom_a_lift_asks(name, joint, muscles):
    """What every coach knows of these lifts."""
    assert reckon(ALL[name])[joint].summary().asks == muscles


# --- virtual work: moment × small turn of the joint = work against weights, cable and band ---


def energy(made, vocabulary, step, steps, joint, turn, one_side, mass, tension, anchor):
    """Potential energy of body and load in one posture, J, with one joint turned by ``turn`` degrees more.

    Where both sides mirror each other, the right one is held as it was."""
    shifted = made.model_copy(
        update={
            key: {**getattr(made, key), joint: value + turn}
            for key, value in turned_from(made, vocabulary, joint)
        }
    )
    shifted = shifted.model_copy(
        update={
            "via": [
                {**angles, joint: angles[joint] + turn} for angles in made.via if joint in angles
            ]
        }
    )
    if made.view != "side" and made.other is None:
        shifted = shifted.model_copy(
            update={"other": OtherLimb.model_validate({"from": made.start, "to": made.end})}
        )
    frame = frames(shifted, vocabulary, REFERENCE, steps)[step]
    limb = (LEG if joint in ("hip", "knee", "ankle") else ARM) if one_side else ()
    rests = at_rest(made, vocabulary.positions[made.position])
    total = sum(-a.force.y * a.force.at[1] for a in weights(frame, REFERENCE, limb, rests))
    if made.load.kind == "free-weight":
        total += sum(
            -a.force.y * a.force.at[1] for a in weight_load(frame, made.load.at, mass, one_side)
        )
    elif made.load.kind != "body-weight":
        total += tension * dist(load_point(frame, made.load.at), anchor)
    return total


def turned_from(made, vocabulary, joint):
    position, held = vocabulary.positions[made.position], {}
    if made.load.at:
        held = vocabulary.load_points[made.load.at].angles
    for key in ("start", "end"):
        yield key, getattr(made, key).get(joint, held.get(joint, position.angles.get(joint, 0.0)))


def check_by_work(made, vocabulary, one_side=False, skip=()):
    steps, turn, mass = 7, 1e-3, 30
    posed = frames(made, vocabulary, REFERENCE, steps)
    found = curves(
        made, vocabulary.positions[made.position], posed, one_side=one_side, load_mass=mass
    )
    assert not isinstance(found, Unknown), found.why
    anchors = [anchor_in(f, made.load) for f in posed]
    lengths = [
        dist(load_point(f, made.load.at), a) if a else 0.0
        for f, a in zip(posed, anchors, strict=True)
    ]
    stretch = [length - 0.8 * min(lengths) for length in lengths]
    for joint, curve in found.items():
        if joint in skip:
            continue
        for step, sample in enumerate(curve.samples):
            tension = (
                mass * GRAVITY * (stretch[step] / max(stretch) if made.load.kind == "band" else 1)
            )
            more, less = (
                energy(
                    made, vocabulary, step, steps, joint, t, one_side, mass, tension, anchors[step]
                )
                for t in (turn, -turn)
            )
            assert sample.moment == pytest.approx(
                degrees((more - less) / (2 * turn)), abs=0.02 * curve.peak + 1.5
            ), (joint, step)


@pytest.mark.parametrize("name", sorted(ALL.keys() - {"LATERAL_RAISE"}))
def test_moments_equal_the_work_of_a_small_turn(name):
    """An independent road: no free side, no signs and no supports, only the heights that the weights gain and the line that runs out.
    The front view has its own closed form above."""
    check_by_work(ALL[name], VOCABULARY)


# --- shipped exercises ---

SHIPPED_LOADS = {id: e.data for id, e in CATALOG.exercises.items()}


@pytest.mark.parametrize("id", SHIPPED_LOADS)
def test_every_shipped_exercise_has_finite_curves_or_a_plain_reason(id):
    exercise, vocabulary = SHIPPED_LOADS[id], CATALOG.vocabulary.data
    made = exercise.movement
    found = curves(
        made,
        vocabulary.positions[made.position],
        frames(made, vocabulary),
        one_side=exercise.sides == "one",
    )
    if isinstance(found, Unknown):
        assert (
            made.load.kind == "machine"
            or made.load.kind in ("cable", "band")
            and made.load.anchor is None
            or found.why in PLAIN_REASONS
            or made.out_of_plane
            and found.why == leaves_plane(made.out_of_plane)
            or made.view == "above"
            and found.why.startswith("the weight pulls along")
        ), found.why
        return
    assert found
    assert all(isfinite(s.moment) for curve in found.values() for s in curve.samples)
    assert any(curve.summary() for curve in found.values())


#: What statics cannot tell in postures that two or more supports share, and holds in which nothing moves.
PLAIN_REASONS = {
    "the wall carries a share that cannot be told",
    "the sled carries a share that cannot be told",
    "the posture is held, and only movements are reckoned",
    "it is not reckoned for the trunk itself",
    "it is not reckoned for the shoulder blades",
    "it is not reckoned for a forearm that turns",
    "it is not reckoned for a standing leg seen from the front",
    "no joint moves that it could be reckoned for",
    "a sideways pull on a body with two supports: statics cannot say which support takes it",
}


def one_road_only(made):
    """Two feet on the ground: the second leg's muscles work too, so the heights of the weights alone do not tell one joint's share.
    So does the body of someone on the side, which is propped on two points, and that of someone whose feet rest beside the load."""
    position = CATALOG.vocabulary.data.positions[made.position]
    if position.arm is not None and "shoulder" not in made.start:
        return True  # arms that rest would turn against the body
    if (
        made.view == "front"
        and "feet" in position.rests_on
        and "hip-abduction" in made.start
        or (len(position.rests_on) == 2 or "hands" in position.rests_on and position.toes)
    ):
        return True
    return made.other is not None and (
        made.other.toes is not None or made.stays == "other" and made.load.at != "ankle"
    )


@pytest.mark.parametrize(
    "id",
    [
        id
        for id, e in SHIPPED_LOADS.items()
        if not one_road_only(e.movement)
        and (e.movement.load.anchor or e.movement.load.kind in ("free-weight", "body-weight"))
    ],
)
def test_shipped_moments_equal_the_work_of_a_small_turn(id):
    made, one_side = SHIPPED_LOADS[id].movement, SHIPPED_LOADS[id].sides == "one"
    if isinstance(
        curves(
            made,
            CATALOG.vocabulary.data.positions[made.position],
            frames(made, CATALOG.vocabulary.data),
        ),
        Unknown,
    ):
        pytest.skip("no curve")
    check_by_work(made, CATALOG.vocabulary.data, one_side)


# --- what cannot be known, and what follows from the load alone ---


@pytest.mark.parametrize(
    ("kind", "where", "why"),
    [
        ("machine", "ankle", "depends on the machine"),
        ("cable", "ankle", "depends on where the cable comes from"),
        ("band", "ankle", "depends on where the band is fixed"),
        ("free-weight", None, "where the load meets the body is not given"),
    ],
)
def test_a_load_that_is_not_known_is_said_to_be_so(kind, where, why):
    made = movement("seated", {"knee": 5}, {"knee": 90}, kind, where)
    assert curves(made, VOCABULARY.positions["seated"], frames(made, VOCABULARY)) == Unknown(why)


MACHINE_CURVE = {
    "joint": "knee",
    "asks": "flexors",
    "moments": [40, 50, 20],
    "common_practice": "Invented for this test.",
}


def with_curve(**changed):
    made = movement("seated", {"knee": 0}, {"knee": 100}, "machine", "ankle")
    return made.model_copy(
        update={
            "load": Load.model_validate(
                {"kind": "machine", "at": "ankle", "curve": MACHINE_CURVE | changed}
            )
        }
    )


@pytest.mark.parametrize(("asks", "sign"), [("flexors", 1), ("extensors", -1)])
def test_a_machine_whose_curve_is_given(asks, sign):
    """Invented numbers: 40, 50, 20 at 0, 50 and 100 per cent of the repetition; halfway between two, their mean."""
    found = reckon(with_curve(asks=asks), steps=5)["knee"]
    assert [s.moment for s in found.samples] == [sign * m for m in (40, 45, 50, 35, 20)]
    assert (found.summary().peak_angle, found.summary().asks) == (50, asks)


def test_a_machine_whose_curve_is_for_a_joint_that_is_not_there():
    made = with_curve(joint="hip-abduction")
    found = curves(made, VOCABULARY.positions["seated"], frames(made, VOCABULARY))
    assert found == Unknown(
        "its curve is given for the hip-abduction, which the posture does not show"
    )


def test_only_a_machine_takes_a_curve_of_its_own():
    with pytest.raises(ValueError, match="`curve:` is for a machine"):
        Load.model_validate({"kind": "cable", "at": "ankle", "curve": MACHINE_CURVE})


def test_a_sideways_pull_between_two_supports_is_not_known():
    made = movement(
        "bridge",
        {"hip": 50, "knee": 95},
        {"hip": 0, "knee": 95},
        "cable",
        "hips",
        **{"from": {"x": 2, "height": "low"}},
    )
    found = curves(made, VOCABULARY.positions["bridge"], frames(made, VOCABULARY))
    assert isinstance(found, Unknown)
    assert "sideways pull" in found.why


@given(
    st.floats(1, 200),
    st.sampled_from(
        ["STANDING_CURL", "LATERAL_RAISE", "SQUAT", "CABLE_CURL", "BAND_CURL", "PRESS"]
    ),
)
def test_without_segment_weights_the_size_of_the_load_leaves_the_shape_alone(mass, name):
    for joint, curve in reckon(ALL[name], WEIGHTLESS, steps=9, load_mass=mass).items():
        assert curve.normalised() == pytest.approx(
            reckon(ALL[name], WEIGHTLESS, steps=9, load_mass=10)[joint].normalised(), abs=1e-9
        )


@pytest.mark.parametrize("name", sorted(ALL))
def test_curves_have_no_jumps(name):
    """Halving the step about halves the largest change between neighbours."""
    coarse, fine = (reckon(ALL[name], steps=n) for n in (51, 101))
    for joint, curve in coarse.items():

        def jump(c):
            return max(
                abs(b.moment - a.moment) for a, b in zip(c.samples, c.samples[1:], strict=False)
            )

        assert jump(fine[joint]) <= 0.6 * jump(curve) + 1e-6


def test_a_joint_that_is_held_has_no_curve():
    made = movement(
        "standing",
        {"hip": 0, "knee": 10},
        {"hip": 90, "knee": 10 + MOVES - 0.1},
        "free-weight",
        "shoulders",
    )
    assert set(reckon(made)) == {"hip"}


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("SQUAT", ("the top", "the bottom")),
        ("STANDING_CURL", ("the bottom", "the top")),
        ("NORDIC", ("the top", "the bottom")),
        ("PUSH_UP", ("the top", "the bottom")),
        ("CABLE_CURL", ("the start", "the end")),
    ],
)
def test_what_the_ends_are_called(name, expected):
    assert called(ALL[name], frames(ALL[name], VOCABULARY)) == expected
