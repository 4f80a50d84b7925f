"""Keep catalog/addresses.txt, the list of every address that was published.

Adds the addresses of new entries and hand-written pages, and never takes one out. A listed address that
would no longer answer is a finding: bring its entry back, or name the successor
in moved.yaml. With --check nothing is written, and addresses that are not listed
yet are findings too.

Exit status: 0 nothing to mend, 1 something to mend, 2 it could not run.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from . import CLEAN, FINDINGS, CannotRun, reporting, terminal

if TYPE_CHECKING:
    from build_tools.catalog.finding import Finding
    from build_tools.catalog.load import Catalog


def add_arguments(parser: argparse.ArgumentParser) -> None:
    reporting.add_arguments(parser)
    parser.add_argument(
        "--check",
        action="store_true",
        help="write nothing; addresses that are not listed yet are findings",
    )
    reporting.add_content(parser)


def run(args: argparse.Namespace) -> int:
    """Compare or extend the list of ``args.catalog``, tell it in ``args.format``, and answer the exit status."""
    from build_tools.checks.profile import severity_of
    from build_tools.checks.runner import GradedFinding

    pages = reporting.content(args)
    with terminal.progress() as tell:
        catalog, _, profile = reporting.load(args.catalog, tell)
        try:
            # An entry that cannot be read would look like one that was taken out.
            found = catalog.findings or _found(catalog, pages, args.check)
        except (OSError, UnicodeDecodeError) as error:
            raise CannotRun(
                f"the list of addresses or a hand-written page cannot be read or written: {error}"
            ) from None
    report = reporting.tell(
        args,
        [GradedFinding(finding, severity_of(finding.rule, profile)) for finding in found],
        catalog,
        "Handbook addresses",
    )
    if catalog.findings:
        print(
            "handbook: no address was compared, because files of the catalog cannot be read; they are listed above",
            file=sys.stderr,
        )
    return FINDINGS if report.errors or (args.strict and report.warnings) else CLEAN


def _found(catalog: Catalog, pages: Path, only_compare: bool) -> list[Finding]:
    """What to report; new addresses are added on the way unless they are only compared."""
    from build_tools.committed import addresses as address_list
    from build_tools.site import hand_written
    from build_tools.site.book import answering

    answers = answering(catalog, hand_written.pages(pages))
    if only_compare:
        return address_list.stale(catalog, answers)
    found, written = address_list.add(catalog, answers)
    print(
        f"{written.added} added, {written.listed} listed in {catalog.label}/{address_list.FILE}",
        file=sys.stderr,
    )
    return found
