"""How each view is drawn: the body, and what carries it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from ...catalog.entries import Exercise, Vocabulary
from ...movement.posture.above import ABOVE
from ...movement.posture.frame import Frame
from ...movement.posture.front import FRONT
from ...movement.posture.side import SIDE
from ...movement.posture.view import View
from . import above, body, support, support_facing
from .muscle_lines import MuscleLines
from .shapes import Shape, joined


class DrawnView(NamedTuple):
    """The drawing of one view."""

    body: Callable[[Frame, MuscleLines], list[Shape]]
    """The pieces of the body from back to front."""
    pieces: Callable[[Frame], list[Shape]]
    """All pieces, for drawings that pass quickly."""
    supports: Callable[[Exercise, Vocabulary, Frame, Sequence[Frame]], list[Shape]]
    """Whatever the body rests on above the floor, in one of several postures."""
    bar: bool = False
    """Whether a bar in both hands is drawn in its length."""

    def loop(self, frames: Sequence[Frame], lines: MuscleLines) -> tuple[Shape, list[list[Shape]]]:
        """The body without overlaps, for drawings that pass quickly: what stays in its place, and what moves in each frame."""
        every = [self.pieces(frame) for frame in frames]
        still = {
            d
            for d in (shape.d for shape in every[0])
            if all(d in {shape.d for shape in pieces} for pieces in every)
        }
        return (
            joined("body", (shape for shape in every[0] if shape.d in still)),
            [
                [
                    joined("body", (shape for shape in pieces if shape.d not in still)),
                    *(shape for arm in (False, True) for shape in lines.drawn(frame, arm)),
                ]
                for frame, pieces in zip(frames, every, strict=True)
            ],
        )


DRAWN: Mapping[View, DrawnView] = {
    SIDE: DrawnView(body.body, body.pieces, support.supports),
    FRONT: DrawnView(body.body, body.pieces, support_facing.from_front, bar=True),
    ABOVE: DrawnView(above.body, above.pieces, support_facing.from_head),
}


def drawn_view(frame: Frame) -> DrawnView:
    """How a posture's view is drawn."""
    return DRAWN[frame.view]
