"""Check the catalog and say what to mend.

Every file is read and every rule runs, so all that is wrong shows at once:

    catalog/exercises/seated-row.yaml:12:5: error[basis]: what is wrong
      help: what to write instead

With --all the numbers are weighed too, and catalog/conclusions/, changes.yaml
and addresses.txt are compared with what they should hold: all that a
publication asks, in one run. Numbers and files wait until the rules find no
error.

Exit status: 0 nothing to mend, 1 something to mend (warnings count only with
--strict, notices never), 2 the check could not run. Colours follow the terminal; NO_COLOR
turns them off. SOURCE_DATE_EPOCH sets the day that reviews are judged by.
Under GitHub Actions the github format is the default, and all findings also go
to the job summary. The keys of the json format are explained, and kept, in
build_tools/checks/reports/json.py.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from build_tools.catalog.counts import counts
from build_tools.checks.runner import run as run_rules

from . import CLEAN, COULD_NOT_RUN, FINDINGS, CannotRun, reporting, terminal

if TYPE_CHECKING:
    from build_tools.checks.runner import GradedFinding
    from build_tools.pipeline import Opened


def add_arguments(parser: argparse.ArgumentParser) -> None:
    reporting.add_arguments(parser)
    parser.add_argument(
        "--all",
        action="store_true",
        help="weigh the numbers too, and compare conclusions and addresses",
    )
    reporting.add_content(parser)
    parser.add_argument(
        "--summary",
        action="store_true",
        help="count what the catalog holds by kind, basis and outcome",
    )


def run(args: argparse.Namespace) -> int:
    """Check ``args.catalog``, tell it in ``args.format``, and answer the exit status."""
    with terminal.progress() as tell:
        opened = reporting.load(args.catalog, tell)
        tell("running the rules")
        found, looked_at = (
            _everything(opened, reporting.content(args), tell)
            if args.all
            else (run_rules(*opened), "")
        )
    catalog = opened.catalog
    report = reporting.tell(
        args,
        found,
        catalog,
        "Handbook check",
        counts(catalog) if args.summary else {},
        looked_at,
    )
    if report.has_internal_error:
        return COULD_NOT_RUN
    return FINDINGS if report.errors or (args.strict and report.warnings) else CLEAN


def _everything(
    opened: Opened, content: Path, tell: Callable[[str], None]
) -> tuple[list[GradedFinding], str]:
    """What rules, numbers and committed files have to mend, and what was looked at."""
    from build_tools import pipeline
    from build_tools.checks.profile import severity_of
    from build_tools.checks.runner import GradedFinding
    from build_tools.committed import addresses as address_list
    from build_tools.committed import files as committed
    from build_tools.committed import record
    from build_tools.site import book, hand_written

    try:
        checked = pipeline.run(opened)
        if checked.conclusions is None:
            return checked.reported, "rules; numbers, conclusions and addresses wait for them"
        tell("comparing the files")
        behind = [
            *committed.stale(committed.files(checked.conclusions, opened.catalog), opened.catalog),
            *record.find(opened.catalog),
            *address_list.stale(
                opened.catalog, book.answering(opened.catalog, hand_written.pages(content))
            ),
        ]
    except (OSError, ValueError) as error:
        raise CannotRun(f"the files cannot be compared: {error}") from None
    found = [
        GradedFinding(finding, severity_of(finding.rule, opened.profile)) for finding in behind
    ]
    return checked.reported + found, "rules, numbers, conclusions and addresses"
