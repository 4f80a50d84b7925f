"""A body told of from the head, turned for its picture so that it faces the viewer (``movement.shown: front``).

Loads and lengths are reckoned in the view that the angles are told in; a client reads a whole body more easily than a section
through the chest. The joints are the same points of the room, seen from another side: metres to the person's left, forward of
the pelvis and along the trunk, looked at from the front, or, of someone on the right side, from where the chest faces.

Arms that nothing is told of hang; the lower arm of someone on the side lies under the head. Heels of someone on the side whose
thighs spread stay together.
"""

from __future__ import annotations

from dataclasses import replace
from math import acos, atan2, cos, degrees, dist, hypot, radians, sin

from ...catalog.entries import Movement, Position, Vocabulary
from .above import arm, knee_bend, thigh_bend, trunk_lean
from .body import HIPS_APART, REFERENCE, Body
from .chain import Angles, leg_to
from .frame import OTHER, SEGMENTS, Frame, Point, along
from .front import FRONT, HALF_FOOT, SHOULDER_DEPTH
from .pose import frames, key_frames
from .side import RESTS, feet_rest, segments

#: A point of the body: metres to the person's left, forward of the pelvis, and along the trunk towards the head.
Solid = tuple[float, float, float]

#: How far hanging arms are lifted aside, and how far arms that hold something to the chest point down from straight ahead, degrees;
#: how far one heel lies above the other, metres. Our drawing convention.
ASIDE, DOWN, STACKED = 5.0, 45.0, 0.09
#: A segment that is seen shorter than this (metres) points at the viewer.
SEEN = 1e-6


def shown_frames(
    movement: Movement, vocabulary: Vocabulary, body: Body = REFERENCE, steps: int = 21
) -> tuple[Frame, ...]:
    """``steps`` postures as pictures show them, evenly spaced in time, both ends included."""
    return _shown(movement, vocabulary, body, frames(movement, vocabulary, body, steps))


def shown_key_frames(
    movement: Movement, vocabulary: Vocabulary, body: Body = REFERENCE
) -> tuple[Frame, ...]:
    """The postures that the author wrote down, as pictures show them."""
    return _shown(movement, vocabulary, body, key_frames(movement, vocabulary, body))


def _shown(
    movement: Movement, vocabulary: Vocabulary, body: Body, course: tuple[Frame, ...]
) -> tuple[Frame, ...]:
    position = vocabulary.positions[movement.position]
    if movement.shown is None:
        propped = position.sideways and "elbows" in position.rests_on
        return tuple(_hand_on_hip(frame, body) for frame in course) if propped else course
    return tuple(_faced(movement, position, frame, body) for frame in course)


def profiles(
    movement: Movement, vocabulary: Vocabulary, body: Body = REFERENCE
) -> tuple[Frame, ...]:
    """The whole body from the side in each posture of a movement that is told from above."""
    legs = {joint: at for joint, at in movement.start.items() if joint in ("hip", "knee")}
    side = movement.model_copy(
        update={"view": "side", "start": legs, "via": [], "end": legs, "other": None}
    )
    frame = key_frames(side, vocabulary, body)[0]
    return tuple(_with_arm(frame, told, body) for told in key_frames(movement, vocabulary, body))


def _with_arm(frame: Frame, told: Frame, body: Body) -> Frame:
    """A body from the side with its arm as far forward of the shoulder as it is told from above."""
    lean = radians(frame.segments["trunk"].angle)
    shoulder = frame.joints["shoulder"]
    joints = {
        **frame.joints,
        **{
            name: (shoulder[0] + ahead * cos(lean), shoulder[1] - ahead * sin(lean))
            for name, (_, ahead) in arm(told.angles, body).items()
            if name != "shoulder"
        },
    }
    turns = dict.fromkeys(("upper_arm", "forearm", "hand"), 0.0)
    return replace(frame, joints=joints, segments={**frame.segments, **segments(joints, turns)})


def _hand_on_hip(frame: Frame, body: Body) -> Frame:
    """Someone propped on the lower forearm, with the upper hand on the hip instead of along the body, where it hides the trunk."""
    shoulder, hip = frame.joints["shoulder"], frame.joints["hip"]
    far = dist(shoulder, hip)
    upper, fore = body.length("upper_arm"), body.length("forearm") + body.length("hand")
    bend = degrees(acos((upper**2 + far**2 - fore**2) / (2 * upper * far)))
    way = degrees(atan2(hip[0] - shoulder[0], shoulder[1] - hip[1])) + bend
    elbow = along(shoulder, way, upper)
    share = body.length("forearm") / fore
    wrist = (elbow[0] + share * (hip[0] - elbow[0]), elbow[1] + share * (hip[1] - elbow[1]))
    joints = {**frame.joints, "elbow": elbow, "wrist": wrist, "hand": hip}
    placed = segments(joints, {"upper_arm": way, "forearm": 0.0, "hand": 0.0})
    return replace(frame, joints=joints, segments={**frame.segments, **placed})


