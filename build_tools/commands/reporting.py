"""What the commands that report findings share: their arguments, reading the catalog, and telling what was found."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from build_tools import pipeline
from build_tools.catalog.load import Catalog
from build_tools.catalog.walk import yaml_entries
from build_tools.checks import reports
from build_tools.checks.reports import visible
from build_tools.checks.runner import GradedFinding

from . import CannotRun, terminal


def add_catalog(parser: argparse.ArgumentParser) -> None:
    """``--catalog DIR``."""
    parser.add_argument(
        "--catalog",
        type=Path,
        default=Path("catalog"),
        metavar="DIR",
        help="the catalog's folder (default: catalog)",
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """``--catalog``, ``--format`` and ``--strict``."""
    add_catalog(parser)
    parser.add_argument(
        "--format",
        choices=reports.FORMATS,
        help="how to tell it (default: text; github under GitHub Actions)",
    )
    parser.add_argument("--strict", action="store_true", help="let warnings fail too")


def add_content(parser: argparse.ArgumentParser) -> None:
    """``--content DIR``."""
    parser.add_argument(
        "--content",
        type=Path,
        metavar="DIR",
        help="the hand-written pages (default: content, beside the catalog)",
    )


def content(args: argparse.Namespace) -> Path:
    """The folder of the hand-written pages. Raises ``CannotRun`` when one was named that is none."""
    named: Path | None = args.content
    if named and not named.is_dir():
        raise CannotRun(
            f"there is no folder `{visible(str(named))}`; name the folder of the hand-written pages: --content DIR"
        )
    return named or args.catalog.resolve().parent / "content"


def load(folder: Path, tell: Callable[[str], None]) -> pipeline.Opened:
    """The catalog in ``folder`` and what it is judged by. Raises ``CannotRun``."""
    if not folder.is_dir():
        raise CannotRun(
            f"there is no folder `{visible(str(folder))}`; name the folder that holds handbook.yaml: --catalog DIR"
        )
    try:
        tell("reading the catalog")
        return pipeline.open_catalog(folder, shown(folder))
    except ValueError as error:
        raise CannotRun(str(error)) from None
    except OSError as error:
        raise CannotRun(f"the catalog cannot be read: {error}") from None


def tell(
    args: argparse.Namespace,
    found: Sequence[GradedFinding],
    catalog: Catalog,
    title: str,
    counts: reports.Counts | None = None,
    looked_at: str = "",
) -> reports.Report:
    """Print what was found in ``args.format``; under GitHub Actions also into the job summary."""
    report = reports.Report(
        found,
        _size(catalog),
        counts or {},
        terminal.has_colours(sys.stdout),
        title,
        shown(args.catalog),
        looked_at,
    )
    format = args.format or ("github" if os.environ.get("GITHUB_ACTIONS") == "true" else "text")
    sys.stdout.write(reports.render(report, format))
    if format == "github":
        _write_job_summary(report)
    return report


def shown(folder: Path) -> str:
    """The folder relative to where the person stands, with forward slashes."""
    try:
        return Path(os.path.relpath(folder)).as_posix()
    except ValueError:  # another drive on Windows
        return folder.as_posix()


def _size(catalog: Catalog) -> int:
    return sum(1 for _ in yaml_entries(catalog)) + len(catalog.references) + len(catalog.broken)


def _write_job_summary(report: reports.Report) -> None:
    path = os.environ.get("GITHUB_STEP_SUMMARY")
    if not path:
        return
    from build_tools.checks.reports import job_summary

    try:
        with open(path, "a", encoding="utf-8") as out:
            out.write(job_summary.render(report))
    except OSError as error:
        print(f"handbook: the job summary could not be written: {error.strerror}", file=sys.stderr)
