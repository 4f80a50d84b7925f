"""What the page Compare needs beside ``planning.compare_data``: marks and drawings of one exercise, and what compares two.

``data/compare/<id>.json`` further holds::

    {"joint": its name in a sentence, "inside": its name in a sentence, "needs": equipment, position and sides in words,
     "cells": {part: {"counts"?: "direct" | "indirect", "sign"?, "kind"?, "says"?, "against"?, "address"?}},    # as on the map
     "pairs": [id, ...],                     # the exercises that anything compares it with
     "credit": what the drawing rests on,
     "drawing": "<svg ...>"}                 # groups .start, .finish and the .step between them, of which one is .on; with a step .still

``data/compare/pairs/<a>--<b>.json``, ids in order of the alphabet::

    {"answer": [{"sign", "kind", "rank", "sentence", "brief"}, ...],           # empty where no study compared them
     "told": [{"part", "outcome", "rank", "sign"?, "kind"?, "heading", "sentence", "address", "bars"?: "<svg ...>",
               "headline"?: the sentence without the numbers of its bars, "certainty"?, "cites"?: [[key, study and place], ...]}, ...]}
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from ...english import upper_first
from ...evidence.claims.conclusions import Comparison
from ...evidence.wording.sentences import in_brief
from ...evidence_map.marks import LEGEND, Cell, Mark, Reason
from ...evidence_map.preferences import Preference
from ...evidence_map.preferences import statements as preferences
from ...planning import compare_data, pairs
from ...planning.pairs import Pair, PairStatement
from ..context import RenderContext, once
from ..escape import xml_text
from ..figures import file as figure_file
from ..figures.file import posture
from ..lessons import cited
from ..map import mark as marks
from ..plots import curves, gain_bars
from ..templating import render

_Asked = tuple[str, str, frozenset[str]]


@once
def told(shelf: RenderContext) -> list[Preference]:
    """Every statement on two exercises."""
    return preferences(shelf.catalog, shelf.conclusions)


@once
def all_pairs(shelf: RenderContext) -> Mapping[Pair, list[PairStatement]]:
    """Statements by pair of ids."""
    return pairs.pairs(shelf.names, told(shelf))


@once
def _others(shelf: RenderContext) -> dict[str, list[str]]:
    """Exercise -> those that anything compares it with."""
    found: dict[str, list[str]] = {}
    for first, second in all_pairs(shelf):
        found.setdefault(first, []).append(second)
        found.setdefault(second, []).append(first)
    return found


def exercise(shelf: RenderContext, id: str) -> dict[str, Any]:
    """``data/compare/<id>.json`` as JSON values."""
    return {
        **compare_data.comparison(shelf.catalog, shelf.courses, id),
        "joint": curves.joint(shelf, shelf.courses.of(id)),
        "inside": shelf.names.exercise(id),
        "needs": _needs(shelf, id),
        "cells": {cell.part: _cell(shelf, cell) for cell in shelf.evidence_map.strip(id)},
        "pairs": _others(shelf).get(id, []),
        "credit": " ".join(figure_file.grounds(shelf, id)),
        "drawing": xml_text(
            render("loop.svg.jinja", figure=posture(shelf, id, f"loop-{id}"))
        ).strip(),
    }


def pair(shelf: RenderContext, ids: Pair) -> dict[str, Any]:
    """``data/compare/pairs/<a>--<b>.json`` as JSON values."""
    statements = all_pairs(shelf)[ids]
    behind = {
        key: found
        for one in statements
        if (found := _comparisons(shelf).get(key := _key(one.told)))
    }
    reach = gain_bars.common_reach(behind.values())
    return {
        "answer": [
            {
                **_sign(line.mark),
                "rank": LEGEND.index(line.mark),
                "sentence": line.sentence,
                "brief": line.brief,
            }
            for line in pairs.answer(shelf.names, statements)
        ],
        "told": [
            {
                "part": one.told.part,
                "outcome": one.told.outcome,
                "rank": one.rank,
                **(_sign(one.mark) if one.mark else {}),
                **_shown(shelf, f"{'-'.join(ids)}-{n}", one, behind.get(_key(one.told)), reach),
                "sentence": one.told.sentence,
                "address": one.told.address,
            }
            for n, one in enumerate(statements)
        ],
    }


def _shown(
    shelf: RenderContext,
    id: str,
    one: PairStatement,
    comparison: Comparison | None,
    reach: gain_bars.Reach | None,
) -> dict[str, Any]:
    """The heading, and the two bars of growth or activation, where a number is known: they name the exercises. What a study tested has
    its place, too."""
    drawn = None
    if comparison and one.mark and one.mark.fill:
        drawn = gain_bars.bars(shelf.names, comparison, id, reach)
    made: dict[str, Any] = {"heading": one.brief if drawn else one.heading}
    if drawn:
        made["bars"] = xml_text(gain_bars.svg(drawn)).strip()
    if comparison and one.mark and one.mark.fill:
        made["headline"] = in_brief(one.told.sentence, drawn is not None)
        made["certainty"] = one.told.certainty or ""
        made["cites"] = [[s.key, s.briefly] for s in cited.studies(shelf, comparison)]
    return made


@once
def _comparisons(shelf: RenderContext) -> dict[_Asked, Comparison]:
    """What stands behind each statement of growth and activation."""
    return {_asked(found): found for found in reversed(list(_every(shelf)))}


def _every(shelf: RenderContext) -> Iterator[Comparison]:
    for of in shelf.conclusions.claims.values():
        for conclusion in of:
            yield from conclusion.comparisons
    for field in shelf.conclusions.fields.values():
        if field.relative_to is None:
            yield from field.comparisons


def _asked(comparison: Comparison) -> _Asked:
    asked = comparison.question
    kind = asked.outcome if not (asked.within or asked.relative_to) else "of another kind"
    return kind, asked.part, frozenset((asked.first, asked.second))


def _key(one: Preference) -> _Asked:
    return one.kind, one.part, frozenset((one.first, one.second))


def _needs(shelf: RenderContext, id: str) -> str:
    data, vocabulary = shelf.catalog.exercises[id].data, shelf.vocabulary
    kit = [vocabulary.equipment[one].name for one in data.equipment if one != "none"]
    sides = "both sides together" if data.sides == "both" else "one side at a time"
    position = vocabulary.positions[data.movement.position].name
    return f"{', '.join(kit) or 'Body alone'}. {upper_first(position)}, {sides}."


def _cell(shelf: RenderContext, cell: Cell) -> dict[str, str]:
    made: dict[str, str] = {"counts": cell.counts} if cell.counts else {}
    if cell.mark:
        best = cell.reasons[0]
        made |= _sign(cell.mark)
        made |= {"says": upper_first(_words(best)), "address": best.address}
        if best.against:
            made["against"] = shelf.names.exercise(best.against)
    return made


def _words(best: Reason) -> str:
    """The words of the mark; of what was measured wider than the part only those that hold."""
    words = marks.words(best.mark)
    if best.mark.fill != "wider":
        return words
    what = "the whole muscle" if best.measured == "whole" else "several parts measured together"
    return f"{words.partition(',')[0]}, of {what}" if best.mark.kind == "growth" else words


def _sign(mark: Mark) -> dict[str, str]:
    return {"sign": marks.symbol(mark), "kind": mark.kind}
