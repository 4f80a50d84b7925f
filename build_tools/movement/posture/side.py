"""Places a body in the side view: turns it so that its position holds, then sets it on what carries it."""

from __future__ import annotations

from math import acos, atan2, degrees, hypot, radians, sin

from ...catalog.entries import Movement, Position
from .body import Body
from .chain import Angles, foot_offsets, leg, leg_to, pelvis_lean, rest_of_body
from .frame import ARM, OTHER, SEGMENTS, Frame, Point, Segment
from .view import View

#: Carrying point -> the joint that rests, and how far its centre lies from what carries it, metres. Our drawing convention:
#: about half the depth of the body there. Feet, toes and heels rest with the sole, hands with the grip.
RESTS = {
    "toes": ("toe", 0.0),
    "heels": ("heel", 0.0),
    "knees": ("knee", 0.06),
    "seat": ("hip", 0.09),
    "hips": ("hip", 0.1),
    "back": ("hip", 0.1),
    "front": ("hip", 0.1),
    "side": ("hip", 0.1),
    "shoulders": ("mid_shoulder", 0.1),
    "elbows": ("elbow", 0.04),
    "hands": ("hand", 0.0),
}
#: Which way the palm faces, for a wrist that bends: with the elbow, against it, or out of the plane.
PALM = {None: 1.0, "underhand": 1.0, "overhand": -1.0, "neutral": 0.0, "turning": 1.0}
#: Segment, of either limb -> the joints it runs between.
_ENDS = {
    prefix + name: (prefix + start, prefix + end)
    for name, (start, end) in SEGMENTS.items()
    for prefix in ("", OTHER)
}
LEGS = ("hip", "knee", "ankle")


def side_frame(
    movement: Movement,
    position: Position,
    angles: Angles,
    other: Angles | None,
    body: Body,
    time: float,
    holds: bool = False,
) -> Frame:
    """One posture in the side view; ``angles`` must hold every joint of the view; ``holds``: the load sets the arms."""
    carried: dict[str, float] = {
        point: movement.support.get(point, height) for point, height in position.rests_on.items()
    }
    if position.fixes is not None:
        angles, lean = (
            dict(angles),
            pelvis_lean(
                position.fixes, position.at if movement.tilt is None else movement.tilt, angles
            ),
        )
    else:
        angles, other, lean = _rested(movement, position, carried, angles, other, body)
    if position.arm is not None and "shoulder" not in movement.start and not holds:
        angles["shoulder"] = position.arm + lean + angles["spine"]
    joints, turns = _at_origin(movement, lean, angles, other, body)
    dx, dy = _shift(
        joints, carried, OTHER if movement.stays == "other" and other is not None else "", body
    )
    joints = {name: (x + dx, y + dy) for name, (x, y) in joints.items()}
    if position.toes is not None and feet_rest(movement, position):
        angles.update(leg_to((position.toes[0], position.toes[1]), 0.0, joints["hip"], lean, body))
        joints, turns = _with(joints, turns, *leg(joints["hip"], lean, angles, body))
    if movement.other is not None and movement.other.toes is not None:
        x, y = movement.other.toes
        other = leg_to((x, y), movement.other.pitch or 0.0, joints["hip"], lean, body)
        joints, turns = _with(joints, turns, *leg(joints["hip"], lean, other, body), prefix=OTHER)
    second_limbs = LEGS + (("shoulder", "elbow") if has_other_arm(movement) else ())
    shown = (
        {**angles, **{OTHER + joint: other[joint] for joint in second_limbs}} if other else angles
    )
    return Frame(time, SIDE, joints, segments(joints, turns), shown)


def _rested(
    movement: Movement,
    position: Position,
    carried: dict[str, float],
    angles: Angles,
    other: Angles | None,
    body: Body,
) -> tuple[dict[str, float], Angles | None, float]:
    """Angles of both limbs and lean of the pelvis of a body on two points: the leg that holds it lies or stands flat there."""
    second = (
        movement.other.start
        if movement.other and other is not None and movement.stays == "other"
        else None
    )
    holding = dict(angles if second is None or other is None else other)
    lean = _lean_on_two(position, carried, holding, body)
    named = movement.start if second is None else second
    if "knees" in carried and "knee" not in named:
        holding["knee"] = holding["hip"] - lean + 90  # the shank lies on the floor
    if "feet" in carried and "ankle" not in named:
        holding["ankle"] = lean - holding["hip"] + holding["knee"]  # the sole lies flat
    return (holding, other, lean) if second is None else (dict(angles), holding, lean)


def _at_origin(
    movement: Movement, lean: float, angles: Angles, other: Angles | None, body: Body
) -> tuple[dict[str, Point], dict[str, float]]:
    """Joints and segment angles of the whole body with its hip at the origin."""
    origin, palm = (0.0, 0.0), PALM[movement.grip]
    joints, turns = rest_of_body(origin, lean, angles, body, palm)
    joints, turns = _with(joints, turns, *leg(origin, lean, angles, body))
    if other is not None:
        joints, turns = _with(joints, turns, *leg(origin, lean, other, body), prefix=OTHER)
        if has_other_arm(movement):
            joints, turns = _with(
                joints, turns, *_arm(*rest_of_body(origin, lean, other, body, palm)), prefix=OTHER
            )
    return joints, turns


