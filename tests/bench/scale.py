"""How the handbook grows: catalogs of several sizes, each built, checked, concluded, weighed and searched; as a table in Markdown."""

from __future__ import annotations

import os
import platform
import shutil
from collections.abc import Callable, Iterator, Sequence
from math import log
from pathlib import Path
from typing import NamedTuple

from build_tools.catalog.load import load

from . import build, check, timing
from .first_result import Waited, wait
from .generate import generate
from .weights import Weights, weights

#: Names that are searched for, the first with nothing loaded yet.
SEARCHED = 6


class Measured(NamedTuple):
    """One size."""

    entries: int
    pages: int
    parsing: float
    """Processor seconds, as the next."""
    checking: float
    concluding: timing.Used
    writing: timing.Used
    ours: timing.Used
    plain: timing.Used
    weights: Weights
    waited: Waited | None


def measure(demo: Path, folder: Path, entries: int) -> Measured:
    """Generate a catalog in the new ``folder`` and measure all of it. The folder is empty again afterwards."""
    catalog = generate(demo, folder / "catalog", entries)
    written = sum(
        len(list((catalog / room).iterdir())) for room in ("muscles", "exercises", "studies")
    )
    parsing, checking = check.against_parsing(catalog, 1)
    command = ["-m", "build_tools.cli"]
    concluding = timing.used([*command, "conclude", "--catalog", str(catalog)])
    timing.used([*command, "addresses", "--catalog", str(catalog)])
    prepared = build.prepare(catalog, folder)
    ours, plain = timing.used(prepared.ours), timing.used(prepared.plain)
    writing = timing.used(
        [*command, "write", "--catalog", str(catalog), "--content", str(build.CONTENT)]
        + ["--to", str(folder / "written")]
    )
    names = [entry.data.name for entry in load(catalog).exercises.values()]
    step = max(1, len(names) // SEARCHED)
    site = folder / "ours-site"
    found = Measured(
        written,
        prepared.pages,
        parsing,
        checking,
        concluding,
        writing,
        ours,
        plain,
        weights(site),
        wait(site, names[::step][:SEARCHED]),
    )
    shutil.rmtree(folder)
    return found


#: What a row tells, and how it is read off.
_ROWS: dict[str, Callable[[Measured], float | None]] = {
    "pages": lambda m: m.pages,
    "check, s": lambda m: m.checking,
    "read the YAML alone (C), s": lambda m: m.parsing,
    "check / YAML": lambda m: m.checking / m.parsing,
    "`handbook conclude`, s": lambda m: m.concluding.seconds,
    "`handbook write`, s": lambda m: m.writing.seconds,
    "`mkdocs build`, s": lambda m: m.ours.seconds,
    "the same pages as Markdown, s": lambda m: m.plain.seconds,
    "build / Markdown": lambda m: m.ours.seconds / m.plain.seconds,
    "memory of the build, MB": lambda m: m.ours.megabytes,
    "memory of Markdown, MB": lambda m: m.plain.megabytes,
    "site, MB": lambda m: m.weights.megabytes,
    "files": lambda m: m.weights.files,
    "search, all files, kB packed": lambda m: m.weights.search,
    "search, loaded by the first query, kB packed": lambda m: m.waited.loaded if m.waited else None,
    "first result, nothing loaded, ms": lambda m: m.waited.first if m.waited else None,
    "first result after that, ms": lambda m: m.waited.later if m.waited else None,
}


def table(measured: list[Measured]) -> Iterator[str]:
    """All sizes side by side. Growth is the power of the number of entries between the two largest: 1 linear, 2 quadratic."""
    entries = [m.entries for m in measured]
    yield f"| entries | {' | '.join(f'{n:,}' for n in entries)} | growth |"
    yield f"| --- |{' ---: |' * (len(entries) + 1)}"
    for name, read in _ROWS.items():
        values = [read(m) for m in measured]
        grown = None if " / " in name else growth(entries, values)
        yield f"| {name} | {' | '.join(map(_number, values))} | {_number(grown)} |"
    for kind in measured[0].weights.heaviest:
        found = [m.weights.heaviest.get(kind, (0.0, 0.0)) for m in measured]
        cells = [f"{lies:.0f} ({sent:.0f})" for lies, sent in found]
        grown = growth(entries, [lies for lies, _ in found])
        yield f"| heaviest: {kind}, kB (packed) | {' | '.join(cells)} | {_number(grown)} |"


def machine() -> str:
    """What it was measured on, without names."""
    model = ""
    if (info := Path("/proc/cpuinfo")).exists():
        lines = info.read_text(encoding="utf-8", errors="replace").splitlines()
        model = next(
            (line.partition(": ")[2] for line in lines if line.startswith("model name")), ""
        )
    return (
        f"{model or platform.machine()}, {os.cpu_count()} cores, {platform.system()}, "
        f"Python {platform.python_version()}"
    )


def _number(value: float | None) -> str:
    """Three figures; a dash for what was not measured."""
    if value is None:
        return "-"
    return f"{value:,.0f}" if value >= 100 else f"{value:.1f}" if value >= 10 else f"{value:.2f}"


def growth(entries: Sequence[int], values: Sequence[float | None]) -> float | None:
    """Between the last two sizes; ``None`` where there are no two, or where something is 0 or not known."""
    small, large = values[-2:] if len(values) > 1 else (None, None)
    if not small or not large:
        return None
    return log(large / small) / log(entries[-1] / entries[-2])
