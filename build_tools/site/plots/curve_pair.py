"""Two exercises in one plot: both loads, each as a share of its own peak, and the lengths of one part."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from ...evidence.threshold import above
from ...movement import curve_words
from ...movement.course import Course
from ...movement.length.length import Repetition
from ...movement.load.curve import Curve
from ...movement.load.moments import Unknown
from ..context import RenderContext, once
from . import curve_plot
from .curve_plot import Caption, CurveMark, CurvePlot, Panel
from .curves import basis, ends, joint, length_panel, load_panel, stacked

#: Most plots that put another exercise beside a page's own.
MOST_COMPARED = 3
LETTERS = ("A", "B")
#: Height of the lengths' panel, and how far from its curve a letter stands, pixels.
HEIGHT, LABEL_ABOVE, LABEL_BELOW = curve_plot.LENGTH + 12, -4, 14


class _Side(NamedTuple):
    """One of the two exercises."""

    letter: str
    id: str
    name: str
    course: Course
    turned: bool
    """Whether it runs from its end to its start, so that the joint turns the same way in both."""

    def load(self) -> list[float] | None:
        """Shares of its own peak, evenly spaced in time; None where the load is not known."""
        return (
            self._run(self.course.load.normalised())
            if isinstance(self.course.load, Curve)
            else None
        )

    def length(self, part: str) -> Repetition:
        """The part's length, which must be known."""
        found = self.course.lengths[part]
        assert isinstance(found, Repetition)
        return found

    def lengths(self, part: str) -> list[float]:
        """Shares of the part's own range, evenly spaced in time."""
        return self._run(self.length(part).shares)

    def span(self, shelf: RenderContext) -> str:
        """Its letter, and the joint's angle where its curve starts and where it ends."""
        start, end = ends(shelf, self.course)[:: -1 if self.turned else 1]
        return f"{self.letter}: {start} to {end}"

    def _run(self, values: tuple[float, ...] | list[float]) -> list[float]:
        found = curve_plot.resampled(values)
        return found[::-1] if self.turned else found


@once
def compare(shelf: RenderContext, exercise_a: str, exercise_b: str) -> CurvePlot:
    """Two exercises in one plot: both loads, and the lengths of the first part that both train. ``compared_with`` tells which there are."""
    courses = [shelf.courses.of(id) for id in (exercise_a, exercise_b)]
    assert _is_drawable(courses), (exercise_a, exercise_b)
    # A repetition goes there and back: where one bends what the other straightens, the second runs from its end to its start.
    turned = courses[0].joint == courses[1].joint and courses[0].rising != courses[1].rising
    sides = [
        _Side(letter, id, shelf.catalog.exercises[id].data.name, course, turns)
        for letter, id, course, turns in zip(
            LETTERS, (exercise_a, exercise_b), courses, (False, turned), strict=True
        )
    ]
    panels, told = [], []
    if any(isinstance(course.load, Curve) for course in courses):
        panels.append(_load_panel(shelf, sides))
        told += [_load_told(shelf, side) for side in sides]
    if (part := _common(courses)) is not None:
        panels.append(_length_panel(shelf, sides, part, lettered=not panels))
        told += [
            f"{side.name}. {curve_words.length_told(side.length(part), shelf.names.part(part))}"
            for side in sides
        ]
    return CurvePlot(
        id=f"with-{exercise_b}",
        title=f"{sides[0].name} and {shelf.names.exercise(exercise_b).removeprefix('the ')}: load and length",
        says=" ".join(told),
        panels=stacked(panels),
        key=_key(shelf, sides),
        basis=basis(part is not None),
        ends=[(side.span(shelf), False) for side in sides],
    )


def _is_drawable(courses: list[Course]) -> bool:
    """Whether two exercises share a part whose length is known, or both have a load."""
    return _common(courses) is not None or all(isinstance(course.load, Curve) for course in courses)


def _load_panel(shelf: RenderContext, sides: list[_Side]) -> Panel:
    """Both loads, each named, with the joint said once where it is the same."""
    drawn, first = [side.load() for side in sides], sides[0].course
    shared = len({side.course.joint for side in sides}) == 1
    captions = [
        Caption(f"Load about the {joint(shelf, first)}" if shared else "Load about the joint named")
    ]
    captions += [
        Caption(_named_load(shelf, side.name, side.course, shared), letter=side.letter)
        for side in sides
    ]
    return load_panel(captions, _marks(drawn), [values for values in drawn if values])


