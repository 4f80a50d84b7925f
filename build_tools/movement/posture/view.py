"""What a view is: what the side, the front and the look along the trunk from the head differ in."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from typing import ClassVar

from ...catalog.entries import Position


class View(ABC):
    """From where a body is seen. Each view stands once, beside the code that places a body in it; ``pose.VIEWS`` lists them."""

    name: ClassVar[str]
    """As the catalog writes it."""
    apart: ClassVar[bool]
    """Whether left and right limbs are seen apart, as equals; else the second hides behind the first, and forward and back are seen."""
    upright: ClassVar[bool]
    """Whether up on the page is up in the room, so that trunk, floor and feet are seen from beside."""
    across: ClassVar[str]
    """The way that limbs travel in a plane without forward and back, as a phrase for a page; empty for the side view."""
    joints: ClassVar[tuple[str, ...]]
    """Joints that a figure knows; each is 0 unless the movement, its load point or its position says otherwise."""
    reckoned: ClassVar[frozenset[str]]
    """Joints shown well enough to reckon a load with."""
    turns: ClassVar[Mapping[str, int]]
    """Turns that count as flexion (forwards, inwards; legs apart) where they differ from their namesake's: 1 anticlockwise."""
    unreckoned_standing: ClassVar[frozenset[str]] = frozenset()
    """Joints of which the standing leg works while the other moves, which this view does not reckon."""
    stands_for: ClassVar[Mapping[str, str]] = {}
    """Joint of the side view -> the joint that is seen in its place."""

    @abstractmethod
    def on_page(
        self,
        pelvis: tuple[float, float],
        turn: float,
        forward: float,
        left: float | None,
        height: float,
    ) -> tuple[float, float]:
        """A point of the room in the plane of a posture, metres.

        ``pelvis``: its middle on the page; ``turn``: that of the body on the page, degrees; ``left``: None where the author gives no
        place to the side.
        """

    @abstractmethod
    def words(self, position: Position, gravity: float) -> str:
        """``seen from the front``; empty for the side view. ``gravity``: the share of a weight in the plane, 0-1."""

    def can_show(self, position: Position) -> bool:
        """Whether a body in this position is drawn in this view."""
        return True

    def knows_floor(self, position: Position, gravity: float) -> bool:
        """Whether heights on the page are heights above the floor."""
        return True

    def shows_floor(self, position: Position, gravity: float) -> bool:
        """Whether the floor is drawn when it is near."""
        return True

    def default_angles(
        self, zero: dict[str, float], position: dict[str, float], held: dict[str, float]
    ) -> dict[str, float]:
        """Angles of joints that no key frame names: how arms rest or hold is told for the side view, only the legs' bend for all."""
        return {
            **zero,
            **position,
            **held,
            **zero,
            **{joint: at for joint, at in position.items() if joint in ("hip", "knee")},
        }

    def second_limbs(self, named: list[str]) -> dict[str, tuple[str, ...]]:
        """What to call what the second limbs do, and the joints that are told of them; ``named``: the author's joints."""
        return {"other side": tuple(joint for joint in named if not joint.startswith("spine"))}
