"""What a catalog holds, counted: entries by kind, statements by basis, claims and results by outcome."""

from __future__ import annotations

from typing import get_args

from . import entries
from .load import Catalog
from .walk import statements


def counts(catalog: Catalog) -> dict[str, dict[str, dict[str, int]]]:
    """Table -> row -> column -> count."""
    return {"entries": _entries(catalog), "statements": _statements(catalog), "outcomes": _outcomes(catalog)}


def _entries(catalog: Catalog) -> dict[str, dict[str, int]]:
    return {kind: {"written": number} for kind, number in (
        ("muscles", len(catalog.muscles)),
        ("muscle parts", sum(len(muscle.data.parts) for muscle in catalog.muscles.values())),
        ("exercises", len(catalog.exercises)),
        ("studies", len(catalog.studies)),
        ("references", len(catalog.references)),
    )}


def _statements(catalog: Catalog) -> dict[str, dict[str, int]]:
    rows: dict[str, dict[str, int]] = {}
    for statement in statements(catalog):
        row = rows.setdefault(statement.called, {"cited": 0, "common practice": 0})
        row["cited"] += bool(statement.basis.cites)
        row["common practice"] += statement.basis.common_practice is not None
    return dict(sorted(rows.items()))


def _outcomes(catalog: Catalog) -> dict[str, dict[str, int]]:
    rows = {outcome: {"claims": 0, "results": 0} for outcome in get_args(entries.Outcome)}
    for exercise in catalog.exercises.values():
        for claim in exercise.data.emphasis:
            rows[claim.outcome]["claims"] += 1
    measures = catalog.vocabulary.data.measures if catalog.vocabulary else {}
    for study in catalog.studies.values():
        for result in study.data.results:
            if result.measure in measures:
                rows[measures[result.measure].outcome]["results"] += 1
    return rows
