"""The weights, pulls and supports of one posture: what acts on which segment, and where."""

from __future__ import annotations

from collections.abc import Iterator

from ...catalog.entries import Movement, Position
from ..posture.body import Body
from ..posture.frame import OTHER, Frame
from ..posture.side import feet_rest
from .demand import Applied, Support
from .statics import Force, Point, between, weight

LEG = ("thigh", "shank", "foot")
ARM = ("upper_arm", "forearm", "hand")

#: Load point -> the segment it acts on and the joint it stands at. A bar in front of the chest is taken at the shoulders.
LOADED = {
    "hand": ("hand", "hand"),
    "ankle": ("shank", "ankle"),
    "heel": ("foot", "heel"),
    "shoulders": ("trunk", "mid_shoulder"),
    "foot": ("foot", "toe"),
    "knee": ("thigh", "knee"),
    "elbow": ("upper_arm", "elbow"),
    "upper-back": ("trunk", "mid_shoulder"),
    "chest": ("trunk", "mid_shoulder"),
    "hips": ("trunk", "mid_hip"),
}

#: Carrying point -> segment and joint. Feet carry below the ankle; a seat or pad carries the thigh where the position fixes it.
CARRIED = {
    "feet": ("foot", "ankle"),
    "toes": ("foot", "toe"),
    "heels": ("foot", "heel"),
    "knees": ("shank", "knee"),
    "seat": ("trunk", "mid_hip"),
    "hips": ("trunk", "mid_hip"),
    "back": ("trunk", "mid_hip"),
    "front": ("trunk", "mid_hip"),
    "side": ("trunk", "mid_hip"),
    "shoulders": ("trunk", "mid_shoulder"),
    "elbows": ("upper_arm", "elbow"),
    "hands": ("hand", "hand"),
}

#: Load points of a leg.
ON_LEG = ("ankle", "heel", "foot", "knee")

#: Carrying points that the body can turn about.
PIVOTS = {"toes", "hands"}
#: A foot that is not higher above the floor than this (metres) stands on it.
STANDS = 0.02
#: Carrying points that belong to one leg, and so to the second where that one stays.
STANDS_ON = ("feet", "knees")


def at_rest(movement: Movement, position: Position) -> tuple[str, ...]:
    """Segments that lie on the floor or bench: head and arms where the shoulders carry and the hands hold nothing."""
    if "shoulders" not in position.rests_on:
        return ()
    return ("head",) if movement.load.at == "hand" else ("head", *ARM)


def weights(
    frame: Frame, body: Body, one: tuple[str, ...] = (), resting: tuple[str, ...] = ()
) -> list[Applied]:
    """The weights of all segments of the body.

    A limb drawn once stands for both and weighs twice. Where only one of the two works, ``one`` names its segments (``LEG`` or
    ``ARM``): it weighs once, and the limb at rest hangs its weight on the joint it hangs from. ``resting`` segments weigh on
    the point that carries the shoulders.
    """
    carried = frame.joints["mid_shoulder"]

    def acts(segment: str, times: int = 1) -> Applied:
        plain = segment.removeprefix(OTHER)
        placed = frame.segments[segment]
        centre = between(placed.start, placed.end, body.centres[plain])
        rests = plain in resting
        return Applied(
            "trunk" if rests else segment,
            weight(times * frame.gravity * body.mass_of(plain), carried if rests else centre),
        )

    if (
        not frame.view.upright
    ):  # only what hangs on the joints that this view shows; a shank weighs on its knee
        made = [acts(prefix + s) for s in ARM for prefix in ("", OTHER)]
        shanks = frame.gravity * (body.mass_of("shank") + body.mass_of("foot"))
        for thigh in sorted({"thigh", OTHER + "thigh"} & frame.segments.keys()):
            made += [acts(thigh), Applied(thigh, weight(shanks, frame.segments[thigh].end))]
        return made
    made = [acts("trunk"), acts("head")]
    for limb, root in ((LEG, "hip"), (ARM, "shoulder")):
        second = OTHER + limb[0] in frame.segments
        made += [acts(s, 1 if second or limb == one else 2) for s in limb]
        if second:
            made += [acts(OTHER + s) for s in limb]
        elif limb == one:
            made.append(Applied("trunk", weight(sum(map(body.mass_of, limb)), frame.joints[root])))
    return made


