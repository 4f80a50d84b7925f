"""What the page Find needs, each file only once it is asked for. A part is ``muscle/part``.

``data/find.json``, with the first question::

    {"exercises": {id: {"equipment": [id, ...],     # everything it needs; empty for the body alone
                        "position", "sides", "concerns": [id, ...],
                        "credits": {part: 1 | 0.5},  # what one set counts
                        "marks": {part: [index into "signs", kind in which it is ahead, ...]}}},   # of credited parts with a mark
     "orders": {part: [id, ...]},                   # of the exercises that a set of counts directly; see planning/order.py
     "signs": [{"sign", "kind", "says"}, ...]}      # every mark in the order of the legend

``data/find/<muscle>.json``, once it or a part of it is asked for: ``{id: {part: [sentence, address]}}``, the statement behind each mark.

``data/care/<concern>.json``, once care is asked for: ``{id: [[who, instead, stop if, ask, afterwards?], ...]}``. A file of the handout's, too.
"""

from __future__ import annotations

from typing import Any

from ...english import upper_first
from ...evidence_map.marks import LEGEND, Cell
from ...planning.facts import facts
from ...planning.order import Orders
from ...planning.pairs import first_sentences
from ...planning.words import WORDS
from ..context import RenderContext, once
from ..map import mark as marks
from .compared import told


def exercises(shelf: RenderContext) -> dict[str, Any]:
    """``data/find.json`` as JSON values."""
    made = facts(shelf.catalog, shelf.courses)
    orders = Orders(made, told(shelf), shelf.settings.margin_length)
    trained = sorted({part for one in made.values() for part in one.direct})
    return {
        "exercises": {
            id: {
                "equipment": sorted(one.equipment),
                "position": one.position,
                "sides": one.sides,
                "concerns": sorted(one.concerns),
                "credits": {
                    part: credit if credit < 1 else 1 for part, credit in one.credits.items()
                },
                "marks": {
                    cell.part: [LEGEND.index(cell.mark), *_ahead(cell)]
                    for cell in _marked(shelf, id)
                    if cell.mark
                },
            }
            for id, one in made.items()
        },
        "orders": {
            part: [id for place in orders.of(part) for id in place.exercises] for part in trained
        },
        "signs": signs(),
    }


def signs() -> list[dict[str, str]]:
    """Every mark: its symbol, its kind and its words."""
    return [
        {"sign": marks.symbol(mark), "kind": mark.kind, "says": upper_first(marks.words(mark))}
        for mark in LEGEND
    ]


def statements(shelf: RenderContext, muscle: str) -> dict[str, Any]:
    """``data/find/<muscle>.json`` as JSON values."""
    found: dict[str, dict[str, list[str]]] = {}
    for id in sorted(shelf.evidence_map.exercises(muscle)):
        for cell in _marked(shelf, id):
            if cell.part.partition("/")[0] == muscle:
                found.setdefault(id, {})[cell.part] = [
                    _sentence(shelf, cell),
                    cell.reasons[0].address,
                ]
    return found


def care(shelf: RenderContext, concern: str) -> dict[str, Any]:
    """``data/care/<concern>.json`` as JSON values."""
    return {
        id: lines
        for id, entry in sorted(shelf.catalog.exercises.items())
        if (
            lines := [
                [
                    caution.who,
                    caution.instead,
                    caution.stop_if,
                    caution.ask,
                    *([caution.afterwards] if caution.afterwards else []),
                ]
                for caution in entry.data.cautions
                if concern in caution.concerns
            ]
        )
    }


@once
def _marked(shelf: RenderContext, exercise: str) -> list[Cell]:
    """The parts that a set counts for and that have a mark."""
    return [cell for cell in shelf.evidence_map.strip(exercise) if cell.counts and cell.mark]


def _ahead(cell: Cell) -> list[str]:
    return list(dict.fromkeys(reason.mark.kind for reason in cell.reasons if reason.mark.more))


def _sentence(shelf: RenderContext, cell: Cell) -> str:
    best = cell.reasons[0]
    if best.mark.kind == "length":
        part = shelf.names.part(cell.part)
        return WORDS["length-reason"].format(Part=upper_first(part), percent=cell.length)
    return first_sentences(best.sentence)
