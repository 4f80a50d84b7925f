"""The moment that the load asks of each moving joint over a repetition.

Quasi-static: the body is taken as standing still in every posture, so speed, friction and the muscles' own strength are left
out. Moments are in N·m, of both limbs together where both work; pages show them as a share of their peak. The size of the load
is nominal (below): it only sets how much the weight of the limbs counts beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import dist

from ...catalog.entries import Load, MachineCurve, Movement, Position
from ..posture.balance import centre_of_mass
from ..posture.body import REFERENCE, Body
from ..posture.frame import OTHER, Frame, Point
from ..posture.side import LEGS, PALM, feet_rest
from .curve import Curve, Instant
from .demand import BEYOND, Applied, Support, asked
from .forces import (
    ARM,
    LEG,
    ON_LEG,
    at_rest,
    lands,
    load_point,
    pull_load,
    supports,
    weight_load,
    weights,
)
from .statics import GRAVITY, SLACK_SHARE, band_tension, pull
from .words import MACHINE, ends

#: Nominal load as a share of body mass: what legs and trunk carry, and what one pair of limbs moves. Our convention.
CARRIED_BY_LEGS, MOVED_BY_LIMBS = 0.5, 0.15
#: A joint that moves by less (degrees) over the repetition is taken as held.
MOVES = 5.0
#: Heights of a pulley or post that go by name, metres.
HEIGHTS = {"low": 0.15, "mid": 1.0, "high": 2.1}
#: Joints of the front view turn like their namesakes.
NAMESAKE = {
    "hip-abduction": "hip",
    "shoulder-abduction": "shoulder",
    "shoulder-horizontal": "shoulder",
    "shoulder-rotation": "shoulder",
}
#: The lift of the shoulder girdle, a lever of half its width that the arm hangs on.
LIFT = "scapular-elevation"
#: Joints that no view reckons with, and how a page calls them.
NOT_RECKONED = {
    "hip-abduction": "a standing leg seen from the front",
    "spine": "the trunk itself",
    "scapular": "the shoulder blades",
    "forearm-rotation": "a forearm that turns",
}
#: Below this share of gravity in the plane a weight pulls along the body that is seen from the head.
ALONG = 0.1


@dataclass(frozen=True)
class Unknown:
    """Why no curve can be given, as a phrase for a page."""

    why: str


def moving_joints(frames: Sequence[Frame], position: Position) -> list[str]:
    """Joints that the load can be reckoned for and that move by 5 degrees or more.

    The spine and the shoulder blade seen from the side are none: their load is not modelled. Nor is the ankle above a flat foot:
    where in the sole the weight is carried cannot be told from joint angles. An arm that turns about itself hides its elbow.
    """

    def travel(joint: str) -> float:
        angles = [f.angles[joint] for f in frames]
        return max(angles) - min(angles)

    first = frames[0]
    known = first.view.reckoned - ({"ankle"} if "feet" in position.rests_on else set())
    if "shoulder-rotation" in first.angles:
        known -= {"elbow", "shoulder"}
    return [joint for joint in first.angles if joint in known and travel(joint) >= MOVES]


def curves(
    movement: Movement,
    position: Position,
    frames: Sequence[Frame],
    body: Body = REFERENCE,
    *,
    one_side: bool = False,
    load_mass: float | None = None,
) -> dict[str, Curve] | Unknown:
    """Joint -> the moment its muscles must supply over the repetition, flexors (or abductors) positive.

    ``frames``: postures in order, two or more. A machine's curve is the author's or unknown. ``one_side``: one limb works, as in an
    exercise done one side at a time. ``load_mass``: kilograms, for a cable or the most stretched band the kilograms it pulls like;
    nominal unless given.
    """
    if movement.load.kind == "machine":
        return _measured(movement.load.curve, frames)
    joints = _reckonable(movement, position, frames)
    if isinstance(joints, Unknown):
        return joints
    loads = _loads(
        movement.load,
        frames,
        _nominal(movement, joints, body) if load_mass is None else load_mass,
        one_side,
    )
    if isinstance(loads, Unknown):
        return loads
    landing, rests = lands(frames[-1], movement, position), at_rest(movement, position)

    def curve(joint: str) -> Curve:
        root = NAMESAKE.get(joint, joint)
        limb = (LEG if root in LEGS else ARM) if one_side else ()
        bends = frames[0].view.turns.get(joint) or (
            int(PALM[movement.grip]) if joint == "wrist" else None
        )
        return Curve(
            joint,
            tuple(
                Instant(
                    f.time,
                    f.angles[joint],
                    _moment(
                        f,
                        root,
                        [*weights(f, body, limb, rests), *load],
                        supports(f, movement, position, landing),
                        bends,
                    ),
                )
                for f, load in zip(frames, loads, strict=True)
            ),
        )

    try:
        return {joint: curve(joint) for joint in joints}
    except ValueError as problem:
        return Unknown(str(problem))


def _reckonable(
    movement: Movement, position: Position, frames: Sequence[Frame]
) -> list[str] | Unknown:
    """Joints that the load is reckoned for, or why it is for none."""
    still = {
        *(LEGS if feet_rest(movement, position) else ()),
        *(("wrist",) if movement.grip == "neutral" else ()),
        *(("shoulder",) if position.arm is not None and "shoulder" not in movement.start else ()),
    }
    if movement.stays == "other" and movement.load.at not in ON_LEG:
        still |= frames[0].view.unreckoned_standing
    # Without limbs that only follow, and a wrist that bends out of the plane.
    joints = [joint for joint in moving_joints(frames, position) if joint not in still]
    if position.against and {"hip", "knee"} & set(joints):
        return Unknown(f"the {position.against} carries a share that cannot be told")
    in_plane = [joint for joint in joints if joint not in movement.out_of_plane]
    if joints and not in_plane:
        return Unknown(leaves_plane(movement.out_of_plane))
    if not in_plane:
        return Unknown(_none(frames))
    if movement.load.kind in ("free-weight", "body-weight") and frames[0].gravity < ALONG:
        return Unknown("the weight pulls along the body, not in the drawn plane")
    return in_plane


def _nominal(movement: Movement, joints: Sequence[str], body: Body) -> float:
    """Mass of the nominal load, kilograms."""
    carried = {"hip", "knee"} & set(joints) and movement.load.at not in ("ankle", "heel")
    return body.mass * (CARRIED_BY_LEGS if carried else MOVED_BY_LIMBS)


def _moment(
    frame: Frame, root: str, acting: list[Applied], carrying: list[Support], bends: int | None
) -> float:
    """What one joint's muscles must supply in one posture, N·m. Raises ValueError where statics cannot tell."""
    if root == LIFT:
        return asked(root, frame.joints["mid_shoulder"], _on_girdle(frame, acting), carrying, bends)
    return asked(root, frame.joints[root], acting, carrying, bends)


