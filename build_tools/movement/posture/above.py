"""Places a body seen along the trunk from the head: a section through chest and arms.

Signs: an arm straight out to the side is at 0 and straight ahead at 90 (``shoulder-horizontal``); the elbow bends the hand
towards the front and the middle. An arm that hangs at the side turns about itself (``shoulder-rotation``): its forearm points
straight ahead at 0, inwards when positive. The trunk turns to the left when positive (``spine-rotation``).

On the page someone upright faces up, and someone who lies or leans keeps the floor below: only the share of gravity that
falls into this plane acts here, the sine of the trunk's lean.
"""

from __future__ import annotations

from math import atan2, cos, degrees, dist, radians, sin

from ...catalog.entries import Movement, Position
from .body import HIPS_APART, Body
from .chain import WHERE_NAMED, Angles, girdle, pelvis_lean
from .frame import OTHER, Frame, Point, turned
from .side import RESTS, segments
from .view import View

#: A trunk that leans forward by more than this (degrees) is drawn face down.
FACE_DOWN = 20.0
#: Share of gravity in the plane from which on the floor is drawn.
LIES = 0.9
#: Share from which on someone is told to lie rather than to stand or sit.
LYING = 0.5
#: Shorter segments (metres) point at the viewer.
SEEN = 1e-6
#: Thighs of hips that are bent less (degrees) lie under the trunk.
THIGHS_SHOW = 30.0
#: Bend of the hips of someone on the side, where the thighs spread: shown unless given, degrees.
CURLED = 45.0
#: Shanks of knees that are bent less are seen beyond the thighs, degrees.
STRAIGHT = 60.0
#: How far the nose stands in front of the middle of the head, metres. Our drawing convention.
NOSE = 0.12


def above_frame(
    movement: Movement, position: Position, left: Angles, right: Angles, body: Body, time: float
) -> Frame:
    """One posture seen from the head. The left limbs have plain names, the right ones ``other_``; thighs only where they show."""
    lean = trunk_lean(movement, position, left)
    gravity = 1.0 if position.sideways else abs(sin(radians(lean)))
    turn = -90.0 if position.sideways else 180.0 if lean > FACE_DOWN else 0.0
    rise = (0.0, _height(movement, position, body) if lies(position, gravity) else 0.0)

    def page(sideways: float, forward: float) -> Point:
        """A point given by metres to the person's left and to the front of the pelvis."""
        return turned(rise, turn, (-sideways, forward))

    spin = radians(left["spine-rotation"])

    def turned_with_chest(sideways: float, forward: float) -> Point:
        return page(
            sideways * cos(spin) + forward * sin(spin), forward * cos(spin) - sideways * sin(spin)
        )

    legs = {
        prefix: _leg(movement, position, angles, body)
        for prefix, angles in (("", left), (OTHER, right))
    }
    if stands(position, gravity):
        rise = (0.0, legs[""]["ankle"][1] + body.length("ankle_height"))
    joints = {
        "mid_hip": page(0, 0),
        "mid_back": page(0, 0),
        "mid_shoulder": page(0, 0),
        "head": turned_with_chest(0, NOSE),
    }
    for prefix, side, angles in (("", 1, left), (OTHER, -1, right)):
        joints.update(
            {
                prefix + name: turned_with_chest(side * x, y)
                for name, (x, y) in arm(angles, body).items()
            }
        )
        joints.update({prefix + name: page(side * x, y) for name, (x, y) in legs[prefix].items()})
    limbs = {
        "upper_arm": ("shoulder", "elbow"),
        "forearm": ("elbow", "wrist"),
        "hand": ("wrist", "hand"),
        "thigh": ("hip", "knee"),
        "shank": ("knee", "ankle"),
    }
    turns = {
        prefix + name: _angle(joints[prefix + start], joints[prefix + end])
        for prefix in ("", OTHER)
        for name, (start, end) in limbs.items()
        if prefix + end in joints
    }
    turns |= {"trunk": turn + left["spine-rotation"], "head": turn + left["spine-rotation"]}
    seconds = {OTHER + joint: angle for joint, angle in right.items()} if movement.other else {}
    return Frame(time, ABOVE, joints, segments(joints, turns), {**left, **seconds}, gravity, turn)


def trunk_lean(movement: Movement, position: Position, angles: Angles) -> float:
    """Lean of the trunk in the side view, degrees; a body on two points is taken as lying."""
    if position.sideways or position.fixes is None:
        return 90.0 if position.faces == "down" else -90.0
    at = position.at if movement.tilt is None else movement.tilt
    return pelvis_lean(
        position.fixes, at, {"hip": 0.0, "knee": 0.0, "ankle": 0.0, **position.angles, **angles}
    )


def lies(position: Position, gravity: float) -> bool:
    """Whether the body lies on something whose height is known."""
    return gravity > LIES and next(iter(position.rests_on)) in ("back", "front", "side")


def stands(position: Position, gravity: float) -> bool:
    """Whether the body stands bent over, so that the floor lies as far below as the legs reach."""
    return gravity > LIES and "feet" in position.rests_on


