"""Files and pages of the coach's working pages. Their data needs a catalog that says how much and how often."""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import partial
from typing import Any

from ...planning import planner_data as data
from ...planning import questions
from ...planning.pairs import Pair
from ..client import scripts
from ..context import RenderContext, once
from ..resource import Resource, finished
from . import compare, compared, find, found, lagging, names, week

DATA = "data/planner.json"
_PAGES = (find, compare, lagging, week)


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """Pages and scripts, and the data where the catalog has a programme."""
    for page in _PAGES:
        yield Resource(page.URI, page.text, ["top"])
    for uri, content in scripts.others():
        yield finished(uri, content)
    if shelf.catalog.programme:
        yield Resource(DATA, _planner)
        yield Resource("data/names.json", _names)
        yield Resource("data/find.json", _find)
        for muscle in shelf.catalog.muscles:
            yield Resource(f"data/planner/{muscle}.json", partial(_of_muscle, muscle=muscle))
            yield Resource(f"data/find/{muscle}.json", partial(_statements, muscle=muscle))
        for id in shelf.catalog.exercises:
            yield Resource(f"data/compare/{id}.json", partial(_exercise, id=id))
        for ids in compared.all_pairs(shelf):
            yield Resource(f"data/compare/pairs/{'--'.join(ids)}.json", partial(_pair, ids=ids))


def _planner(shelf: RenderContext) -> bytes:
    return _json(questions.shared(_all(shelf)))


def _of_muscle(shelf: RenderContext, muscle: str) -> bytes:
    among = sorted(shelf.evidence_map.exercises(muscle))
    return _json(questions.of_muscle(_all(shelf), muscle, among))


@once
def _all(shelf: RenderContext) -> dict[str, Any]:
    return data.planner(shelf.catalog, shelf.conclusions, shelf.courses)


def _names(shelf: RenderContext) -> bytes:
    return _json(names.names(shelf))


def _find(shelf: RenderContext) -> bytes:
    return _json(found.exercises(shelf))


def _statements(shelf: RenderContext, muscle: str) -> bytes:
    return _json(found.statements(shelf, muscle))


def _exercise(shelf: RenderContext, id: str) -> bytes:
    return _json(compared.exercise(shelf, id))


def _pair(shelf: RenderContext, ids: Pair) -> bytes:
    return _json(compared.pair(shelf, ids))


def _json(value: Any) -> bytes:
    return (json.dumps(value, ensure_ascii=False, separators=(",", ":")) + "\n").encode()
