"""Two exercises in one plot: both loads, each as a share of its own peak, and the lengths of one part."""

from __future__ import annotations

from collections.abc import Sequence

from ...movement import curve_words
from ...movement.course import Course
from ...movement.length.length import Repetition
from ...movement.load.curve import Curve
from ...movement.load.moments import Unknown
from ..context import Shelf, once
from . import curve_plot
from .curve_plot import Caption, CurvePlot, Mark
from .curves import basis, ends, joint, length_panel, load_panel, stacked

#: Most plots that put another exercise beside a page's own.
MOST_COMPARED = 3
LETTERS = ("A", "B")
#: Height of the lengths' panel, and how far from its curve a letter stands, pixels.
HEIGHT, LABEL_ABOVE, LABEL_BELOW = curve_plot.LENGTH + 12, -4, 14


def file_with(id: str, other: str) -> str:
    """Where the file of the plot of two exercises is."""
    return f"figures/exercises/{id}/with-{other}.svg"


@once
def compare(shelf: Shelf, exercise_a: str, exercise_b: str) -> CurvePlot | None:
    """Two exercises in one plot: both loads, and the lengths of the first part that both train; None where neither can be drawn."""
    ids = (exercise_a, exercise_b)
    courses = [shelf.courses.of(id) for id in ids]
    part = _common(courses)
    loads = [course.load for course in courses]
    if part is None and not all(isinstance(load, Curve) for load in loads):
        return None
    names = [shelf.catalog.exercises[id].data.name for id in ids]
    # A repetition goes there and back: where one bends what the other straightens, the second runs from its end to its start.
    turned = courses[0].joint == courses[1].joint and courses[0].rising != courses[1].rising
    panels, told = [], []
    if any(isinstance(load, Curve) for load in loads):
        drawn = [_turned(load.normalised(), n == 1 and turned) if isinstance(load, Curve) else None for n, load in enumerate(loads)]
        shared = len({course.joint for course in courses}) == 1
        captions = [Caption(f"Load about the {joint(shelf, courses[0])}" if shared else "Load about the joint named")]
        captions += [Caption(_named_load(shelf, name, course, shared), letter=letter)
                     for name, course, letter in zip(names, courses, LETTERS, strict=True)]
        panels.append(load_panel(captions, _marks(drawn), [values for values in drawn if values]))
        told += [f"{name}. {curve_words.load_told(load, joint(shelf, course))}" if isinstance(load, Curve)
                 else f"{name}. Load not known." for name, load, course in zip(names, loads, courses, strict=True)]
    if part is not None:
        found = [course.lengths[part] for course in courses]
        shares = [_turned(f.shares, n == 1 and turned) for n, f in enumerate(found) if isinstance(f, Repetition)]
        paths = [curve_plot.steps(s, HEIGHT) for s in shares]
        captions = [Caption(f"Length of {shelf.names.part(part)}")]
        if not panels:
            captions += [Caption(name, letter=letter) for name, letter in zip(names, LETTERS, strict=True)]
        panels.append(length_panel(captions, _lettered(paths, shares, HEIGHT), shares, HEIGHT))
        told += [f"{name}. {curve_words.length_told(f, shelf.names.part(part))}" for name, f in zip(names, found, strict=True)
                 if isinstance(f, Repetition)]
    spans = [ends(shelf, course) for course in courses]
    spans[1] = (spans[1][1], spans[1][0]) if turned else spans[1]
    notes = [f"The load of {shelf.names.exercise(id)} {load.why}." for id, load in zip(ids, loads, strict=True)
             if isinstance(load, Unknown) and load.why.startswith("depends")]
    if turned:
        notes.append("B is drawn from its end to its start, so that the joint turns the same way in both.")
    return CurvePlot(
        id=f"with-{exercise_b}", title=f"{names[0]} and {shelf.names.exercise(exercise_b).removeprefix('the ')}: load and length",
        says=" ".join(told), panels=stacked(panels), key=" ".join(filter(None, (
            "Each load as a share of its own peak: the plot does not say which exercise is heavier. Dotted: 80% of the peak."
            if any(isinstance(load, Curve) for load in loads) else "", *notes))), basis=basis(part is not None),
        ends=[(f"{letter}: {start} to {end}", False) for letter, (start, end) in zip(LETTERS, spans, strict=True)])


def compared_with(shelf: Shelf, id: str) -> list[str]:
    """Exercises worth a plot beside this one: what its claims on length compare with, then its swaps."""
    exercise = shelf.catalog.exercises[id].data
    others = [c.comparator.exercise for c in exercise.emphasis if c.outcome == "length"]
    wanted = [o for o in dict.fromkeys([*others, *exercise.swaps]) if o and o != id and o in shelf.catalog.exercises]
    return [other for other in wanted if compare(shelf, id, other) is not None][:MOST_COMPARED]


def _named_load(shelf: Shelf, name: str, course: Course, shared: bool) -> str:
    """An exercise, and where its load acts unless that is said once for both."""
    if isinstance(course.load, Unknown):
        return f"{name}: not known"
    return name if shared else f"{name}: {joint(shelf, course)}"


def _marks(loads: Sequence[list[float] | None]) -> list[Mark]:
    """The loads as curves; of two exercises one may have none."""
    height, known = curve_plot.LOAD, [values for values in loads if values is not None]
    paths = [curve_plot.line(values, height) for values in known]
    if len(known) == 2:
        return _lettered(paths, known, height)
    second, middle = loads[0] is None, known[0][curve_plot.SAMPLES // 2]
    return [Mark(paths[0], "dashed" if second else "solid", LETTERS[second], 0.5, curve_plot.y(max(0.0, middle), height) + LABEL_BELOW)]


def _lettered(paths: list[str], values: list[list[float]], height: int) -> list[Mark]:
    """Two curves, the first solid and the second dashed, each with its letter where they lie farthest apart."""
    n = curve_plot.apart(*values)
    x = n / (curve_plot.SAMPLES - 1)
    upper = max((0, 1), key=lambda i: values[i][n])
    return [Mark(path, ("solid", "dashed")[i], LETTERS[i], x,
                 min(height - 2, max(12, curve_plot.y(max(0.0, values[i][n]), height) + (LABEL_ABOVE if i == upper else LABEL_BELOW))))
            for i, path in enumerate(paths)]


def _common(courses: list[Course]) -> str | None:
    """The first part whose length is known in all, wholly trained ones first."""
    first = courses[0]
    for ref in dict.fromkeys([*first.told, *first.worked, *first.lengths]):
        if all(isinstance(course.lengths.get(ref), Repetition) for course in courses):
            return ref
    return None


def _turned(values: tuple[float, ...] | list[float], turn: bool) -> list[float]:
    found = curve_plot.resampled(values)
    return found[::-1] if turn else found