def _load_told(shelf: RenderContext, side: _Side) -> str:
    """What one load does, for those who do not see the plot."""
    load = side.course.load
    return f"{side.name}. {curve_words.load_told(load, joint(shelf, side.course)) if isinstance(load, Curve) else 'Load not known.'}"


def _length_panel(shelf: RenderContext, sides: list[_Side], part: str, lettered: bool) -> Panel:
    """The lengths of one part in both; ``lettered``: no panel above says which letter is which exercise."""
    shares = [side.lengths(part) for side in sides]
    captions = [Caption(f"Length of {shelf.names.part(part)}")]
    if lettered:
        captions += [Caption(side.name, letter=side.letter) for side in sides]
    return length_panel(
        captions,
        _lettered([curve_plot.steps(s, HEIGHT) for s in shares], shares, HEIGHT),
        shares,
        HEIGHT,
    )


def _key(shelf: RenderContext, sides: list[_Side]) -> str:
    """How to read the plot, and why a load is missing."""
    loads = [side.course.load for side in sides]
    read = [
        "Each load as a share of its own peak: the plot does not say which exercise is heavier. Dotted: 80% of the peak."
    ]
    missing = [
        f"The load of {shelf.names.exercise(side.id)} {load.why}."
        for side, load in zip(sides, loads, strict=True)
        if isinstance(load, Unknown) and load.why.startswith("depends")
    ]
    turned = ["B is drawn from its end to its start, so that the joint turns the same way in both."]
    return " ".join(
        [
            *(read if any(isinstance(load, Curve) for load in loads) else []),
            *missing,
            *(turned if sides[1].turned else []),
        ]
    )


def compared_with(shelf: RenderContext, id: str) -> list[str]:
    """Exercises worth a plot beside this one: what its claims on length compare with, then its swaps."""
    exercise = shelf.catalog.exercises[id].data
    others = [c.comparator.exercise for c in exercise.emphasis if c.outcome == "length"]
    wanted = [
        o
        for o in dict.fromkeys([*others, *exercise.swaps])
        if o and o != id and o in shelf.catalog.exercises
    ]
    return [
        other for other in wanted if _is_drawable([shelf.courses.of(id), shelf.courses.of(other)])
    ][:MOST_COMPARED]


def _named_load(shelf: RenderContext, name: str, course: Course, shared: bool) -> str:
    """An exercise, and where its load acts unless that is said once for both."""
    if isinstance(course.load, Unknown):
        return f"{name}: not known"
    return name if shared else f"{name}: {joint(shelf, course)}"


def _marks(loads: Sequence[list[float] | None]) -> list[CurveMark]:
    """The loads as curves; of two exercises one may have none."""
    height, known = curve_plot.LOAD, [values for values in loads if values is not None]
    paths = [curve_plot.line(values, height) for values in known]
    if len(known) == 2:
        return _lettered(paths, known, height)
    second, middle = loads[0] is None, known[0][curve_plot.SAMPLES // 2]
    return [
        CurveMark(
            paths[0],
            "dashed" if second else "solid",
            LETTERS[second],
            0.5,
            curve_plot.y(max(0.0, middle), height) + LABEL_BELOW,
        )
    ]


def _lettered(paths: list[str], values: list[list[float]], height: int) -> list[CurveMark]:
    """Two curves, the first solid and the second dashed, each with its letter where they lie farthest apart."""
    n = curve_plot.apart(*values)
    x = n / (curve_plot.SAMPLES - 1)
    upper = int(above(values[1][n], values[0][n]))
    return [
        CurveMark(
            path,
            ("solid", "dashed")[i],
            LETTERS[i],
            x,
            min(
                height - 2,
                max(
                    12,
                    curve_plot.y(max(0.0, values[i][n]), height)
                    + (LABEL_ABOVE if i == upper else LABEL_BELOW),
                ),
            ),
        )
        for i, path in enumerate(paths)
    ]


def _common(courses: list[Course]) -> str | None:
    """The first part whose length is known in all, wholly trained ones first."""
    first = courses[0]
    for ref in dict.fromkeys([*first.told, *first.worked, *first.lengths]):
        if all(isinstance(course.lengths.get(ref), Repetition) for course in courses):
            return ref
    return None
