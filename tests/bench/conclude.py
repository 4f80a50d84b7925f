"""Concluding against rendering the same pages, and what it costs to begin."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from build_tools.catalog.load import load
from build_tools.checks.profile import load_profile
from build_tools.evidence.claims.conclude import conclude
from build_tools.site import book

from . import timing

#: An interpreter with the package that both need, and one that can conclude: numpy and SciPy's functions included.
LOADING, CONCLUDING = (
    ["-c", "import build_tools.catalog.load"],
    ["-c", "import build_tools.evidence.claims.conclude"],
)


class Measured(NamedTuple):
    """Median seconds, and how much was concluded."""

    concluding: float
    rendering: float
    comparisons: int
    pages: int


def against_rendering(catalog: Path, runs: int) -> Measured:
    """Conclude, and render every page from the conclusions, in one process."""
    loaded, profile = load(catalog), load_profile()
    conclusions = conclude(loaded)
    pages = len(book.render(loaded, conclusions, profile).pages)
    concluding, rendering = timing.of_calls(
        runs, lambda: conclude(loaded), lambda: book.render(loaded, conclusions, profile)
    )
    return Measured(
        concluding,
        rendering,
        sum(len(field.comparisons) for field in conclusions.fields.values()),
        pages,
    )


def start(runs: int) -> tuple[float, float]:
    """Median seconds of an interpreter that imports the loader, and of one that imports the engine."""
    loading, concluding = timing.of_commands(runs, LOADING, CONCLUDING)
    return loading, concluding
