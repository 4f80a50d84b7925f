"""The statements on a muscle as a table: one row for each two exercises that were compared."""

from __future__ import annotations

from collections.abc import Sequence

from ...clock import today
from ...evidence.claims.conclusions import Comparison
from ..context import RenderContext
from ..dataset.cell import Value, written
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
#: Stands for a place where no study compared the two itself.
INDIRECT = "through other exercises that studies connect"


def file(shelf: RenderContext, muscle: str) -> bytes:
    """The table as CSV; gains are shares of the size before, and the last column is the day it was made (ISO 8601)."""
    return written(COLUMNS, (_row(shelf, c) for c in chosen.studied(shelf, muscle)))


def _row(shelf: RenderContext, comparison: Comparison) -> Sequence[Value]:
    asked, names = comparison.question, shelf.names
    sized = comparison.estimate if comparison.sized else None
    gains = comparison.gains if sized else None
    studies = cited.studies(shelf, comparison)
    return (
        names.part(asked.part).removeprefix("the "),
        asked.outcome,
        names.exercise(asked.first).removeprefix("the "),
        names.exercise(asked.second).removeprefix("the "),
        comparison.finding,
        *((round(x, 4) for x in (sized.ratio, sized.low, sized.high)) if sized else (None,) * 3),
        *((round(x - 1, 4) for x in (gains.first, gains.second)) if gains else (None,) * 2),
        comparison.certainty.level if comparison.certainty else None,
        comparison.people,
        [one.key for one in studies],
        [shelf.catalog.references[one.key].doi for one in studies],
        [f"{one.key}: {', '.join(one.places)}" for one in studies] or INDIRECT,
        cited.at(shelf, cited.place_of(comparison)),
        today().isoformat(),
    )
