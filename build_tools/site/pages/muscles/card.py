"""The answer card of a part as pages show it."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ....english import upper_first
from ....evidence_map.answer_card import answer_card
from ....evidence_map.best_answer import BestAnswer, BestAnswers
from ....evidence_map.marks import Mark
from ...context import Link, PageContext, RenderContext, once
from ...map import mark as marks
from ...sections.comparison import bare

#: The anchor of the answer on its part's page.
ANSWER = "answer"


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

    title: str
    """The part."""
    lead: str
    chosen: list[ChosenExercise]
    others: int
    lines: tuple[tuple[str, str], ...]
    permalink: str
    """Where the answer stands: on the part's own page."""
    anchor: str | None
    """Its anchor; None on any other page."""
    sources: list[Link]
    """The studies that it rests on."""


def card(desk: PageContext, ref: str) -> CardView:
    """The card of a part as seen from one page."""
    shelf = desk.shelf
    found = answer(shelf, ref)
    made = answer_card(shelf.names, found)
    rows = found.comparison.rows if found.comparison else ()
    return CardView(
        upper_first(bare(shelf.names.part(ref))),
        made.lead,
        [_chosen(desk, id, mark) for id, mark in zip(made.chosen, found.marks, strict=False)],
        made.others,
        made.lines,
        desk.href(f"muscles/{ref}.md", ANSWER),
        ANSWER if desk.uri == f"muscles/{ref}.md" else None,
        [desk.source(key) for key in dict.fromkeys(row.study for row in rows)],
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
