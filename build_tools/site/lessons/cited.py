"""Where a statement of a lesson stands and what it rests on: studies with the place that was read, the handbook with day and address."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ...clock import today
from ...evidence.claims.conclusions import Comparison, Row
from ...evidence.treatments import pair_anchor
from ..addresses import url
from ..context import RenderContext
from ..sections import labels
from ..templating import day

#: Studies that a slide names; the notes have all. Convention.
MOST_NAMED = 2


@dataclass(frozen=True)
class CitedStudy:
    """A study behind a statement, and the place in it that was read."""

    key: str
    short: str
    places: tuple[str, ...]
    people: int
    tests: str
    """What stands behind its direction, in words; empty where nothing is told."""
    row: Row

    @property
    def briefly(self) -> str:
        """``Maeo et al. 2022 (abstract)``; the file of a number read second-hand stands in the notes."""
        places = dict.fromkeys(place.partition(",")[0] for place in self.places)
        return f"{self.short} ({', '.join(places)})"


def studies(shelf: RenderContext, comparison: Comparison) -> list[CitedStudy]:
    """The studies behind a statement, those that it rests on first, then by people."""
    rows = sorted(comparison.rows, key=lambda row: (not row.weighed, -row.people, row.study))
    return [_cited(shelf, row) for row in rows]


def briefly(cited: list[CitedStudy]) -> str:
    """The studies that a statement rests on, or if it rests on none those that bear on it, in one line."""
    weighed = [one for one in cited if one.row.weighed] or cited
    named = list(dict.fromkeys(one.briefly for one in weighed))
    more = f"; {len(named) - MOST_NAMED} more in the notes" if len(named) > MOST_NAMED else ""
    return "; ".join(named[:MOST_NAMED]) + more


def in_full(one: CitedStudy) -> str:
    """What one study did, found and printed, and what test stands behind it."""
    told = [
        f"{one.short}, {one.people} people, {labels.read_of(one.row.read)}",
        *one.row.texts,
        *([f"Behind the direction: {one.tests}"] if one.tests else []),
    ]
    return " ".join(f"{text.rstrip('.')}." for text in told)


def place_of(comparison: Comparison) -> str:
    """Where a statement stands, from the top of the site."""
    asked = comparison.question
    anchor = pair_anchor(asked.outcome, asked.first, asked.second)
    return f"{url(f'muscles/{asked.part}.md')}#{anchor}"


def at(shelf: RenderContext, path: str) -> str:
    """The address of a place; while nobody knows where the handbook stands, the place in it."""
    return shelf.site.at(path) or path


def handbook(shelf: RenderContext, address: str) -> str:
    """``Evidence handbook, 1 December 2026, https://...``."""
    return f"{shelf.handbook.title}, {day(today())}, {address}"


def credit(shelf: RenderContext, address: str) -> str:
    """Whose a picture or a slide is, and under which licence."""
    book = shelf.handbook
    return f"From: {book.title}, {book.owner.name}, {day(today())}, {address}. Licence: {book.licence}."


def links(shelf: RenderContext, keys: Iterable[str]) -> str:
    """Short names of sources, each with its address: what a picture rests on."""
    return "; ".join(
        " ".join(filter(None, (shelf.short(key), shelf.catalog.references[key].link)))
        for key in dict.fromkeys(keys)
    )


def _cited(shelf: RenderContext, row: Row) -> CitedStudy:
    results = shelf.catalog.studies[row.study].data.results
    places = dict.fromkeys(results[n].place for n in row.results)
    tests = "; ".join(dict.fromkeys(labels.TESTS[test] for test in row.tests))
    return CitedStudy(
        row.study,
        shelf.short(row.study),
        tuple(places) or (labels.read_of(row.read),),
        row.people,
        tests,
        row,
    )
