"""Files and pages of the coach's working pages. Their data needs a catalog that says how much and how often."""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import partial
from typing import Any

from ...planning import compare_data as compared
from ...planning import planner_data as data
from ..client import scripts
from ..context import RenderContext
from ..resource import Resource, finished
from . import compare, find, lagging, week

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
        for id in shelf.catalog.exercises:
            yield Resource(f"data/compare/{id}.json", partial(_comparison, id=id))


def _planner(shelf: RenderContext) -> bytes:
    return _json(data.planner(shelf.catalog, shelf.conclusions, shelf.courses))


def _comparison(shelf: RenderContext, id: str) -> bytes:
    return _json(compared.comparison(shelf.catalog, shelf.courses, id))


def _json(value: Any) -> bytes:
    return (json.dumps(value, ensure_ascii=False, separators=(",", ":")) + "\n").encode()
