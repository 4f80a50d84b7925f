"""The statements on a muscle as a table (CSV, RFC 4180): one row for each two exercises that were compared.

A cell that a spreadsheet would reckon as a formula gets an apostrophe before it, as OWASP advises against CSV injection.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from ...evidence.claims.conclusions import Comparison
from ..context import RenderContext
from . import chosen, cited

COLUMNS = (
    "part",
    "outcome",
    "first exercise",
    "second exercise",
    "found",
    "ratio of first to second",
    "interval from",
    "interval to",
    "gain with first",
    "gain with second",
    "certainty",
    "people",
    "studies",
    "DOI",
    "place read",
    "address",
    "day",
)
_FORMULA = tuple("=+-@\t\r")


def text(shelf: RenderContext, muscle: str, day: str) -> str:
    """The table as text; ``day`` is when it was made (ISO 8601)."""
    written = io.StringIO()
    table = csv.writer(written, lineterminator="\r\n")
    table.writerow(COLUMNS)
    for comparison in chosen.studied(shelf, muscle):
        table.writerow([guarded(cell) for cell in (*_cells(shelf, comparison), day)])
    return written.getvalue()


def guarded(cell: str) -> str:
    """The cell as a spreadsheet may read it."""
    return f"'{cell}" if cell.startswith(_FORMULA) else cell


def _cells(shelf: RenderContext, comparison: Comparison) -> Iterator[str]:
    asked, names, estimate = comparison.question, shelf.names, comparison.estimate
    sized = estimate if comparison.sized else None
    studies = cited.studies(shelf, comparison)
    yield names.part(asked.part).removeprefix("the ")
    yield asked.outcome
    for side in (asked.first, asked.second):
        yield names.exercise(side).removeprefix("the ")
    yield comparison.finding
    for value in (sized.ratio, sized.low, sized.high) if sized else (None,) * 3:
        yield f"{value:.4g}" if value is not None else ""
    gains = comparison.gains
    for value in (gains.first - 1, gains.second - 1) if gains and sized else (None,) * 2:
        yield f"{value:.3f}" if value is not None else ""
    yield comparison.certainty.level if comparison.certainty else ""
    yield str(comparison.people)
    yield "; ".join(one.key for one in studies)
    yield "; ".join(shelf.catalog.references[one.key].doi for one in studies)
    yield "; ".join(f"{one.key}: {', '.join(one.places)}" for one in studies)
    yield cited.at(shelf, cited.place_of(comparison))
