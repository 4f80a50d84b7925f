"""One exercise over its repetition: the load about one joint and the length of the parts it trains, on the same instants."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from ..catalog.entries import Exercise, Movement
from ..catalog.load import Catalog
from .length.length import STEPS, Lengths, Missing, Repetition
from .load.curve import HIGH, Curve
from .load.moments import NAMESAKE, Unknown, called, curves, leaves_plane
from .load.words import ends
from .posture.frame import Frame
from .posture.pose import frames

#: Why there is no curve for an exercise whose parts cross no joint that the load is reckoned for.
NOT_RECKONED_HERE = "it is not reckoned for the joints that these parts move"
#: Why there is no curve for an exercise whose load asks for none of its parts.
NOT_ASKED = "by this reckoning, the load does not ask for the parts that a set counts for"


@dataclass(frozen=True)
class Course:
    """What runs through the range of one exercise. Samples are evenly spaced in time, start to end, as many in all."""

    joint: str
    """The joint that the repetition is told by: the loaded one, or the one that moves most."""
    angles: tuple[float, float]
    """Its angle at the start and at the end, clinical degrees."""
    called: tuple[str, str]
    """The start and the end in words."""
    load: Curve | Unknown
    """The load about that joint."""
    loads: dict[str, Curve]
    """Part -> the load about the joint where it is asked most; without the parts that the load does not ask for."""
    lengths: dict[str, Repetition | Missing]
    """Part -> its length, for every part that a set counts for, whole or half."""
    worked: tuple[str, ...]
    """Parts that a set counts for wholly; those of half a set where there is none."""

    @property
    def rising(self) -> bool:
        """Whether the joint bends on the way."""
        return self.angles[0] <= self.angles[1]

    @property
    def told(self) -> tuple[str, ...]:
        """Worked parts that the load about the joint asks for; all of them where no load is known."""
        if isinstance(self.load, Unknown):
            return self.worked
        return tuple(ref for ref in self.worked if self.loads.get(ref) is self.load)

    @property
    def known(self) -> dict[str, Repetition]:
        """Parts of ``told`` that have a length."""
        return {
            ref: found for ref in self.told if isinstance(found := self.lengths[ref], Repetition)
        }

    @property
    def unknown(self) -> dict[str, str]:
        """Worked parts that have none, and why."""
        return {
            ref: found.why for ref in self.worked if isinstance(found := self.lengths[ref], Missing)
        }

    def length_when_hard(self, ref: str) -> float | None:
        """Mean share (0-1) of a part's range while its load is above 80 % of the peak; the mean of all where no load is known."""
        found, load = self.lengths.get(ref), self.loads.get(ref)
        if not isinstance(found, Repetition):
            return None
        hard = (
            [
                share
                for share, value in zip(found.shares, load.normalised(), strict=True)
                if value >= HIGH
            ]
            if load
            else []
        )
        return sum(hard) / len(hard) if hard else found.mean


def _same_bodies(catalog: Catalog, other: Catalog) -> bool:
    """Whether two states of a catalog have the very same parts, positions and model."""
    return (
        catalog.vocabulary is other.vocabulary
        and catalog.model is other.model
        and catalog.muscles.keys() == other.muscles.keys()
        and all(catalog.muscles[id] is other.muscles[id] for id in catalog.muscles)
        and catalog.length_tables == other.length_tables
        and catalog.muscle_paths == other.muscle_paths
    )


