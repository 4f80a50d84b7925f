"""What a catalog holds, counted: entries by kind, statements by basis, claims and results by outcome and by region.

And how much its numbers can bear: contrasts by what was tested, studies by allocation, references by what was read of them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import get_args

from . import entries
from .bibliography.references import READ
from .load import Catalog
from .walk import statements


def counts(catalog: Catalog) -> dict[str, dict[str, dict[str, int]]]:
    """Table -> row -> column -> count."""
    held, shown = _regions(catalog)
    tables = {
        "entries": _entries(catalog),
        "statements": _statements(catalog),
        "outcomes": _outcomes(catalog),
        "regions": held,
        "results by region": shown,
        **_strength_of_numbers(catalog),
    }
    return {title: rows for title, rows in tables.items() if rows}


def _entries(catalog: Catalog) -> dict[str, dict[str, int]]:
    return {
        kind: {"written": number}
        for kind, number in (
            ("muscles", len(catalog.muscles)),
            ("muscle parts", sum(len(muscle.data.parts) for muscle in catalog.muscles.values())),
            ("exercises", len(catalog.exercises)),
            ("studies", len(catalog.studies)),
            ("references", len(catalog.references)),
        )
    }


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
    for study in catalog.studies.values():
        for outcome, _ in _results(catalog, study.data):
            rows[outcome]["results"] += 1
    return rows


def _regions(catalog: Catalog) -> tuple[dict[str, dict[str, int]], dict[str, dict[str, int]]]:
    """Region -> parts, exercises that credit one of them directly, claims on them by basis; and region -> results by outcome.

    What spans two regions counts in both.
    """
    order = list(catalog.vocabulary.data.regions) if catalog.vocabulary else []
    of = {
        id: muscle.data.region
        for id, muscle in catalog.muscles.items()
        if muscle.data.region in order
    }
    held = {
        region: {"parts": 0, "exercises": 0, "cited": 0, "common practice": 0}
        for region in order
        if region in of.values()
    }
    shown: dict[str, dict[str, int]] = {
        region: dict.fromkeys(get_args(entries.Outcome), 0) for region in held
    }

    def regions(refs: Iterable[str]) -> set[str]:
        return {of[muscle] for ref in refs if (muscle := ref.split("/")[0]) in of}

    for id, region in of.items():
        held[region]["parts"] += len(catalog.muscles[id].data.parts)
    for exercise in catalog.exercises.values():
        for region in regions(
            ref for ref, credit in exercise.data.set_credit.items() if credit == "direct"
        ):
            held[region]["exercises"] += 1
        for claim in exercise.data.emphasis:
            for region in regions(claim.part):
                held[region]["cited" if claim.cites else "common practice"] += 1
    for study in catalog.studies.values():
        for outcome, parts in _results(catalog, study.data):
            for region in regions(parts):
                shown[region][outcome] += 1
    return held, shown


def _strength_of_numbers(catalog: Catalog) -> dict[str, dict[str, dict[str, int]]]:
    studies = [study.data for study in catalog.studies.values()]
    results = [result for study in studies for result in study.results]
    tests = Counter(contrast.test for result in results for contrast in result.contrasts)
    allocations = Counter(study.allocation for study in studies)
    read = Counter(reference.read for reference in catalog.references.values())
    kept = {
        "read in the study": sum(result.via is None for result in results),
        "second-hand": sum(result.via is not None for result in results),
        "in doubt": sum(result.doubt is not None for result in results),
    }
    lacking = {
        "without authors": sum(not reference.authors for reference in catalog.references.values()),
        "with a notice": sum(bool(reference.notices) for reference in catalog.references.values()),
    }
    return {
        "contrasts by test": _counted(
            "contrasts", {test: tests[test] for test in get_args(entries.Test)}
        ),
        "studies by allocation": _counted(
            "studies", {kind: allocations[kind] for kind in get_args(entries.Allocation)}
        ),
        "references by what was read": _counted(
            "references", {kind: read[kind] for kind in READ} | lacking
        ),
        "results by where they were read": _counted("results", kept),
    }


def _counted(column: str, rows: dict[str, int]) -> dict[str, dict[str, int]]:
    return {row: {column: number} for row, number in rows.items()}


def _results(catalog: Catalog, study: entries.Study) -> Iterator[tuple[str, list[str]]]:
    """Outcome and parts of each result whose measure is known."""
    measures = catalog.vocabulary.data.measures if catalog.vocabulary else {}
    for result in study.results:
        if result.measure in measures:
            yield measures[result.measure].outcome, result.parts
