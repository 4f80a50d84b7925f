"""Check the catalog and say what to mend.

Every file is read and every rule runs. What a file may contain comes first: while one has
such an error, the rules pass over that file and over what needs it, and tell the rest once it
is mended. Of everything else all that is wrong shows at once:

    catalog/exercises/seated-row.yaml:12:5: error[basis]: what is wrong
      help: what to write instead

Exit status: 0 nothing to mend, 1 something to mend (warnings count only with
--strict, notices never), 2 the check could not run. Colours follow the terminal; NO_COLOR
turns them off. SOURCE_DATE_EPOCH sets the day that reviews are judged by.
Under GitHub Actions the github format is the default, and all findings also go
to the job summary. The keys of the json format are explained, and kept, in
build_tools/checks/reports/json.py.
"""

from __future__ import annotations

import argparse

from build_tools.catalog.counts import counts
from build_tools.checks.runner import run as run_rules

from . import CLEAN, COULD_NOT_RUN, FINDINGS, reporting, terminal


def add_arguments(parser: argparse.ArgumentParser) -> None:
    reporting.add_arguments(parser)
    parser.add_argument(
        "--summary",
        action="store_true",
        help="count what the catalog holds by kind, basis and outcome",
    )


def run(args: argparse.Namespace) -> int:
    """Check ``args.catalog``, tell it in ``args.format``, and answer the exit status."""
    with terminal.progress() as tell:
        catalog, today, profile = reporting.load(args.catalog, tell)
        tell("running the rules")
        found = run_rules(catalog, today, profile)
    report = reporting.tell(
        args, found, catalog, "Handbook check", counts(catalog) if args.summary else {}
    )
    if report.has_internal_error:
        return COULD_NOT_RUN
    return FINDINGS if report.errors or (args.strict and report.warnings) else CLEAN