class Courses:
    """The courses of a catalog's exercises, each worked out once; those of an exercise that ``known`` has as it is are taken over."""

    def __init__(self, catalog: Catalog, known: Courses | None = None) -> None:
        self._catalog, self.lengths = catalog, Lengths(catalog)
        self._made: dict[str, Course] = {}
        if known and _same_bodies(catalog, known._catalog):
            then = known._catalog.exercises
            self._made = {
                id: course
                for id, course in known._made.items()
                if catalog.exercises.get(id) is then.get(id)
            }

    def of(self, id: str) -> Course:
        """The course of an exercise. Raises KeyError for an unknown one."""
        if id not in self._made:
            self._made[id] = self._make(self._catalog.exercises[id].data)
        return self._made[id]

    def _make(self, exercise: Exercise) -> Course:
        vocabulary = self._catalog.vocabulary
        assert vocabulary  # a catalog without one does not pass the checks
        movement = exercise.movement
        postures = frames(movement, vocabulary.data, steps=STEPS * (len(movement.via) + 1) + 1)
        credits = {
            part: credit for ref, credit in exercise.set_credit.items() for part in self._parts(ref)
        }
        worked = tuple(p for p, credit in credits.items() if credit == "direct") or tuple(credits)
        found = curves(
            movement,
            vocabulary.data.positions[movement.position],
            postures,
            one_side=exercise.sides == "one",
        )
        loads = (
            {}
            if isinstance(found, Unknown)
            else {part: asked for part in credits if (asked := self._asking(part, found))}
        )
        load = (
            found
            if isinstance(found, Unknown)
            else max(
                (loads[part] for part in worked if part in loads),
                key=lambda curve: curve.peak,
                default=Unknown(self._not_asked(worked, movement, found)),
            )
        )
        joint = load.joint if isinstance(load, Curve) else _most_moved(movement, postures)
        first, last = postures[0].angles[joint], postures[-1].angles[joint]
        names = called(movement, postures) if isinstance(load, Curve) else ends(0, 0)
        return Course(
            joint,
            (first, last),
            names,
            load,
            loads,
            {part: self.lengths.over(part, movement) for part in credits},
            worked,
        )

    @cached_property
    def _acts(self) -> dict[str, Mapping[str, str]]:
        """Part -> how the model has it act at its joints."""
        model = self._catalog.model
        muscles = reversed(model.data.muscles.values()) if model else ()
        return {muscle.part: muscle.acts for muscle in muscles if muscle.part}

    def _parts(self, ref: str) -> list[str]:
        """A part itself, or all parts of a whole muscle."""
        muscle = self._catalog.muscles.get(ref)
        return [f"{ref}/{part}" for part in muscle.data.parts] if muscle else [ref]

    def _asking(self, part: str, curves: dict[str, Curve]) -> Curve | None:
        """Of the joints where the load asks for a part, the one where it asks most."""
        asking = [
            curve
            for curve in curves.values()
            if (summary := curve.summary()) and self._serves(part, curve.joint, summary.asks)
        ]
        return max(asking, key=lambda curve: curve.peak, default=None)

    def _not_asked(
        self, worked: tuple[str, ...], movement: Movement, curves: dict[str, Curve]
    ) -> str:
        """Why there is no load for the worked parts: their joints leave the plane, or are not reckoned, or the load asks others."""
        crossed = {
            joint
            for ref in worked
            if (part := self._catalog.part(ref)) is not None
            for joint in getattr(part, "crosses", ())
        }
        if left := [
            joint
            for joint in movement.out_of_plane
            if {joint, NAMESAKE.get(joint, joint)} & crossed
        ]:
            return leaves_plane(left)
        return (
            NOT_ASKED
            if any({joint, NAMESAKE.get(joint, joint)} & crossed for joint in curves)
            else NOT_RECKONED_HERE
        )

    def _serves(self, ref: str, joint: str, asks: str) -> bool:
        """Whether a part pulls to the side that is asked; any joint that it crosses where the model does not say."""
        root = NAMESAKE.get(joint, joint)
        acts = self._acts.get(ref)
        if acts is not None and root == joint:
            return acts.get(joint) == {"flexors": "flexes", "extensors": "extends"}[asks]
        part = self._catalog.part(ref)
        return part is not None and bool({joint, root} & set(getattr(part, "crosses", ())))


def _most_moved(movement: Movement, postures: tuple[Frame, ...]) -> str:
    """The joint with the largest travel of those that the author gives; the first of equals."""

    def travel(joint: str) -> float:
        angles = [frame.angles.get(joint, 0.0) for frame in postures]
        return max(angles) - min(angles)

    return max(
        [joint for joint in movement.start if joint in postures[0].angles]
        or list(postures[0].angles),
        key=travel,
    )
