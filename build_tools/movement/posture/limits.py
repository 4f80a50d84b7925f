"""What a human body cannot do: joint angles out of range, limbs through the floor, hands and feet that miss their place.

Joint ranges: "Normal values for range of motion of joints", table of a medical manual for professionals (Merck
Manual, 2013 edition; read), for hip, knee, ankle and elbow; shoulder flexion 180, extension 60 and abduction 180,
spine flexion 75 and extension 30 from other copies of clinical tables (read; American Academy of Orthopaedic Surgeons by
memory). Wrist 80 and 70, forearm 80 each way, shoulder rotation inward 70 and outward 90: the Academy's values in table A.1
of the appendix to Norkin and White's textbook of joint measurement (read in an online copy). Arm across the body 135 and 45
back, lift of the shoulder girdle 45 and 5, its glide 15 each way: table of the diarthrodial joints in a physiotherapy
textbook's appendix (read online); the glide is widened to 30, as other tables have it. Side bend 35 (read, another copy) and
rotation of the trunk 45 by memory. Clinical tables are averages of unloaded joints and people differ, so that only what lies ``MARGIN``
beyond them is called impossible: the check is there for slips of sign and hand, not for supple people.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot
from typing import NamedTuple

from ...catalog.entries import Movement, Position, Vocabulary
from .balance import beyond_feet
from .body import REFERENCE
from .frame import OTHER, Frame
from .pose import frames, joints, key_frames, view_of
from .side import resting

#: Joint -> lowest and highest angle of the tables, degrees, flexion or abduction positive.
RANGES = {
    "hip": (-15, 125),
    "knee": (0, 130),
    "ankle": (-50, 20),
    "spine": (-30, 75),
    "shoulder": (-60, 180),
    "elbow": (0, 160),
    "hip-abduction": (-45, 45),
    "shoulder-abduction": (-45, 180),
    "wrist": (-70, 80),
    "forearm-rotation": (-80, 80),
    "shoulder-rotation": (-90, 90),
    "shoulder-horizontal": (-45, 135),
    "scapular-elevation": (-5, 45),
    "scapular-protraction": (-30, 30),
    "spine-side-bend": (-35, 35),
    "spine-rotation": (-45, 45),
}
#: How far beyond the tables an angle may lie, degrees.
MARGIN = 20
#: How far a hand or a foot may be from its place, metres: shoulder blades and toes give what a stick figure has not.
MISS = 0.05
#: How far a joint centre may sink below the floor, metres.
SINK = 0.02
#: Half the length of a foot of the reference body, metres: how far the weight may lie beyond the feet.
HALF_FOOT = REFERENCE.length("foot") / 2

Path = tuple[str | int, ...]


class Trouble(NamedTuple):
    """One thing that cannot be: where in ``movement`` it stands, what is wrong, and what to do."""

    path: Path
    message: str
    help: str


def named_angles(movement: Movement) -> Iterator[tuple[Path, dict[str, float]]]:
    """Every block of joint angles with its place in ``movement``."""
    yield ("from",), movement.start
    yield from ((("via", index), angles) for index, angles in enumerate(movement.via))
    yield ("to",), movement.end
    if movement.other is not None:
        yield from (
            (("other", key), angles)
            for key, angles in (("from", movement.other.start), ("to", movement.other.end))
            if angles
        )


def placeable(movement: Movement, vocabulary: Vocabulary) -> bool:
    """Whether the vocabulary holds the position and the load point, so that the body can be placed."""
    return movement.position in vocabulary.positions and (
        movement.load.at is None or movement.load.at in vocabulary.load_points
    )


def out_of_range(movement: Movement) -> Iterator[Trouble]:
    """Angles that no joint has."""
    for path, angles in named_angles(movement):
        for joint, angle in angles.items():
            low, high = RANGES.get(joint, (angle, angle))
            if not low - MARGIN <= angle <= high + MARGIN:
                yield Trouble(
                    (*path, joint),
                    f"{joint} {angle:g}° is beyond a human joint (clinical tables: {low}° to {high}°)",
                    "check the sign: 0 is the anatomical position, and flexion is positive",
                )


def not_shown(movement: Movement) -> Iterator[Trouble]:
    """Joints that the view cannot show, and joints that only some key frames name."""
    known = joints(movement)
    keys = [movement.start, *movement.via, movement.end]
    for path, angles in named_angles(movement):
        for joint in angles:
            if joint in RANGES and joint not in known:
                yield Trouble(
                    (*path, joint),
                    f"the {movement.view} view cannot show `{joint}`",
                    f"write one of: {', '.join(known)}",
                )
            elif path[0] != "other" and not all(joint in key for key in keys):
                yield Trouble(
                    (*path, joint),
                    f"`{joint}` is missing from another key frame, where it would fall back to its default",
                    "name the same joints in `from:`, `via:` and `to:`",
                )


def moving_joints(movement: Movement) -> set[str]:
    """Joints whose angle changes over the repetition, those of a second limb too; empty for a hold."""
    frames_of = [[movement.start, *movement.via, movement.end]]
    if movement.other and movement.other.start is not None and movement.other.end is not None:
        frames_of.append([movement.other.start, movement.other.end])
    return {
        joint
        for keys in frames_of
        for joint in keys[0]
        if len({key.get(joint) for key in keys}) > 1
    }


def impossible(movement: Movement, vocabulary: Vocabulary) -> Iterator[Trouble]:
    """Postures that run into the floor or miss the place where a hand or foot must be. One trouble of each kind at most."""
    shown = frames(movement, vocabulary)
    position, view = vocabulary.positions[movement.position], view_of(movement)
    if not view.can_show(position):
        yield Trouble(
            ("position",),
            "someone on the side is not drawn in the side view",
            "write `view: front` or `view: above`",
        )
        return
    if not view.knows_floor(position, shown[0].gravity):
        return  # no floor is seen
    sunk = [
        (frame, joint) for frame in shown for joint, (_, y) in frame.joints.items() if y < -SINK
    ]
    if sunk:
        frame, joint = min(sunk, key=lambda found: found[0].joints[found[1]][1])
        yield Trouble(
            ("position",),
            f"the {_plain(joint)} is {-frame.joints[joint][1]:.2f} m below the floor {_when(frame)}",
            "mend the angles, or raise the body with `support:`",
        )
    if len(position.rests_on) == 2 and not view.apart:
        yield from _unrested(movement, position, shown)
    if movement.load.height is not None:
        lowest = min(shown, key=lambda frame: frame.joints["hand"][1])
        if abs(off := lowest.joints["hand"][1] - movement.load.height) > MISS:
            yield Trouble(
                ("load", "height"),
                f"the hands come to {lowest.joints['hand'][1]:.2f} m above the floor {_when(lowest)} "
                f"and miss the load at {movement.load.height:g} m by {abs(off):.2f} m",
                "mend the angles: hip, knee and ankle set the height, and the arms hang when shoulder equals the trunk's lean",
            )
    if movement.other is not None and movement.other.toes is not None:
        x, y = movement.other.toes
        worst = max(shown, key=lambda frame: _away(frame, x, y))
        if _away(worst, x, y) > MISS:
            yield Trouble(
                ("other", "toes"),
                f"the second leg cannot reach: its toes are {_away(worst, x, y):.2f} m short {_when(worst)}",
                "bring the place nearer",
            )


def unbalanced(movement: Movement, vocabulary: Vocabulary) -> Iterator[Trouble]:
    """Key frames of a stand whose weight falls beyond the feet, where nothing else holds the body. Between them a step may fall."""
    position = vocabulary.positions[movement.position]
    if (
        set(position.rests_on) != {"feet"}
        or view_of(movement).apart
        or movement.load.kind in ("cable", "band", "machine")
        or (position.other or position.fixes == "trunk" and movement.position != "standing-tall")
    ):
        return
    floors: tuple[float, ...] = (0.0, movement.support.get("feet", position.rests_on["feet"]))
    if movement.other is not None and movement.other.toes is not None:
        floors += (movement.other.toes[1],)
    worst = max(key_frames(movement, vocabulary), key=lambda frame: abs(beyond_feet(frame, floors)))
    if abs(beyond := beyond_feet(worst, floors)) > HALF_FOOT:
        side = "in front of" if beyond > 0 else "behind"
        yield Trouble(
            ("position",),
            f"the weight falls {abs(beyond):.2f} m {side} the feet {_when(worst)}",
            "mend hip, knee or ankle so that the person would not fall",
        )


def _unrested(
    movement: Movement, position: Position, shown: tuple[Frame, ...]
) -> Iterator[Trouble]:
    (first, low), (second, high) = (
        (point, movement.support.get(point, height)) for point, height in position.rests_on.items()
    )
    limb = OTHER if movement.stays == "other" and shown[0].has_other_leg else ""
    for frame in (shown[0], shown[-1]):
        for point, height in ((first, low), (second, high)):
            centre, needed = resting(frame.joints, point, height, limb, REFERENCE)
            if abs(centre[1] - needed) > MISS:
                yield Trouble(
                    ("position",),
                    f"the {point} miss what carries them by {abs(centre[1] - needed):.2f} m {_when(frame)}",
                    "mend the angles or the heights in `support:`",
                )
                return


def _away(frame: Frame, x: float, y: float) -> float:
    toe = frame.joints[OTHER + "toe"]
    return hypot(toe[0] - x, toe[1] - y)


def _plain(joint: str) -> str:
    return joint.removeprefix(OTHER).replace("mid_", "").replace("_", " ")


def _when(frame: Frame) -> str:
    return (
        "at the start"
        if frame.time == 0
        else "at the end"
        if frame.time == 1
        else f"{frame.time:.0%} of the way"
    )
