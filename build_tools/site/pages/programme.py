"""The page of dose rules: how much, how often, how hard, whom to treat with care, and what a maximum is likely to be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from ...catalog import care, entries
from ...catalog.walk import Path, statements
from ...english import counted
from ...planning.load_prediction import NotCovered, one_repetition_maximum
from ..context import Grounds, Link, PageContext, RenderContext
from ..resource import Resource
from ..sections import care as care_view
from ..sections import equations as equation_words
from ..sections.care import CareView
from ..sections.references import Formatted, cited_on, formatted
from ..templating import render

URI = "programme.md"
SECTIONS = ("top", "advice", "careful", "prediction", "sources")
GOALS = {"growth": "For growth", "strength": "For strength"}
#: Dose -> its name in a table.
DOSES = {
    "weekly_sets": "Volume",
    "weekly_sessions": "Frequency",
    "repetitions": "Repetitions",
    "load_percent": "Load",
    "repetitions_left": "Effort",
    "rest_seconds": "Rest",
    "repetition_seconds": "Tempo",
}
#: What the worked column of the equations starts from: kilograms and repetitions.
SET = (100, 5)


@dataclass(frozen=True)
class StatedView:
    """Something authored, and what it rests on."""

    data: Any
    grounds: Grounds


@dataclass(frozen=True)
class DoseView:
    """One range."""

    anchor: str
    name: str
    span: str
    sure: str
    stated: StatedView
    muscles: list[tuple[Link, str]]
    """Muscles with a range of their own."""


@dataclass(frozen=True)
class AdviceGroup:
    """Advice under one heading, and whom to ask where that matters."""

    anchor: str
    name: str
    advice: list[StatedView]
    ask: str | None = None
    care: CareView | None = None


@dataclass(frozen=True)
class EquationView:
    """One equation in plain words, with its prediction from the example set."""

    anchor: str
    words: str
    holds: str
    predicted: str
    made_for: list[Link]
    stated: StatedView


@dataclass(frozen=True)
class ProgrammePage:
    """Everything the template shows."""

    goals: list[tuple[str, str, list[DoseView]]]
    """Anchor, heading and ranges of each goal."""
    credits: list[tuple[str, StatedView]]
    topics: list[AdviceGroup]
    careful: list[AdviceGroup]
    prediction: entries.LoadPrediction
    equations: list[EquationView]
    rules: list[StatedView]
    """What to do where no equation speaks."""
    facts: list[StatedView]
    timing: list[tuple[str, StatedView]]
    sources: list[Formatted]
    reviewed: date


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """The page."""
    yield Resource(URI, text, anchors(shelf), "programme.yaml" if shelf.catalog.programme else None)


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    desk = shelf.at(URI)
    return render(
        "programme.md.jinja",
        page=model(desk) if shelf.catalog.programme else None,
        set=SET,
        notice=shelf.handbook.notice.short,
        notice_href=desk.href("cautions.md"),
        meta={
            "title": "How much, how often, how hard",
            "hide": ["navigation"],
            "description": "Sets, days, load, rest and effort for growth and for strength, "
            "each with what it rests on and what is not known.",
        },
    )


def anchors(shelf: RenderContext) -> list[str]:
    """The anchors of the page; a catalog without a programme has a page that says so."""
    if shelf.catalog.programme is None:
        return ["top"]
    return [
        *SECTIONS,
        *dict.fromkeys(anchor_of(path) for path in _paths(shelf.catalog.programme.data)),
    ]


def anchor_of(path: Path) -> str:
    """The anchor under which the statement at ``path`` of ``programme.yaml`` stands."""
    match path:
        case ("goals", goal, dose, *_):
            return f"{goal}-{dose}".replace("_", "-")
        case ("goals", goal):
            return str(goal)
        case ("topics", topic, *_):
            return f"topic-{topic}"
        case ("careful", group, *_):
            return f"careful-{group}"
        case ("load_prediction", "equations", id, *_):
            return f"equation-{id}"
        case ("load_prediction", *_):
            return "prediction"
    return str(path[0])


def _paths(programme: entries.Programme) -> Iterator[Path]:
    """A path to everything with an anchor of its own, beyond the sections."""
    for goal, doses in programme.goals.items():
        yield "goals", goal
        yield from (("goals", goal, key) for key, _ in doses.items())
    yield from (("topics", id) for id in programme.topics)
    yield from (("careful", id) for id in programme.careful)
    yield from (("load_prediction", "equations", id) for id in programme.load_prediction.equations)
    yield from (("credits",), ("timing",))


def model(desk: PageContext) -> ProgrammePage:
    """What the page shows."""
    catalog = desk.shelf.catalog
    assert catalog.programme
    programme = catalog.programme.data
    keys = [
        c.key for s in statements(catalog) if s.entry is catalog.programme for c in s.basis.cites
    ]
    keys += [
        c.key
        for group in programme.careful.values()
        for line in care.care(group.concerns, desk.shelf.vocabulary).lines
        for c in line.cites
    ]
    prediction, stated = programme.load_prediction, _stated(desk)
    return ProgrammePage(
        goals=[
            (goal, GOALS[goal], [_dose(desk, goal, key, dose) for key, dose in doses.items()])
            for goal, doses in programme.goals.items()
        ],
        credits=[
            ("Direct", stated(programme.credits.direct)),
            ("Indirect", stated(programme.credits.indirect)),
        ],
        topics=[
            AdviceGroup(anchor_of(("topics", id)), topic.name, [stated(a) for a in topic.advice])
            for id, topic in programme.topics.items()
        ],
        careful=[
            AdviceGroup(
                anchor_of(("careful", id)),
                group.name,
                [stated(a) for a in group.advice],
                group.ask,
                care_view.view(desk, group.concerns, everybody=False),
            )
            for id, group in programme.careful.items()
        ],
        prediction=prediction,
        equations=[_equation(desk, id, equation) for id, equation in prediction.equations.items()],
        rules=[stated(prediction.beyond), stated(prediction.band)],
        facts=[stated(fact) for fact in prediction.facts],
        timing=[
            (key.replace("_", " "), stated(timing)) for key, timing in programme.timing.items()
        ],
        sources=[formatted(desk, key) for key in cited_on(desk.shelf, keys)],
        reviewed=programme.reviewed,
    )


def _stated(desk: PageContext) -> Any:
    return lambda basis: StatedView(basis, desk.grounds(basis))


def _dose(desk: PageContext, goal: str, key: str, dose: entries.Dose) -> DoseView:
    return DoseView(
        anchor_of(("goals", goal, key)),
        DOSES[key],
        span(dose.low, dose.high),
        sure(desk.shelf, dose),
        _stated(desk)(dose),
        [
            (desk.part(muscle), span(ends.low, ends.high))
            for muscle, ends in dose.muscles.items()
            if muscle in desk.shelf.catalog.muscles
        ],
    )


def span(low: float | None, high: float | None) -> str:
    """``10 to 20``, ``10 or more``, ``up to 3``, ``5``."""
    if low is None or high is None:
        return f"up to {high:g}" if low is None else f"{low:g} or more"
    return f"{low:g}" if low == high else f"{low:g} to {high:g}"


def sure(shelf: RenderContext, basis: entries.Basis) -> str:
    """What a range rests on, in a few words: how many sources and how much of them was read, or common practice."""
    if not basis.cites:
        return "common practice"
    keys = {c.key for c in basis.cites}
    whole = any(shelf.catalog.references[key].read == "full text" for key in keys)
    return f"{counted(len(keys), 'source')}{'' if whole else ', no full text read'}"


def _equation(desk: PageContext, id: str, equation: entries.Equation) -> EquationView:
    try:
        predicted = f"{one_repetition_maximum(equation, *SET):.0f}\u00a0kg"
    except NotCovered:
        predicted = "not covered"
    return EquationView(
        anchor=anchor_of(("load_prediction", "equations", id)),
        words=equation_words.worded(equation),
        holds=f"{span(*equation.repetitions)} repetitions",
        predicted=predicted,
        made_for=[
            desk.exercise(id) for id in equation.exercises if id in desk.shelf.catalog.exercises
        ],
        stated=_stated(desk)(equation),
    )
