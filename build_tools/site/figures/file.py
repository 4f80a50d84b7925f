"""A posture figure outside of its page: start and finish side by side, the source of the lengths, and the licence."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass, replace

from ...planning import facts
from ..context import RenderContext, once
from .figure import Figure, Pose, figure
from .insets.inset import Inset
from .muscle_lines import MuscleLines, muscle_lines

#: Pixels.
WIDTH, EDGE, GAP, TALLEST, TOP = 640, 20, 24, 320, 34
#: Side of a small drawing and about the width of a letter beside it, pixels.
INSET, INSET_CHARACTER = 110, 7
#: Where the segments' lengths come from (see ``movement.body``).
LENGTHS = "Drawn from joint angles with the segment lengths of Drillis and Contini (1966)."


@dataclass(frozen=True)
class FigureFile:
    """Start and finish as slides show them; sizes in pixels."""

    figure: Figure
    width: int = WIDTH
    inset: int = INSET
    top: int = TOP
    """Where the drawings begin."""

    @property
    def poses(self) -> list[tuple[int, Pose]]:
        """First and last drawing, each with its left edge."""
        first, last = self.figure.poses[0], self.figure.poses[-1]
        if first is last:
            return [((WIDTH - self.pose_width) // 2, first)]
        return [(EDGE, first), (EDGE + self.pose_width + GAP, last)]

    @property
    def insets(self) -> list[tuple[int, list[str], Inset]]:
        """Small drawings, each with its left edge and its words in lines."""
        wide = (WIDTH - 2 * EDGE) // max(1, len(self.figure.insets))
        return [
            (
                EDGE + n * wide,
                textwrap.wrap(inset.says, (wide - INSET - 12) // INSET_CHARACTER),
                inset,
            )
            for n, inset in enumerate(self.figure.insets)
        ]

    @property
    def inset_top(self) -> int:
        """Where small drawings begin."""
        return self.top + self.pose_height + 36

    @property
    def pose_width(self) -> int:
        """Width of one drawing's place."""
        return (WIDTH - 2 * EDGE - GAP) // 2

    @property
    def pose_height(self) -> int:
        """Height of both drawings."""
        _, _, width, height = self.figure.box
        return min(TALLEST, round(self.pose_width * height / width))

    @property
    def height(self) -> int:
        """Height of it all, with the words below."""
        return self.top + self.pose_height + 38 + (self.inset + 12 if self.figure.insets else 0)


def grounds(shelf: RenderContext, exercise: str) -> list[str]:
    """What the figure of an exercise rests on."""
    return [LENGTHS, *(f"Thick lines: {told}." for told in _models(shelf, exercise))]


def credits(shelf: RenderContext, exercise: str) -> list[str]:
    """What the figure of an exercise rests on, and whose it is."""
    return [
        *grounds(shelf, exercise),
        f"From: {shelf.handbook.title}, {shelf.handbook.owner.name}. Licence: {shelf.handbook.licence}.",
    ]


def posture(shelf: RenderContext, exercise: str, id: str) -> Figure:
    """The figure of an exercise, with the id that it has on its page."""
    return replace(_laid_out(shelf, exercise), id=id)


@once
def _laid_out(shelf: RenderContext, exercise: str) -> Figure:
    data = shelf.catalog.exercises[exercise].data
    return figure("figure", data, shelf.vocabulary, _lines(shelf, exercise))


@once
def _lines(shelf: RenderContext, exercise: str) -> MuscleLines:
    data = shelf.catalog.exercises[exercise].data
    direct = [part for part, word in facts.credits(shelf.catalog, data).items() if word == "direct"]
    return muscle_lines(shelf.catalog, shelf.courses.lengths, shelf.names, data, direct)


def _models(shelf: RenderContext, exercise: str) -> list[str]:
    """The models that its lines were sampled from, as their licence asks."""
    lines = _lines(shelf, exercise)
    if not lines.lines:
        return []
    assert shelf.catalog.model  # lines are drawn from it
    model = shelf.catalog.model.data
    used = dict.fromkeys(model.tables[table].model for table in lines.tables)
    return [
        f"attachments of {given.file}, {given.credit}; {given.licence}, {given.licence_url}"
        for given in (model.models[id] for id in used)
    ]
