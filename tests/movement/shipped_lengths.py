"""The shipped tables as the tests read them."""

from __future__ import annotations

import csv
from functools import cache

from folders import SHIPPED
from shipped_made import catalog

from build_tools.movement.length.grid import MuscleGrid


def muscle(id: str) -> MuscleGrid:
    """A muscle of the shipped model by its id in muscles.yaml."""
    data = catalog().model.data.muscles[id]
    return MuscleGrid(data, catalog().length_tables[data.table])


@cache
def column(table: str, name: str) -> dict[tuple[int, int], float]:
    """Angles of both joints -> mm, read from the CSV without any of our code."""
    with (SHIPPED / "model" / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    at = rows[0].index(name)
    return {(int(row[0]), int(row[1])): float(row[at]) for row in rows[1:]}
