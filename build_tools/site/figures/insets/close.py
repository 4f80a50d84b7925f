"""What moves so little that two postures look alike: both enlarged, with a line at the height from which it starts."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist

from ....movement.load.statics import between
from ....movement.posture.frame import Frame
from ..shapes import SCALE, Shape, disc, limb
from .inset import Inset

#: Movements of listed joints of which nothing travels further than this are enlarged, of hips than ``HIPS_TRAVEL``, and those of any
#: joint below ``LEAST``, metres.
SMALL, HIPS_TRAVEL, LEAST = 0.3, 0.17, 0.05
#: Half the width and height of what is shown, and half the length and thickness of the line, metres.
ROOM, MARK, THIN = 0.38, 0.34, 0.006

#: What turns, by the beginning of its name -> the joint that is looked at.
LOOKED_AT = {"hip": "hip", "scapular": "shoulder", "wrist": "hand"}
#: Joints that turn far and are hardly seen to.
SLIGHT = ("wrist", "scapular-elevation", "scapular-protraction")
#: A joint that turns by less is taken as still; hips that bend by more are seen well, degrees.
STILL, HIPS = 3.0, 20.0


def close(
    frames: Sequence[Frame], labels: Sequence[str], drawn: Sequence[list[Shape]]
) -> list[Inset]:
    """First and last posture around what moves; ``drawn`` are their shapes. Nothing where a movement is seen well."""
    first, last = frames[0].joints, frames[-1].joints
    travel = {name: dist(first[name], last[name]) for name in first}
    furthest = max(travel.values())
    name = looked_at(frames)
    if furthest > (HIPS_TRAVEL if name == "hip" else SMALL):
        return []
    if name is None and 0 < furthest < LEAST:
        name = max(travel, key=lambda joint: travel[joint])
    if name is None:
        return []
    at = between(first[name], last[name], 0.5)
    box = (
        round((at[0] - ROOM) * SCALE),
        round((-at[1] - ROOM) * SCALE),
        round(2 * ROOM * SCALE),
        round(2 * ROOM * SCALE),
    )
    height = first[name][1]
    mark = limb((at[0] - MARK, height), (at[0] + MARK, height), THIN, THIN, "tip")
    return [
        Inset(
            f"{label}, close up",
            [*shapes, mark, disc(frame.joints[name], 0.026, "tip")],
            box,
            pairs=True,
        )
        for label, frame, shapes in (
            (labels[0], frames[0], drawn[0]),
            (labels[-1], frames[-1], drawn[-1]),
        )
    ]


def looked_at(frames: Sequence[Frame]) -> str | None:
    """The joint where something turns; None where what turns is not listed."""
    first, last = frames[0].angles, frames[-1].angles
    turned = {name: abs(last.get(name, 0.0) - at) for name, at in first.items()}
    if any(turn > HIPS for name, turn in turned.items() if name not in SLIGHT):
        return None
    turns = [name for name, turn in turned.items() if turn > STILL]
    return next(
        (joint for start, joint in LOOKED_AT.items() for name in turns if name.startswith(start)),
        None,
    )