def _none(frames: Sequence[Frame]) -> str:
    """Why no joint of a movement can be reckoned for."""
    moved = {
        joint
        for joint in frames[0].angles
        if max(f.angles[joint] for f in frames) - min(f.angles[joint] for f in frames) >= MOVES
    }
    if not moved:
        return "the posture is held, and only movements are reckoned"
    for part, what in NOT_RECKONED.items():
        if any(joint.startswith(part) for joint in moved):
            return f"it is not reckoned for {what}"
    return "no joint moves that it could be reckoned for"


def called(movement: Movement, frames: Sequence[Frame], body: Body = REFERENCE) -> tuple[str, str]:
    """What to call the start and the end of a repetition: bottom and top where a weight or the body clearly travels up or down."""
    if movement.load.kind in ("cable", "band", "machine") or not frames[0].view.upright:
        return ends(0, 0)
    at = movement.load.at
    first, last = (
        (load_point(f, at) if at else centre_of_mass(f, body))[1] for f in (frames[0], frames[-1])
    )
    return ends(first, last)


def leaves_plane(joints: Sequence[str]) -> str:
    """Why nothing is told of joints that also move out of the drawn plane."""
    limbs = "legs" if {NAMESAKE.get(joint, joint) for joint in joints} <= set(LEGS) else "arms"
    return f"the {limbs} also move out of the drawn plane"


def anchor_in(frame: Frame, load: Load) -> Point | None:
    """Where a cable or band comes from, in the plane of a posture; None where the author does not say."""
    if load.anchor == "other-hand":
        return frame.joints.get(OTHER + "hand")
    if load.anchor is None or isinstance(load.anchor, str):
        return None
    height = load.anchor.height
    return frame.view.on_page(
        frame.joints["mid_hip"],
        frame.turn,
        load.anchor.x,
        load.anchor.left,
        HEIGHTS[height] if isinstance(height, str) else height,
    )


def _on_girdle(frame: Frame, acting: Sequence[Applied]) -> list[Applied]:
    """What acts on the arm, moved to the shoulder: the girdle carries the arm and does not turn it."""
    return [
        a._replace(force=a.force._replace(at=frame.joints["shoulder"]))
        if a.segment in BEYOND[LIFT]
        else a
        for a in acting
    ]


def _measured(given: MachineCurve | None, frames: Sequence[Frame]) -> dict[str, Curve] | Unknown:
    """The curve that the author gives for a machine, straight between its values."""
    if given is None:
        return Unknown(MACHINE)
    if given.joint not in frames[0].angles:
        return Unknown(f"its curve is given for the {given.joint}, which the posture does not show")
    sign, last = (1 if given.asks == "flexors" else -1), len(given.moments) - 1
    samples = []
    for frame in frames:
        first = min(int(frame.time * last), last - 1)
        share = frame.time * last - first
        samples.append(
            Instant(
                frame.time,
                frame.angles[given.joint],
                sign * ((1 - share) * given.moments[first] + share * given.moments[first + 1]),
            )
        )
    return {given.joint: Curve(given.joint, tuple(samples))}


def _loads(
    load: Load, frames: Sequence[Frame], mass: float, one_side: bool
) -> list[list[Applied]] | Unknown:
    """What the load does to the body in each posture."""
    if load.kind == "body-weight":
        return [[] for _ in frames]
    if load.at is None:
        return Unknown("where the load meets the body is not given")
    if load.kind == "free-weight":
        return [weight_load(f, load.at, mass, one_side) for f in frames]
    anchors = [anchor for f in frames if (anchor := anchor_in(f, load)) is not None]
    if not anchors:
        return Unknown(
            "depends on where the cable comes from"
            if load.kind == "cable"
            else "depends on where the band is fixed"
        )
    points = [load_point(f, load.at) for f in frames]
    tensions = [mass * GRAVITY] * len(points)
    if load.kind == "band":
        lengths = [dist(p, a) for p, a in zip(points, anchors, strict=True)]
        stretch = [band_tension(length, SLACK_SHARE * min(lengths)) for length in lengths]
        tensions = [mass * GRAVITY * s / max(stretch) for s in stretch]
    return [
        pull_load(load.at, pull(p, a, t)) for p, a, t in zip(points, anchors, tensions, strict=True)
    ]