def feet_rest(movement: Movement, position: Position) -> bool:
    """Whether the feet stand where the position puts them, since the exercise does not bend the legs."""
    return position.toes is not None and not movement.start.keys() & set(LEGS)


def has_other_arm(movement: Movement) -> bool:
    """Whether the second arm does something else."""
    second = movement.other.start if movement.other else None
    return bool(second and {"shoulder", "elbow"} & second.keys())


def _arm(
    joints: dict[str, Point], turns: dict[str, float]
) -> tuple[dict[str, Point], dict[str, float]]:
    return {name: joints[name] for name in ARM}, {
        name: turns[name] for name in ("upper_arm", "forearm", "hand")
    }


def segments(joints: dict[str, Point], turns: dict[str, float]) -> dict[str, Segment]:
    """Every segment whose angle in space is given."""
    found = {}
    for name, angle in turns.items():
        start, end = _ENDS[name]
        found[name] = Segment(joints[start], joints[end], angle)
    return found


def _with(
    joints: dict[str, Point],
    turns: dict[str, float],
    more: dict[str, Point],
    more_turns: dict[str, float],
    prefix: str = "",
) -> tuple[dict[str, Point], dict[str, float]]:
    if not prefix:
        return joints | more, turns | more_turns
    return (
        joints | {prefix + name: point for name, point in more.items()},
        turns | {prefix + name: angle for name, angle in more_turns.items()},
    )


def resting(
    joints: dict[str, Point], point: str, height: float, limb: str, body: Body
) -> tuple[Point, float]:
    """The joint centre that a carrying point stands for, and the height it must have."""
    if point == "feet":
        return joints[limb + "ankle"], height + body.length("ankle_height")
    joint, depth = RESTS[point]
    return joints[limb + joint if limb + joint in joints else joint], height + depth


def _lean_on_two(
    position: Position, carried: dict[str, float], angles: Angles, body: Body
) -> float:
    """Lean at which both carrying points have their heights: of the two turns that do, the one that faces as told.

    When the points are nearer to each other than their heights, the body hangs straight between them.
    """
    origin = (0.0, 0.0)
    joints = {**rest_of_body(origin, 0.0, angles, body)[0], **leg(origin, 0.0, angles, body)[0]}
    (first, first_height), (second, second_height) = (
        resting(joints, point, height, "", body) for point, height in carried.items()
    )
    dx, dy = first[0] - second[0], first[1] - second[1]
    span = hypot(dx, dy)
    offset = degrees(acos(max(-1.0, min(1.0, (first_height - second_height) / span))))
    start = -degrees(atan2(dx, dy))
    leans = [((start + turn + 180) % 360) - 180 for turn in (offset, -offset)]
    return min(leans, key=lambda lean: sin(radians(lean)) * (1 if position.faces == "up" else -1))


def _shift(joints: dict[str, Point], carried: dict[str, float], limb: str, body: Body) -> Point:
    """How far to move the body so that its first carrying point rests in its place."""
    point, height = next(iter(carried.items()))
    if point == "feet":
        heel, toe = joints[limb + "heel"], joints[limb + "toe"]
        return foot_offsets(body)[1][0] - toe[0], height - min(heel[1], toe[1])
    centre, centre_height = resting(joints, point, height, limb, body)
    return -centre[0], centre_height - centre[1]


class SideView(View):
    """The body in profile, facing right."""

    name, apart, upright, across = "side", False, True, ""
    joints = (
        "hip",
        "knee",
        "ankle",
        "spine",
        "shoulder",
        "elbow",
        "wrist",
        "scapular-elevation",
        "scapular-protraction",
        "shoulder-rotation",
    )
    reckoned = frozenset(
        {"hip", "knee", "ankle", "shoulder", "elbow", "wrist", "shoulder-rotation"}
    )
    turns = {"shoulder-rotation": -1}

    def on_page(
        self, pelvis: Point, turn: float, forward: float, left: float | None, height: float
    ) -> Point:
        """Forward and up."""
        return forward, height

    def words(self, position: Position, gravity: float) -> str:
        """Nothing: figures are seen from the side unless told."""
        return ""

    def can_show(self, position: Position) -> bool:
        """Someone on the side faces the viewer."""
        return not position.sideways

    def default_angles(
        self, zero: dict[str, float], position: dict[str, float], held: dict[str, float]
    ) -> dict[str, float]:
        """Load point before position before 0."""
        return {**zero, **position, **held}

    def second_limbs(self, named: list[str]) -> dict[str, tuple[str, ...]]:
        """The leg and the arm behind."""
        return {"other leg": ("hip", "knee"), "other arm": ("shoulder", "elbow")}


SIDE = SideView()


def place_side(
    movement: Movement,
    position: Position,
    angles: dict[str, float],
    second: dict[str, float],
    body: Body,
    time: float,
    holds: bool,
) -> Frame:
    """A second leg that is not told of hangs straight."""
    other = {**angles, "hip": 0.0, "knee": 0.0, "ankle": 0.0, **second} if second else None
    return side_frame(movement, position, angles, other, body, time, holds)
