"""The thick lines of a posture figure: muscles that a set counts for directly, from attachment to attachment as the model has them.

A line is drawn only where the part's path passed the checks of the model and its joints bend on the page. It keeps to the figure's own
limbs, and it is left out where it would grow shorter while the table says that the muscle grows longer.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from math import dist, hypot, radians, sin

from ...catalog.entries import Exercise, Movement, SegmentName
from ...catalog.load import Catalog
from ...catalog.muscle_path import UNIT, Place
from ...english import listed, lower_first
from ...evidence.wording.names import Names
from ...movement.length.length import Lengths
from ...movement.length.route import Route, route
from ...movement.posture.body import REFERENCE
from ...movement.posture.frame import OTHER, Frame, Point
from ...movement.posture.pieces import hung
from ...movement.posture.pose import frames
from ...planning.facts import parts
from .limbs import kept, working_sides
from .shapes import Shape, gap, joined, line

#: How far inside the outline the middle of a line stays: half its thickness and some air, metres.
CLEAR = 0.03
#: Via points that lie so near to the straight way are not drawn, metres.
STRAIGHT = 0.008
#: Parts of one muscle whose lines are nowhere further apart make one line, metres.
TOGETHER = 0.035
#: Changes of length below this share of the muscle's own range have no direction: half the step in which lengths are told.
MARGIN = 0.05
#: Where on the thigh a line that passes it is kept inside, share of its length.
BESIDE = 0.3
#: Bends of the elbow that are seen at less than this share of their size are no longer seen as bends.
SEEN = 0.5
#: Bends of the elbow that tell no side, degrees.
STRAIGHT_ARM = 10.0
#: Postures in which lines are compared.
STEPS = 13
#: What stands between a part and its muscle in a name.
OF = " of the "


@dataclass(frozen=True)
class MuscleLine:
    """One line: a part, or several parts of one muscle that lie on one another."""

    parts: tuple[str, ...]
    """Parts of the catalog, that of the drawn path first."""
    route: Route
    facing: tuple[tuple[str, float], ...]
    """Limbs it is drawn on (``other_`` for the second one), and which way they flex on the page."""

    def points(self, frame: Frame, prefix: str, facing: float) -> list[Point]:
        """From attachment to attachment on one limb, metres."""
        points: list[Point] = []
        last: SegmentName | None = None
        for place in self.route.places(_angles(frame, prefix)):
            if on := hung(frame, prefix, place.segment):
                point = on.at(*_inside(place, facing))
                if (last, place.segment) == ("pelvis", "shank"):
                    points += _along_thigh(frame, prefix, points[-1], point)
                points.append(point)
                last = place.segment
        return points

    def drawn(self, frame: Frame) -> list[Shape]:
        """The line on every limb that works."""
        return [line(_plain(self.points(frame, *side)), "muscle") for side in self.facing]

    def length(self, frame: Frame) -> float:
        """As drawn, metres."""
        points = self.points(frame, *self.facing[0])
        return sum(dist(a, b) for a, b in zip(points, points[1:], strict=False))

    def agrees(self, course: Sequence[Frame]) -> bool:
        """Whether the line grows and shrinks as the table has it, from posture to posture and over all of the way."""
        prefix, _ = self.facing[0]
        told = [self.route.share(_angles(frame, prefix)) for frame in course]
        drawn = [self.length(frame) for frame in course]
        pairs = [(a, b) for a in range(len(course)) for b in range(a)]
        return all(
            (told[a] - told[b]) * (drawn[a] - drawn[b]) > 0
            for a, b in pairs
            if abs(told[a] - told[b]) > MARGIN
        )


@dataclass(frozen=True)
class MuscleLines:
    """All lines of a figure, and what they are called."""

    lines: tuple[MuscleLine, ...] = ()
    names: tuple[str, ...] = ()
    """As coaches call each muscle, or what is drawn of it, without an article."""
    everyday: tuple[str, ...] = ()
    """As clients do: where on the body."""

    @property
    def says(self) -> str:
        """What is thick, as a line below the figure; empty where nothing is."""
        return self._says(self.names)

    @property
    def says_plainly(self) -> str:
        """The same for a client."""
        return self._says(self.everyday)

    @property
    def tables(self) -> tuple[str, ...]:
        """Tables that the drawn muscles stand in, each once."""
        return tuple(dict.fromkeys(one.route.grid.muscle.table for one in self.lines))

    def _says(self, names: Sequence[str]) -> str:
        if not self.lines:
            return ""
        return f"Thick line{'s' if len(self.lines) > 1 else ''}: {listed(names)}."

    def drawn(self, frame: Frame, arm: bool) -> list[Shape]:
        """The lines on the arms, or those on the legs, as one shape; none where there is no line."""
        shapes = [
            shape
            for one in self.lines
            if ("elbow" in one.route.joints) == arm
            for shape in one.drawn(frame)
        ]
        return [joined("muscle", shapes)] if shapes else []


#: A figure that shows only where the body is.
NO_LINES = MuscleLines()


def muscle_lines(
    catalog: Catalog, lengths: Lengths, names: Names, exercise: Exercise, direct: Sequence[str]
) -> MuscleLines:
    """The lines of an exercise, for the parts that a set counts for directly."""
    assert catalog.vocabulary  # a catalog without one does not pass the checks
    movement = exercise.movement
    course = frames(movement, catalog.vocabulary.data, steps=STEPS)
    found: dict[str, list[MuscleLine]] = defaultdict(list)
    for part in direct:
        way = route(catalog, lengths, part)
        sides = _facing(course, way, movement) if way else ()
        if way and sides:
            drawn = MuscleLine((part,), way, sides)
            if drawn.agrees(course):
                found[part.partition("/")[0]].append(drawn)
    return MuscleLines(
        tuple(one for of in found.values() for one in _together(of, course)),
        tuple(
            _name(names, parts(catalog, muscle), [ref for one in of for ref in one.parts], direct)
            for muscle, of in found.items()
        ),
        tuple(lower_first(catalog.muscles[muscle].data.everyday) for muscle in found),
    )


def _facing(
    course: Sequence[Frame], way: Route, movement: Movement
) -> tuple[tuple[str, float], ...]:
    """The limbs that show the path, each with the way it flexes on the page (1 as in the side view); none where it is not seen."""
    view = course[0].view
    if not way.joints <= view.reckoned or way.joints & set(movement.out_of_plane):
        return ()
    sides = []
    for prefix in working_sides(course[0]):
        angles = [_angles(frame, prefix) for frame in course]
        if not all(map(way.is_known, angles)):
            return ()
        if not all(
            hung(frame, prefix, stop.place.segment) for frame in course for stop in way.path.stops
        ):
            return ()
        facing = _turned(course, prefix) if view.apart else 1.0
        if abs(facing) < SEEN:
            return ()
        sides.append((prefix, facing))
    return tuple(sides)


def _turned(course: Sequence[Frame], prefix: str) -> float:
    """Share of the elbow's bend that is seen where it bends most, positive anticlockwise; 0 for an arm that stays straight."""
    bends = [abs(sin(radians(_angles(frame, prefix)["elbow"]))) for frame in course]
    bend = max(bends)
    if bend < sin(radians(STRAIGHT_ARM)):
        return 0.0
    joints = course[bends.index(bend)].joints
    shoulder, elbow, wrist = (joints[prefix + name] for name in ("shoulder", "elbow", "wrist"))
    x, y, u, v = (
        elbow[0] - shoulder[0],
        elbow[1] - shoulder[1],
        wrist[0] - elbow[0],
        wrist[1] - elbow[1],
    )
    return (x * v - y * u) / hypot(x, y) / REFERENCE.length("forearm") / bend