def load_point(frame: Frame, at: str) -> Point:
    """Where the load stands, metres. Raises KeyError for a load point that ``LOADED`` does not hold."""
    return frame.joints[LOADED[at][1]]


def weight_load(frame: Frame, at: str, mass: float, one: bool) -> list[Applied]:
    """A free weight of ``mass`` kilograms; two limbs drawn apart share it, unless only one works."""
    segment, joint = LOADED[at]
    mass *= frame.gravity
    if OTHER + joint in frame.joints and frame.view.apart and not one:
        return [
            Applied(p + segment, weight(mass / 2, frame.joints[p + joint])) for p in ("", OTHER)
        ]
    return [Applied(segment, weight(mass, frame.joints[joint]))]


def pull_load(at: str, force: Force) -> list[Applied]:
    """A cable's or band's pull on its load point."""
    return [Applied(LOADED[at][0], force)]


def lands(last: Frame, movement: Movement, position: Position) -> bool:
    """Whether the leg that moves while the other stays carries too: its foot stands at the end of the repetition (a lunge)."""
    if not last.view.upright or movement.load.at in ON_LEG:
        return False  # a limb that is pulled in the air
    floor = movement.support.get("feet", position.rests_on.get("feet", 0.0))
    return min(last.joints["heel"][1], last.joints["toe"][1]) < floor + STANDS


def supports(
    frame: Frame, movement: Movement, position: Position, landing: bool = False
) -> list[Support]:
    """What carries the body: the position's points, and the second leg's toes where they keep a place of their own.

    Where the second leg stays and the first moves, the second carries, and the first as well where it is ``landing``: taken so
    from the first moment on, since statics knows no step.
    """
    if not frame.view.upright:
        return []
    points = (
        support
        for point in position.rests_on
        for support in _under(point, frame, movement, position, landing)
    )
    return [*points, *_in_place(frame, movement, position)]


def _under(
    point: str, frame: Frame, movement: Movement, position: Position, landing: bool
) -> Iterator[Support]:
    """What carries the body at one of its position's points: one limb, the other, or both."""
    segment, joint = (
        ("thigh", "hip")
        if point in ("seat", "hips") and position.fixes == "thigh"
        else CARRIED[point]
    )
    other_stays = movement.stays == "other" and frame.has_other_leg and point in STANDS_ON
    if other_stays:
        yield Support(OTHER + segment, frame.joints[OTHER + joint])
    if not other_stays or landing:
        on_lower = position.sideways and (
            point == "elbows" or point == "feet" and not movement.support.get("feet")
        )
        limb = OTHER if on_lower else ""
        yield Support(limb + segment, frame.joints[limb + joint], point in PIVOTS)
    if frame.view.apart and point == "feet" and not other_stays and not position.sideways:
        yield Support(OTHER + segment, frame.joints[OTHER + joint])


def _in_place(frame: Frame, movement: Movement, position: Position) -> Iterator[Support]:
    """What else keeps its place: a second leg behind or with its toes on something, and feet that only steady the body."""
    if movement.other is not None and movement.other.toes is not None:
        yield Support(OTHER + "foot", frame.joints[OTHER + "toe"])
    if frame.view.apart:
        return
    if movement.other is None and position.other:
        yield Support(OTHER + "shank", frame.joints[OTHER + "knee"])
    if (
        feet_rest(movement, position)
        or position.fixes == "foot"
        and "feet" not in position.rests_on
    ):
        yield Support("foot", frame.joints["ankle"])