def _height(movement: Movement, position: Position, body: Body) -> float:
    """Height of the middle of the trunk above the floor."""
    point, usual = next(iter(position.rests_on.items()))
    depth = body.length("shoulder_width") / 2 + 0.06 if point == "side" else RESTS[point][1] + 0.02
    return movement.support.get(point, usual) + depth


def arm(angles: Angles, body: Body) -> dict[str, Point]:
    """Shoulder, elbow, wrist and hand, metres outwards and forwards."""
    half = body.length("shoulder_width") / 2
    shoulder = girdle(
        (half, 0.0), 0.0, {"scapular-protraction": angles["scapular-protraction"]}, body
    )
    shoulder = (half, shoulder[1])
    if "shoulder-horizontal" in angles:
        arm = angles["shoulder-horizontal"]
        elbow, forearm = _out(shoulder, arm, body.length("upper_arm")), arm + angles["elbow"]
    else:
        elbow, forearm = shoulder, 90 + angles.get("shoulder-rotation", 0.0)
    wrist = _out(elbow, forearm, body.length("forearm"))
    return {
        "shoulder": shoulder,
        "elbow": elbow,
        "wrist": wrist,
        "hand": _out(wrist, forearm, body.length("hand")),
    }


def _leg(movement: Movement, position: Position, angles: Angles, body: Body) -> dict[str, Point]:
    """Hip and, where the thigh shows, knee and ankle, metres outwards and forwards."""
    hip = (body.stature * HIPS_APART / 2, 0.0)
    bent = thigh_bend(movement, position, angles)
    if bent < THIGHS_SHOW:
        return {"hip": hip}
    way = 90 - angles["hip-abduction"]
    knee = _out(hip, way, sin(radians(bent)) * body.length("thigh"))
    # Someone who sits or lies curled up hides the shanks under the thighs.
    shown = position.angles.get("knee", 90.0) < STRAIGHT
    shank = sin(radians(bent - position.angles["knee"])) * body.length("shank") if shown else 0.0
    return {"hip": hip, "knee": knee, "ankle": _out(knee, way, shank)}


def thigh_bend(movement: Movement, position: Position, angles: Angles) -> float:
    """How far the hips are bent, degrees; someone on the side whose thighs spread lies curled up."""
    return angles["hip"] or (
        CURLED if position.sideways and "hip-abduction" in movement.start else 0.0
    )


def knee_bend(position: Position, angles: Angles) -> float:
    """How far the knees are bent, degrees: as the position says, square where thighs show, else straight."""
    return position.angles.get("knee", 90.0 if angles["hip"] or position.sideways else 0.0)


def _out(start: Point, angle: float, length: float) -> Point:
    """The far end of a limb that points ``angle`` from straight out to the side towards the front."""
    return start[0] + length * cos(radians(angle)), start[1] + length * sin(radians(angle))


def _angle(start: Point, end: Point) -> float:
    """Direction on the page: 0 down, positive anticlockwise; 0 for what points at the viewer."""
    if dist(start, end) < SEEN:
        return 0.0
    return degrees(atan2(end[0] - start[0], start[1] - end[1]))


class AboveView(View):
    """The body seen along the trunk from the head."""

    name, apart, upright, across = "above", True, False, "across the body"
    joints = (
        "shoulder-horizontal",
        "elbow",
        "shoulder-rotation",
        "spine-rotation",
        "hip-abduction",
        "scapular-protraction",
        "hip",
    )
    reckoned = frozenset({"shoulder-horizontal", "shoulder-rotation", "elbow", "hip-abduction"})
    turns = {"shoulder-horizontal": -1, "shoulder-rotation": -1, "elbow": -1}
    stands_for = {
        "hip": "hip-abduction",
        "shoulder": "shoulder-horizontal",
        "elbow": "shoulder-rotation",
        "spine": "spine-rotation",
    }

    def on_page(
        self, pelvis: Point, turn: float, forward: float, left: float | None, height: float
    ) -> Point:
        """Left and forward of the pelvis, turned with the body; height points at the viewer."""
        return turned(pelvis, turn, (-(left or 0.0), forward))

    def words(self, position: Position, gravity: float) -> str:
        """From where it is seen: only someone who lies has a head end; who bends over shows the head to somebody in front."""
        if gravity < LYING or "seat" in position.rests_on:
            return "seen from above"
        return "seen from the head end" if lies(position, gravity) else "seen from the front"

    def knows_floor(self, position: Position, gravity: float) -> bool:
        """Only under a body that lies."""
        return lies(position, gravity)

    def shows_floor(self, position: Position, gravity: float) -> bool:
        """Under a body that lies or stands bent over."""
        return lies(position, gravity) or stands(position, gravity)


ABOVE = AboveView()


def place_above(
    movement: Movement,
    position: Position,
    angles: dict[str, float],
    second: dict[str, float],
    body: Body,
    time: float,
    holds: bool,
) -> Frame:
    """The right limbs do as the left ones unless told; an arm that turns otherwise keeps nothing of the left one's turn."""
    mirrored = {
        joint: angle
        for joint, angle in angles.items()
        if joint not in WHERE_NAMED or not WHERE_NAMED & second.keys()
    }
    return above_frame(movement, position, angles, {**mirrored, **second}, body, time)