def _angles(frame: Frame, prefix: str) -> dict[str, float]:
    """Joint angles of one limb."""
    own = {
        joint.removeprefix(OTHER): angle
        for joint, angle in frame.angles.items()
        if prefix and joint.startswith(OTHER)
    }
    return {**frame.angles, **own}


def _inside(place: Place, facing: float) -> Point:
    """A place in metres along and ahead on the figure's own limb."""
    unit = REFERENCE.length(UNIT[place.segment].replace("-", "_"))
    along, ahead = kept(place.segment, (place.along * unit, place.ahead * unit), CLEAR)
    return along, facing * ahead


def _along_thigh(frame: Frame, prefix: str, start: Point, end: Point) -> list[Point]:
    """Where a straight way from the pelvis to the shank would leave the thigh, a point that keeps it inside."""
    thigh = hung(frame, prefix, "thigh")
    if thigh is None:
        return []
    (a, b), (c, d) = thigh.of(start), thigh.of(end)
    beside = REFERENCE.length("thigh") * BESIDE
    if not a < beside < c:
        return []
    way = (beside, b + (d - b) * (beside - a) / (c - a))
    inside = kept("thigh", way, CLEAR)
    return [] if inside == way else [thigh.at(*inside)]


def _together(lines: Sequence[MuscleLine], course: Sequence[Frame]) -> list[MuscleLine]:
    """Lines of one muscle without those that lie on a longer one, which takes their parts over."""
    made: list[MuscleLine] = []
    for one in sorted(lines, key=lambda one: -one.length(course[0])):
        under = next((n for n, other in enumerate(made) if _lies_on(one, other, course)), None)
        if under is None:
            made.append(one)
        else:
            below = made[under]
            made[under] = MuscleLine(below.parts + one.parts, below.route, below.facing)
    return made


def _plain(points: list[Point]) -> list[Point]:
    """A line without the points that lie on the straight way between others."""
    if len(points) < 3:
        return points
    far = max(range(1, len(points) - 1), key=lambda n: gap(points[n], points[0], points[-1]))
    if gap(points[far], points[0], points[-1]) < STRAIGHT:
        return [points[0], points[-1]]
    return [*_plain(points[: far + 1])[:-1], *_plain(points[far:])]


def _lies_on(one: MuscleLine, other: MuscleLine, course: Sequence[Frame]) -> bool:
    return all(
        min(gap(point, a, b) for a, b in zip(way, way[1:], strict=False)) < TOGETHER
        for frame in (course[0], course[-1])
        for way in [other.points(frame, *other.facing[0])]
        for point in one.points(frame, *one.facing[0])
    )


def _name(names: Names, every: Sequence[str], drawn: Sequence[str], direct: Sequence[str]) -> str:
    """What coaches call it, short: the muscle, the muscle without the one part that should be there, or its parts."""
    left_out = [part for part in every if part not in drawn]
    if len(left_out) > 1 or len(drawn) == 1 < len(every):
        return _bare(names.parts([part for part in every if part in drawn]))
    missing = [_short(names, part, every) for part in left_out if part in direct]
    return " without ".join([_bare(names.part(every[0].partition("/")[0])), *missing])


def _short(names: Names, part: str, every: Sequence[str]) -> str:
    """``short head`` for the short head of the biceps femoris, where no other part of the muscle is called so."""
    short, *others = (
        names.part(ref).partition(OF)[0] for ref in (part, *(ref for ref in every if ref != part))
    )
    return _bare(names.part(part) if short in others else short)


def _bare(name: str) -> str:
    """Without articles."""
    return name.removeprefix("the ").replace(" the ", " ")
