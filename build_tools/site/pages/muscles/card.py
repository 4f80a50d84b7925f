"""The answer card of a part as pages show it."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ....evidence_map.answer_card import answer_card
from ....evidence_map.best_answer import BestAnswer, BestAnswers
from ....evidence_map.marks import Mark
from ...context import Link, PageContext, RenderContext, once
from ...map import mark as marks


@dataclass(frozen=True)
class ChosenExercise:
    """One exercise of the answer, with the mark of what it rests on."""

    link: Link
    sign: Markup
    """Empty where it has none."""
    says: str
    """The mark in words."""


@dataclass(frozen=True)
class CardView:
    """Everything the template of a card shows."""

    lead: str
    chosen: list[ChosenExercise]
    others: int
    lines: tuple[tuple[str, str], ...]


def card(desk: PageContext, ref: str) -> CardView:
    """The card of a part as seen from one page."""
    shelf = desk.shelf
    found = answer(shelf, ref)
    made = answer_card(shelf.names, found)
    return CardView(
        made.lead,
        [_chosen(desk, id, mark) for id, mark in zip(made.chosen, found.marks, strict=False)],
        made.others,
        made.lines,
    )


@once
def answer(shelf: RenderContext, ref: str) -> BestAnswer:
    """What answers for a part."""
    return _answers(shelf).of(ref)


@once
def _answers(shelf: RenderContext) -> BestAnswers:
    return BestAnswers(shelf.catalog, shelf.conclusions, shelf.evidence_map)


def _chosen(desk: PageContext, id: str, mark: Mark | None) -> ChosenExercise:
    return ChosenExercise(
        desk.exercise(id),
        marks.drawing(mark) if mark else Markup(""),
        marks.words(mark) if mark else "",
    )
