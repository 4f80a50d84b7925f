"""Check the catalog and say what to mend.

Every file is read and every rule runs, so all that is wrong shows at once:

    catalog/exercises/seated-row.yaml:12:5: error[basis]: what is wrong
      help: what to write instead

Exit status: 0 nothing to mend, 1 something to mend (warnings count only with
--strict), 2 the check could not run. Colours follow the terminal; NO_COLOR
turns them off. SOURCE_DATE_EPOCH sets the day that reviews are judged by.
Under GitHub Actions the github format is the default, and all findings also go
to the job summary. The keys of the json format are explained, and kept, in
build_tools/checks/reports/json.py.
"""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path

from build_tools import clock
from build_tools.catalog.counts import counts
from build_tools.catalog.load import Catalog, load
from build_tools.catalog.walk import yaml_entries
from build_tools.checks import reports
from build_tools.checks.profile import load_profile
from build_tools.checks.runner import run as run_rules

from . import CLEAN, COULD_NOT_RUN, FINDINGS, CannotRun, terminal


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--catalog", type=Path, default=Path("catalog"), metavar="DIR", help="the catalog's folder (default: catalog)")
    parser.add_argument("--format", choices=reports.FORMATS, help="how to tell it (default: text; github under GitHub Actions)")
    parser.add_argument("--strict", action="store_true", help="let warnings fail the check too")
    parser.add_argument("--summary", action="store_true", help="count what the catalog holds by kind, basis and outcome")


def run(args: argparse.Namespace) -> int:
    """Check ``args.catalog``, tell it in ``args.format``, and answer the exit status."""
    format = args.format or ("github" if os.environ.get("GITHUB_ACTIONS") == "true" else "text")
    report = _check(args.catalog, args.summary)
    sys.stdout.write(reports.render(report, format))
    if format == "github":
        _write_job_summary(report)
    if report.has_internal_error:
        return COULD_NOT_RUN
    return FINDINGS if report.errors or (args.strict and report.warnings) else CLEAN


def _check(folder: Path, summary: bool) -> reports.Report:
    if not folder.is_dir():
        raise CannotRun(f"there is no folder `{reports.visible(str(folder))}`; name the folder that holds handbook.yaml: --catalog DIR")
    try:
        today = clock.today()
    except ValueError as error:
        raise CannotRun(str(error)) from None
    try:
        with terminal.progress() as tell:
            tell("reading the catalog")
            catalog = load(folder, _from_here(folder))
            tell("running the rules")
            reported = run_rules(catalog, today, load_profile())
    except OSError as error:
        raise CannotRun(f"the catalog cannot be read: {error}") from None
    return reports.Report(reported, _size(catalog), counts(catalog) if summary else {}, terminal.has_colours(sys.stdout))


def _from_here(folder: Path) -> str:
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
