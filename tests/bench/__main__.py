"""Print what is measured, as ratios and growth taken in one run on this machine."""

from __future__ import annotations

import argparse
import tempfile
from pathlib import Path

from . import check, conclude, coverage, scale, studies, timing

DEMO = timing.ROOT / "tests" / "demo" / "catalog"
#: Exercises and studies: one network of 60 exercises, then catalogs that grow.
NUMBERS = ((60, 200), (100, 100), (300, 300), (1000, 1000))


def main() -> None:
    parser = argparse.ArgumentParser(prog="make bench", description=__doc__)
    parser.add_argument(
        "what",
        nargs="?",
        choices=["scale", "numbers", "coverage"],
        default="scale",
        help="how catalogs grow, what weighing costs, or how often a 95%% interval holds the truth",
    )
    parser.add_argument(
        "--sizes",
        type=int,
        nargs="+",
        default=[1000, 3000],
        help="entries of the generated catalogs",
    )
    parser.add_argument(
        "--runs", type=int, default=3, help="runs whose median is shown, of numbers"
    )
    parser.add_argument("--simulated", type=int, default=600, help="runs of each cell of coverage")
    args = parser.parse_args()
    match args.what:
        case "coverage":
            coverage.report(args.simulated)
        case "numbers":
            _numbers(args.runs)
        case _:
            _scale(sorted(args.sizes))


def _scale(sizes: list[int]) -> None:
    print(
        "Catalogs generated from the invented demo, two entries in five exercises and three studies; processor seconds, one run. "
        f"Growth: the power of the number of entries, 1 is linear.\n{scale.machine()}\n",
        flush=True,
    )
    measured = []
    for size in sizes:
        with tempfile.TemporaryDirectory() as folder:
            measured.append(scale.measure(DEMO, Path(folder) / "bench", size))
    print("\n".join(scale.table(measured)))
    if not all(m.waited for m in measured):
        print("\nNo Chromium found: the search was skipped.")


def _numbers(runs: int) -> None:
    bare, importing = check.start(runs)
    print(
        f"Start: importing `handbook check` takes {importing:.2f} s, a bare interpreter {bare:.2f} s."
    )
    loading, concluding = conclude.start(runs)
    print(
        f"Importing what weighs the numbers takes {concluding:.2f} s, the catalog's loader alone {loading:.2f} s.\n"
    )
    print(
        "Concluding, against rendering the same pages; invented exercises in networks of 60 that studies connect, two outcomes each"
    )
    _row("exercises", "studies", "comparisons", "pages", "conclude s", "render s", "ratio")
    with tempfile.TemporaryDirectory() as folder:
        for exercises, of_studies in NUMBERS:
            catalog = studies.generate(
                DEMO, Path(folder) / f"numbers-{exercises}", exercises, of_studies
            )
            told = conclude.against_rendering(catalog, runs)
            _row(
                exercises,
                of_studies,
                told.comparisons,
                told.pages,
                f"{told.concluding:.2f}",
                f"{told.rendering:.2f}",
                f"{told.concluding / told.rendering:.2f}",
            )


def _row(*cells: object) -> None:
    print("".join(f"{cell!s:>14}" for cell in cells))


if __name__ == "__main__":
    main()
