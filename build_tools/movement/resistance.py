"""The moment that the load asks of each moving joint over a repetition.

Quasi-static: the body is taken as standing still in every posture, so speed, friction and the muscles' own strength are left
out. Moments are in N·m, of both limbs together where both work; pages show them as a share of their peak. The size of the load
is nominal (below): it only sets how much the weight of the limbs counts beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import dist

from ..catalog.entries import Load, MachineCurve, Movement, Position
from .applied import ARM, LEG, at_rest, lands, load_point, pull_load, supports, weight_load, weights
from .balance import centre_of_mass
from .body import REFERENCE, Body
from .demand import BEYOND, Applied, asked
from .frame import Frame, Point
from .load_curve import Curve, Sample
from .load_words import MACHINE, ends
from .statics import GRAVITY, SLACK_SHARE, band_tension, pull

#: Nominal load as a share of body mass: what legs and trunk carry, and what one pair of limbs moves. Our convention.
CARRIED_BY_LEGS, MOVED_BY_LIMBS = 0.5, 0.15
#: A joint that moves by less (degrees) over the repetition is taken as held.
MOVES = 5.0
#: Heights of a pulley or post that go by name, metres.
HEIGHTS = {"low": 0.15, "mid": 1.0, "high": 2.1}
#: Joints of the front view turn like their namesakes.
NAMESAKE = {"hip-abduction": "hip", "shoulder-abduction": "shoulder"}


@dataclass(frozen=True)
class Unknown:
    """Why no curve can be given, as a phrase for a page."""

    why: str


def moving_joints(frames: Sequence[Frame], position: Position) -> list[str]:
    """Joints that the load can be reckoned for and that move by 5 degrees or more.

    The spine is not one: its load is not modelled. Nor is the ankle above a flat foot: where in the sole the weight is carried
    cannot be told from joint angles.
    """
    def travel(joint: str) -> float:
        angles = [f.angles[joint] for f in frames]
        return max(angles) - min(angles)
    known = BEYOND.keys() - ({"ankle"} if "feet" in position.rests_on else set())
    return [joint for joint in frames[0].angles if NAMESAKE.get(joint, joint) in known and travel(joint) >= MOVES]


def curves(movement: Movement, position: Position, frames: Sequence[Frame], body: Body = REFERENCE, *,
           one_side: bool = False, load_mass: float | None = None) -> dict[str, Curve] | Unknown:
    """Joint -> the moment its muscles must supply over the repetition, flexors (or abductors) positive.

    ``frames``: postures in order, two or more. A machine's curve is the author's or unknown. ``one_side``: one limb works, as in an
    exercise done one side at a time. ``load_mass``: kilograms, for a cable or the most stretched band the kilograms it pulls like;
    nominal unless given.
    """
    if movement.load.kind == "machine":
        return _measured(movement.load.curve, frames)
    joints = moving_joints(frames, position)
    mass = body.mass * (CARRIED_BY_LEGS if {"hip", "knee"} & set(joints) and movement.load.at not in ("ankle", "heel")
                        else MOVED_BY_LIMBS) if load_mass is None else load_mass
    loads = _loads(movement.load, frames, mass, one_side)
    if isinstance(loads, Unknown):
        return loads
    landing, rests = lands(frames[-1], movement, position), at_rest(movement, position)
    made = {}
    for joint in joints:
        root = NAMESAKE.get(joint, joint)
        limb = (LEG if root in ("hip", "knee", "ankle") else ARM) if one_side else ()
        try:
            samples = [Sample(f.time, f.angles[joint],
                              asked(root, f.joints[root], [*weights(f, body, limb, rests), *load],
                                    supports(f, movement, position, landing)))
                       for f, load in zip(frames, loads, strict=True)]
        except ValueError as problem:
            return Unknown(str(problem))
        made[joint] = Curve(joint, tuple(samples))
    return made


def called(movement: Movement, frames: Sequence[Frame], body: Body = REFERENCE) -> tuple[str, str]:
    """What to call the start and the end of a repetition: bottom and top where a weight or the body clearly travels up or down."""
    if movement.load.kind in ("cable", "band", "machine"):
        return ends(0, 0)
    at = movement.load.at
    first, last = ((load_point(f, at) if at else centre_of_mass(f, body))[1] for f in (frames[0], frames[-1]))
    return ends(first, last)


def anchor_point(load: Load) -> Point | None:
    """Where a cable or band comes from, metres from the point that carries the body; None where the author does not say."""
    if load.anchor is None or isinstance(load.anchor, str):
        return None
    height = load.anchor.height
    return load.anchor.x, HEIGHTS[height] if isinstance(height, str) else height


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
        samples.append(Sample(frame.time, frame.angles[given.joint],
                              sign * ((1 - share) * given.moments[first] + share * given.moments[first + 1])))
    return {given.joint: Curve(given.joint, tuple(samples))}


def _loads(load: Load, frames: Sequence[Frame], mass: float, one_side: bool) -> list[list[Applied]] | Unknown:
    """What the load does to the body in each posture."""
    if load.kind == "body-weight":
        return [[] for _ in frames]
    if load.at is None:
        return Unknown("where the load meets the body is not given")
    if load.kind == "free-weight":
        return [weight_load(f, load.at, mass, one_side) for f in frames]
    anchor = anchor_point(load)
    if anchor is None:
        return Unknown("depends on where the cable comes from" if load.kind == "cable" else "depends on where the band is fixed")
    points = [load_point(f, load.at) for f in frames]
    tensions = [mass * GRAVITY] * len(points)
    if load.kind == "band":
        lengths = [dist(p, anchor) for p in points]
        stretch = [band_tension(length, SLACK_SHARE * min(lengths)) for length in lengths]
        tensions = [mass * GRAVITY * s / max(stretch) for s in stretch]
    return [pull_load(load.at, pull(p, anchor, t)) for p, t in zip(points, tensions, strict=True)]
