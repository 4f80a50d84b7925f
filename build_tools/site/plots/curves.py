"""How load and length run through the range of one exercise."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...english import listed
from ...movement import curve_words
from ...movement.course import Course
from ...movement.length.length import Repetition
from ...movement.load.curve import HIGH, Curve
from ...movement.load.moments import NAMESAKE
from ...movement.posture import words as posture_words
from ...movement.posture.body import REFERENCE
from ..context import RenderContext, once
from . import curve_plot
from .curve_plot import Caption, CurveMark, CurvePlot, Panel

#: Where the masses of the segments come from.
SEGMENTS = "segment masses after de Leva 1996, J Biomech 29:1223-1230"


#: What an exercise's plot is called.
NAME = "load-and-length"


def told(shelf: RenderContext, id: str) -> curve_words.Told:
    """The plain words above the plot."""
    course = shelf.courses.of(id)
    return curve_words.told(course, shelf.names.parts, joint(shelf, course))


def has_plot(shelf: RenderContext, id: str) -> bool:
    """Whether there is any curve to draw."""
    course = shelf.courses.of(id)
    return isinstance(course.load, Curve) or any(
        isinstance(course.lengths[ref], Repetition) for ref in course.worked
    )


@once
def draw(shelf: RenderContext, id: str) -> CurvePlot:
    """The plot of one exercise. Raises ValueError where there is nothing to draw (see ``has_plot``)."""
    course = shelf.courses.of(id)
    lengths = {
        ref: found for ref in course.worked if isinstance(found := course.lengths[ref], Repetition)
    }
    panels: list[Panel] = []
    says: list[str] = []
    hard: list[tuple[float, float]] = []
    if isinstance(course.load, Curve):
        values = curve_plot.resampled(course.load.normalised())
        hard = curve_plot.stretches(values, HIGH)
        panels.append(
            load_panel(
                [Caption(f"Load about the {joint(shelf, course)}")],
                [CurveMark(curve_plot.line(values, curve_plot.LOAD), "solid")],
                [values],
            )
        )
        says.append(curve_words.load_told(course.load, joint(shelf, course)))
    for refs, found in _alike(lengths):
        shares = curve_plot.resampled(found.shares)
        names = [shelf.names.part(ref).removeprefix("the ") for ref in refs]
        captions = [
            Caption(f"{'Length of the ' if n == 0 else 'and the '}{name}")
            for n, name in enumerate(names)
        ]
        captions[0] = replace(
            captions[0],
            numbers=f"{curve_words.span([found.shortest, found.longest])} of its own range",
        )
        mark = CurveMark(curve_plot.band(shares, curve_plot.LENGTH), "band")
        panels.append(length_panel(captions, [mark], [shares]))
        says.append(curve_words.length_told(found, listed([f"the {name}" for name in names])))
    if not panels:
        raise ValueError(f"{id} has neither a load nor a length to draw")
    start, end = ends(shelf, course)
    return CurvePlot(
        id="load-and-length-plot",
        title=f"{shelf.catalog.exercises[id].data.name}: load and length",
        says=" ".join([*says, f"Start: {start}. Finish: {end}."]),
        key="Shaded: load above 80% of its peak." if hard else "",
        basis=basis(bool(lengths)),
        panels=stacked(panels),
        ends=[(f"Start: {start}", False), (f"Finish: {end}", True)],
        hard=hard,
    )


def joint(shelf: RenderContext, course: Course) -> str:
    """The name of the course's joint inside a sentence."""
    id = NAMESAKE.get(course.joint, course.joint)
    named = shelf.vocabulary.joints.get(id)
    return shelf.names.inside(named.name) if named else id


def ends(shelf: RenderContext, course: Course) -> tuple[str, str]:
    """The joint's angle at the start and at the end, in words."""
    if course.joint not in shelf.vocabulary.joints:
        return "start", "end"
    start, end = (
        posture_words.words({course.joint: round(angle)}, shelf.vocabulary)
        for angle in course.angles
    )
    return start, end


def credits(shelf: RenderContext) -> list[str]:
    """What the drawn numbers rest on, for the foot of a file."""
    model = shelf.catalog.model
    models = (
        [f"{m.after}; {m.credit}; {m.licence}, {m.licence_url}" for m in model.data.models.values()]
        if model
        else []
    )
    return [*(f"length: {told}" for told in models), f"load: {SEGMENTS}"]


def basis(lengths: bool) -> str:
    """What the curves are and what they do not show."""
    told = [
        f"Computed from the joint angles for one body of average size ({REFERENCE.stature:.2f} m, {REFERENCE.mass:.0f} kg) that moves "
        "slowly; speed is left out. Load is what the muscles of the joint must balance, as a share of its peak."
    ]
    if lengths:
        told.append(
            "Length is that of a model of one body, in steps of 10% of each part's own range. It does not show growth."
        )
    return " ".join(told)


def load_panel(
    captions: list[Caption], marks: list[CurveMark], values: Sequence[Sequence[float]]
) -> Panel:
    """A panel of loads as shares of their peaks."""
    height = curve_plot.LOAD
    return Panel(
        0,
        height,
        captions,
        marks,
        curve_plot.edge_words("peak", "none", height, values),
        curve_plot.y(HIGH, height),
    )


def length_panel(
    captions: list[Caption],
    marks: list[CurveMark],
    values: Sequence[Sequence[float]],
    height: int = curve_plot.LENGTH,
) -> Panel:
    """A panel of lengths as shares of one part's own range."""
    return Panel(0, height, captions, marks, curve_plot.edge_words("long", "short", height, values))


def stacked(panels: list[Panel]) -> list[Panel]:
    """The panels one below the other."""
    top, placed = 0, []
    for panel in panels:
        placed.append(replace(panel, top=top))
        top = placed[-1].bottom + curve_plot.GAP
    return placed


def _alike(lengths: dict[str, Repetition]) -> list[tuple[list[str], Repetition]]:
    """Parts whose lengths are drawn alike, as published, stand together."""
    found: dict[str, list[str]] = {}
    for ref, repetition in lengths.items():
        found.setdefault(
            curve_plot.steps(curve_plot.resampled(repetition.shares), curve_plot.LENGTH), []
        ).append(ref)
    return [(refs, lengths[refs[0]]) for refs in found.values()]
