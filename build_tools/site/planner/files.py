"""Files and pages of the coach's working pages. Their data needs a catalog that says how much and how often."""

from __future__ import annotations

import json
from typing import Any

from ...planning import compare_data as compared
from ...planning import planner_data as data
from ..client import scripts, share
from ..context import Shelf
from . import compare, find, lagging, week

DATA = "data/planner.json"
_PAGES = (find, compare, lagging, week)


def uris() -> list[str]:
    """All pages and their scripts, whatever the catalog holds; that of exercise pages is declared with them."""
    return [*(page.URI for page in _PAGES), *(uri for uri, _ in scripts.others() if uri != share.SCRIPT)]


def pages(shelf: Shelf) -> list[tuple[str, str]]:
    """Uri and Markdown of each page."""
    return [(page.URI, page.text(shelf)) for page in _PAGES]


def files(shelf: Shelf) -> list[tuple[str, bytes]]:
    """Scripts, and the data where the catalog has a programme."""
    if not shelf.catalog.programme:
        return scripts.others()
    catalog, courses = shelf.catalog, shelf.courses
    made = {DATA: data.planner(catalog, shelf.conclusions, courses),
            **{f"data/compare/{id}.json": compared.comparison(catalog, courses, id) for id in catalog.exercises}}
    return [*scripts.others(), *((uri, _json(value)) for uri, value in made.items())]


def _json(value: Any) -> bytes:
    return (json.dumps(value, ensure_ascii=False, separators=(",", ":")) + "\n").encode()
