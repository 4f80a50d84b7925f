"""Print what is measured, as ratios of medians taken in one run on this machine."""

from __future__ import annotations

import argparse
import tempfile
from pathlib import Path

from . import build, check, conclude, coverage, studies, timing
from .generate import generate

DEMO = timing.ROOT / "tests" / "demo" / "catalog"
#: Exercises and studies: one network of 60 exercises, then catalogs that grow.
NUMBERS = ((60, 200), (100, 100), (300, 300), (1000, 1000))
GROWTH = "growth: what one more entry costs between the last two sizes, against between the first two (linear is 1.0)"


def main() -> None:
    parser = argparse.ArgumentParser(prog="make bench", description=__doc__)
    parser.add_argument(
        "what",
        nargs="?",
        choices=["speed", "coverage"],
        default="speed",
        help="how long things take, or how often a 95%% interval holds the truth",
    )
    parser.add_argument(
        "--sizes",
        type=int,
        nargs="+",
        default=[100, 1000, 3000],
        help="entries of the generated catalogs",
    )
    parser.add_argument("--runs", type=int, default=3, help="runs whose median is shown")
    parser.add_argument("--simulated", type=int, default=600, help="runs of each cell of coverage")
    args = parser.parse_args()
    if args.what == "coverage":
        coverage.report(args.simulated)
        return
    print(
        f"Catalogs generated from the invented demo; an entry is a muscle, exercise or study. Medians of {args.runs} runs.\n"
    )
    with tempfile.TemporaryDirectory() as folder:
        catalogs = {
            size: generate(DEMO, Path(folder) / f"catalog-{size}", size) for size in args.sizes
        }
        _start(args.runs)
        _check(catalogs, args.runs)
        _conclude(Path(folder), args.runs)
        _build(catalogs, args.runs)


def _start(runs: int) -> None:
    bare, importing = check.start(runs)
    print(
        f"Start: importing `handbook check` takes {importing:.2f} s, a bare interpreter {bare:.2f} s."
    )
    loading, concluding = conclude.start(runs)
    print(
        f"Importing what weighs the numbers takes {concluding:.2f} s, the catalog's loader alone {loading:.2f} s.\n"
    )


def _check(catalogs: dict[int, Path], runs: int) -> None:
    print(
        "`handbook check` against reading the same YAML files with PyYAML's C loader, both without starting Python"
    )
    _row("entries", "check s", "YAML s", "check / YAML", "growth")
    seconds = {}
    for size, catalog in catalogs.items():
        parsing, seconds[size] = check.against_parsing(catalog, runs)
        _row(
            size,
            f"{seconds[size]:.2f}",
            f"{parsing:.2f}",
            f"{seconds[size] / parsing:.1f}",
            _growth(seconds),
        )
    print(f"{GROWTH}\n")


def _conclude(folder: Path, runs: int) -> None:
    print(
        "Concluding, against rendering the same pages; invented exercises in networks of 60 that studies connect, two outcomes each"
    )
    _row(
        "exercises", "studies", "comparisons", "pages", "conclude s", "render s", "ratio", "growth"
    )
    seconds: dict[int, float] = {}
    for exercises, of_studies in NUMBERS:
        told = conclude.against_rendering(
            studies.generate(DEMO, folder / f"numbers-{exercises}", exercises, of_studies), runs
        )
        # The single network has another density of studies, so growth is told by comparisons, over the catalogs alone.
        if exercises == of_studies:
            seconds[told.comparisons] = told.concluding
        _row(
            exercises,
            of_studies,
            told.comparisons,
            told.pages,
            f"{told.concluding:.2f}",
            f"{told.rendering:.2f}",
            f"{told.concluding / told.rendering:.2f}",
            _growth(seconds),
        )
    print(f"{GROWTH}; here an entry is a comparison\n")


def _build(catalogs: dict[int, Path], runs: int) -> None:
    print(
        "`mkdocs build` with the handbook's plugin (checks included) against plain `mkdocs build` of the same pages as Markdown"
    )
    _row("entries", "pages", "ours s", "plain s", "ours / plain", "growth", "plain growth")
    seconds, plainly = {}, {}
    for size, catalog in catalogs.items():
        with tempfile.TemporaryDirectory() as folder:
            ours, plain, pages = build.prepare(catalog, Path(folder))
            seconds[size], plainly[size] = timing.of_commands(runs, ours, plain)
        _row(
            size,
            pages,
            f"{seconds[size]:.1f}",
            f"{plainly[size]:.1f}",
            f"{seconds[size] / plainly[size]:.2f}",
            _growth(seconds),
            _growth(plainly),
        )
    print(GROWTH)


def _growth(seconds: dict[int, float]) -> str:
    """Seconds an entry between the last two sizes over those between the two sizes before; empty until there are three."""
    if len(seconds) < 3:
        return ""
    (small, a), (middle, b), (large, c) = list(seconds.items())[-3:]
    return f"{(c - b) / (large - middle) / ((b - a) / (middle - small)):.2f}"


def _row(*cells: object) -> None:
    print("".join(f"{cell!s:>14}" for cell in cells))


if __name__ == "__main__":
    main()