def _faced(movement: Movement, position: Position, frame: Frame, body: Body) -> Frame:
    left = {joint: at for joint, at in frame.angles.items() if not joint.startswith(OTHER)}
    right = {
        **left,
        **{
            joint.removeprefix(OTHER): at
            for joint, at in frame.angles.items()
            if joint.startswith(OTHER)
        },
    }
    lean = trunk_lean(movement, position, left)
    long = body.length("trunk")
    solid: dict[str, Solid] = {
        "mid_hip": (0.0, 0.0, 0.0),
        "mid_back": (0.0, 0.0, long / 2),
        "mid_shoulder": (0.0, 0.0, long),
        "head": (0.0, 0.0, long + body.length("head")),
    }
    for prefix, side, angles in (("", 1, left), (OTHER, -1, right)):
        lower = position.sideways and bool(prefix)
        placed = {
            **_arm(angles, left["spine-rotation"], side, lower, body),
            **_leg(movement, position, angles, side, lean, body),
        }
        solid.update({prefix + name: point for name, point in placed.items()})
    if position.sideways:
        _, forward, headward = solid[OTHER + "ankle"]
        solid["ankle"] = (solid[OTHER + "ankle"][0] + STACKED, forward, headward)
    joints = {name: _on_page(point, position.sideways, lean) for name, point in solid.items()}
    joints |= _feet(joints, position.sideways, body)
    dy = _rise(movement, position, joints)
    joints = {name: (x, y + dy) for name, (x, y) in joints.items()}
    return Frame(
        frame.time, FRONT, joints, segments(joints, _turns(joints, position)), frame.angles
    )


def _arm(angles: Angles, spin: float, side: int, lower: bool, body: Body) -> dict[str, Solid]:
    """Shoulder, elbow, wrist and hand of one arm; the arm turns with the chest."""
    long, upper, fore, grip = (
        body.length(name) for name in ("trunk", "upper_arm", "forearm", "hand")
    )
    flat = arm(angles, body)
    reach = dict(zip(flat, (0.0, upper, upper + fore, upper + fore + grip), strict=True))
    if lower:  # under the head
        return {name: (side * flat["shoulder"][0], 0.0, long + far) for name, far in reach.items()}
    if "shoulder-horizontal" in angles:
        c, s = cos(radians(DOWN)), sin(radians(DOWN))
        heights = {name: long - ahead * s for name, (_, ahead) in flat.items()}
        flat = {name: (out, ahead * c) for name, (out, ahead) in flat.items()}
    elif "shoulder-rotation" in angles:
        heights = {**dict.fromkeys(flat, long - upper), "shoulder": long}
    else:
        c, s = cos(radians(ASIDE)), sin(radians(ASIDE))
        out, ahead = flat["shoulder"]
        heights = {name: long - far * c for name, far in reach.items()}
        flat = {name: (out + far * s, ahead) for name, far in reach.items()}
    c, s = cos(radians(spin)), sin(radians(spin))
    return {
        name: (side * out * c + ahead * s, ahead * c - side * out * s, heights[name])
        for name, (out, ahead) in flat.items()
    }


def _leg(
    movement: Movement, position: Position, angles: Angles, side: int, lean: float, body: Body
) -> dict[str, Solid]:
    """Hip, knee and ankle of one leg, which spreads as a whole."""
    if position.toes is not None and feet_rest(movement, position):
        seat = movement.support.get("seat", position.rests_on.get("seat", 0.0))
        bent = leg_to(
            (position.toes[0], position.toes[1]), 0.0, (0.0, seat + RESTS["seat"][1]), lean, body
        )
        hip, knee = bent["hip"], bent["knee"]
    else:
        hip, knee = thigh_bend(movement, position, angles), knee_bend(position, angles)
    spread = radians(angles["hip-abduction"])
    at: Solid = (side * body.stature * HIPS_APART / 2, 0.0, 0.0)
    points = {"hip": at}
    for name, length, turn in (
        ("knee", body.length("thigh"), hip),
        ("ankle", body.length("shank"), hip - knee),
    ):
        ahead = length * sin(radians(turn))
        at = (
            at[0] + side * sin(spread) * ahead,
            at[1] + cos(spread) * ahead,
            at[2] - length * cos(radians(turn)),
        )
        points[name] = at
    return points


def _on_page(point: Solid, sideways: bool, lean: float) -> Point:
    left, forward, headward = point
    if sideways:
        return -headward, left
    return left, headward * cos(radians(lean)) - forward * sin(radians(lean))


def _feet(joints: dict[str, Point], sideways: bool, body: Body) -> dict[str, Point]:
    """Heels and outer edges of both feet, drawn like those of the front view."""
    made, low, half = {}, body.length("ankle_height"), body.stature * HALF_FOOT
    for prefix, side in (("", 1), (OTHER, -1)):
        x, y = joints[prefix + "ankle"]
        heel = (x + low, y) if sideways else (x, y - low)
        made[prefix + "heel"] = heel
        made[prefix + "toe"] = (
            (heel[0], heel[1] + side * half) if sideways else (heel[0] + side * half, heel[1])
        )
    return made


def _rise(movement: Movement, position: Position, joints: dict[str, Point]) -> float:
    """How far to lift the body so that it rests in its place."""
    point, usual = next(iter(position.rests_on.items()))
    height = movement.support.get(point, usual)
    if point == "feet":
        return height - min(joints["heel"][1], joints[OTHER + "heel"][1])
    if point == "side":
        return height - min(
            joints[OTHER + "hip"][1] - RESTS["side"][1],
            joints[OTHER + "shoulder"][1] - SHOULDER_DEPTH,
        )
    joint, depth = RESTS[point]
    return height + depth - joints[joint][1]


def _turns(joints: dict[str, Point], position: Position) -> dict[str, float]:
    """The direction of each segment on the page, degrees: limbs from straight down, the trunk from upright."""
    upright = -90.0 if position.sideways else 0.0
    turns = dict.fromkeys(("trunk", "lower_trunk", "upper_trunk", "head"), upright)
    for name in ("upper_arm", "forearm", "hand", "thigh", "shank", "foot"):
        for prefix in ("", OTHER):
            start, end = (joints[prefix + joint] for joint in SEGMENTS[name])
            dx, dy = end[0] - start[0], end[1] - start[1]
            turns[prefix + name] = degrees(atan2(dx, -dy)) if hypot(dx, dy) > SEEN else 0.0
    return turns
