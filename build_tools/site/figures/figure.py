"""Posture figures: the key frames of an exercise, drawn from frame geometry and nothing else.

One drawing for each key frame, all of one size so that they can be compared; an
arrow in the first shows the way of the load. Weight carries the meaning, not
colour: the body is outlined, and the muscles that a set counts for are thick lines on it.
"""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ...catalog.entries import Exercise, Vocabulary
from ...movement.load.working import load_path, working_segment
from ...movement.posture.facing import shown_frames, shown_key_frames
from ...movement.posture.frame import Frame
from ...movement.posture.words import key_postures, placed, seen
from ..templating import render
from .arrow import arrow
from .equipment import equipment, load_radius
from .insets.close import close
from .insets.feet import feet
from .insets.hands import hands
from .insets.inset import Inset
from .insets.profile import whole
from .muscle_lines import NO_LINES, MuscleLines
from .shapes import SCALE, Shape, line, view_box
from .views import drawn_view

#: Postures that are looked at for the way of the load, and postures of the loop.
STEPS, LOOP = 13, 6
#: Room around the drawing, metres.
EDGE = 0.06
#: A floor further than this below the drawing is left out, metres.
NEAR = 0.6
#: Width that a figure seen from the head has at least, metres.
LEAST = 1.3
#: Drawings wider than this many times their height stand one above the other.
WIDE = 1.25


@dataclass(frozen=True)
class Pose:
    """One drawing."""

    label: str
    says: str
    shapes: list[Shape]


@dataclass(frozen=True)
class Figure:
    """The drawings of an exercise; ``box`` (left, top, width, height in drawing units) holds for each of them."""

    id: str
    """Unique on its page."""
    name: str
    thick: str
    """What is thick, as a sentence; empty where nothing is."""
    thick_plainly: str
    """The same for a client."""
    position: str
    """How the body is placed, and from where it is seen unless from the side."""
    seen: str
    """From where it is seen; empty for the side view."""
    poses: list[Pose]
    still: list[Shape]
    """What stays in its place over the repetition."""
    moving: list[list[Shape]]
    """What moves, in ``LOOP`` steps from first to last."""
    box: tuple[int, int, int, int]
    insets: list[Inset]
    """Small drawings beside the postures."""

    @property
    def stacked(self) -> bool:
        """Whether the drawings stand one above the other."""
        return self.box[2] > WIDE * self.box[3]

    @property
    def says(self) -> str:
        """All that the drawings show, in words."""
        told = [f"{pose.label}: {pose.says}." for pose in self.poses]
        told += [f"{inset.says}." for inset in self.insets]
        return " ".join([f"{self.position}.", *told, *filter(None, [self.thick])])


def figure(
    id: str, exercise: Exercise, vocabulary: Vocabulary, lines: MuscleLines = NO_LINES
) -> Figure:
    """Lay out the drawings of one exercise, with the ``lines`` of its muscles."""
    movement = exercise.movement
    course = shown_frames(movement, vocabulary, steps=STEPS)
    working = working_segment(course)
    stands = drawn_view(course[0]).supports(exercise, vocabulary, course[0], course)
    way = arrow(load_path(movement.load, course), course, load_radius(exercise, vocabulary), stands)

    def drawn(frame: Frame) -> list[Shape]:
        behind, before = equipment(exercise, vocabulary, frame, course, working)
        return [*behind, *drawn_view(frame).body(frame, lines), *before]

    poses = [
        Pose(told.label, told.words, drawn(frame))
        for frame, told in zip(
            shown_key_frames(movement, vocabulary),
            key_postures(movement, vocabulary),
            strict=not movement.hold,
        )
    ]
    insets = [
        *(
            inset
            for small in (hands, feet, whole)
            if (inset := small(exercise, vocabulary)) is not None
        ),
        *close(
            [course[0], course[-1]],
            [pose.label for pose in poses],
            [list(pose.shapes) for pose in poses],
        ),
    ]
    poses[0].shapes.extend(way)
    everything = [shape for pose in poses for shape in pose.shapes]
    first, position = course[0], vocabulary.positions[movement.position]
    floor_shows = (
        first.view.shows_floor(position, first.gravity)
        and min(y for shape in everything for _, y in shape.room) < NEAR
    )
    if floor_shows:
        everything.append(line([(x, 0.0) for x, _ in everything[0].room], "floor"))
    left, top, width, height = view_box(everything, EDGE, 0.0 if first.view.upright else LEAST)
    floor = (
        [line([(left / SCALE, 0.0), ((left + width) / SCALE, 0.0)], "floor")] if floor_shows else []
    )
    for pose in poses:
        pose.shapes[:0] = floor
    still, moving = drawn_view(first).loop(shown_frames(movement, vocabulary, steps=LOOP), lines)
    return Figure(
        id,
        exercise.name,
        lines.says,
        lines.says_plainly,
        placed(movement, vocabulary),
        seen(movement, vocabulary),
        poses,
        [*floor, *stands, still],
        [] if movement.hold else moving,
        (left, top, width, height),
        insets,
    )


def html(drawn: Figure, name: str, credit: str) -> Markup:
    """The figure as inline SVG for a page; it is saved under ``name``; ``credit`` is its citation line."""
    return Markup(render("figure.html.jinja", figure=drawn, name=name, credit=credit))
