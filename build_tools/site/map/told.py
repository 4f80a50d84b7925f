"""What a mark's panel tells, and what the map's filters ask: small files that a page loads on first use.

``data/map/<muscle>.json``::

    {"marks": {symbol: [kind, words]},
     "sentences": [sentence, ...],                # each once
     "parts": [[name, other name], ...],          # in the order of the table's columns
     "exercises": {id: [cell, ...]}}              # a cell for each part: reasons, best first; none for a cell without a mark
    reason: {"mark": symbol, "sentence": index, "sure": words, "address": from the top of the site}

``data/map/exercises.json``: ``{id: {"equipment": [id, ...], "concerns": [id, ...]}}``; equipment is empty for the body alone.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import partial
from typing import Any

from ...catalog import care
from ...english import counted, upper_first
from ...evidence_map.marks import LEGEND, Cell, Reason
from ...planning.words import WORDS
from ..context import RenderContext
from ..resource import Resource
from . import mark as marks
from .cell import part_head

EXERCISES = "data/map/exercises.json"


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """A file for each muscle, and one of all exercises."""
    for muscle in shelf.catalog.muscles:
        yield Resource(uri(muscle), partial(_muscle_file, muscle=muscle))
    yield Resource(EXERCISES, _exercises_file)


def uri(muscle: str) -> str:
    """Where a muscle's file is."""
    return f"data/map/{muscle}.json"


def muscle_data(shelf: RenderContext, muscle: str) -> dict[str, Any]:
    """What the panels of one muscle's block tell."""
    block, desk = shelf.evidence_map.block(muscle), shelf.at("index.md")
    sentences: dict[str, int] = {}

    def reason(cell: Cell, told: Reason) -> dict[str, Any]:
        sentence = told.sentence or _length(shelf, cell)
        return {
            "mark": marks.symbol(told.mark),
            "sentence": sentences.setdefault(sentence, len(sentences)),
            "sure": _sure(told),
            "address": told.address,
        }

    exercises = {
        row.exercise: [[reason(cell, told) for told in _once(cell)] for cell in row.cells]
        for row in block.rows
    }
    heads = [part_head(desk, ref) for ref in block.parts]
    return {
        "marks": {
            marks.symbol(mark): [mark.kind, upper_first(marks.words(mark))] for mark in LEGEND
        },
        "sentences": list(sentences),
        "parts": [[head.name, head.other] for head in heads],
        "exercises": exercises,
    }


def _once(cell: Cell) -> Iterator[Reason]:
    """The reasons of a cell, those that say the same in the same place only once."""
    told = set()
    for reason in cell.reasons:
        if (reason.mark, reason.sentence) not in told:
            told.add((reason.mark, reason.sentence))
            yield reason


def _length(shelf: RenderContext, cell: Cell) -> str:
    part = shelf.names.part(cell.part)
    return WORDS["length-reason"].format(Part=upper_first(part), percent=cell.length)


def _sure(told: Reason) -> str:
    """``Certainty: low. 1 study, 28 people.``; empty of what no study measured."""
    found = [f"Certainty: {told.certainty}."] if told.certainty else []
    if told.studies:
        people = f", {counted(told.people, 'person', 'people')}" if told.people else ""
        found.append(f"{counted(told.studies, 'study', 'studies')}{people}.")
    return " ".join(found)


def _muscle_file(shelf: RenderContext, muscle: str) -> bytes:
    return _json(muscle_data(shelf, muscle))


def _exercises_file(shelf: RenderContext) -> bytes:
    return _json(
        {
            id: {
                "equipment": [thing for thing in entry.data.equipment if thing != "none"],
                "concerns": sorted(care.named(entry.data)),
            }
            for id, entry in shelf.catalog.exercises.items()
        }
    )


def _json(value: Any) -> bytes:
    return (json.dumps(value, ensure_ascii=False, separators=(",", ":")) + "\n").encode()
