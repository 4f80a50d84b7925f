"""Recompute what the numbers say, and keep catalog/conclusions/ up to date.

Writes one file for each exercise and muscle, so that the difference of a commit
shows which conclusions a new study moves. Only what changed is written; files of
retired exercises go. Which statements moved is added to catalog/changes.yaml
under the present day, with what changed behind each as far as git tells; numbers
that move without an answer are none. The ids that editors complete, in
catalog/.schemas/, follow if that folder is there. With --check nothing is written,
and files that would change are findings.

Claims that the numbers contradict, needless disputes, citations without numbers
and numbers that cannot be weighed are reported like the findings of `handbook
check`, in the same formats. While `handbook check` finds errors, nothing is
computed.

Exit status: 0 nothing to mend, 1 something to mend (warnings count only with
--strict), 2 it could not run.
"""

from __future__ import annotations

import argparse
import sys
from datetime import date
from typing import TYPE_CHECKING

from . import CLEAN, COULD_NOT_RUN, FINDINGS, CannotRun, reporting, terminal

if TYPE_CHECKING:
    from build_tools.catalog.load import Catalog
    from build_tools.checks.runner import GradedFinding
    from build_tools.pipeline import Checked
    from build_tools.revisions.statements import Renames


def add_arguments(parser: argparse.ArgumentParser) -> None:
    reporting.add_arguments(parser)
    parser.add_argument(
        "--check",
        action="store_true",
        help="write nothing; files that are not up to date are findings",
    )


def run(args: argparse.Namespace) -> int:
    """Recompute ``args.catalog``, write or compare, tell it in ``args.format``, and answer the exit status."""
    from build_tools import pipeline

    try:
        with terminal.progress() as tell:
            opened = reporting.load(args.catalog, tell)
            tell("weighing the numbers")
            checked = pipeline.run(opened)
            tell("comparing the files" if args.check else "writing the files")
            found = _found(checked, args.check, opened.today)
    except (OSError, ValueError) as error:
        raise CannotRun(f"the conclusions cannot be written: {error}") from None
    report = reporting.tell(args, found, checked.catalog, "Handbook conclude")
    if checked.conclusions is None:
        terminal.say(
            "handbook: nothing was computed, because `handbook check` finds errors; they are listed above",
            reporting.shown(args.catalog),
        )
    if report.has_internal_error:
        return COULD_NOT_RUN
    return FINDINGS if report.errors or (args.strict and report.warnings) else CLEAN


def _found(checked: Checked, only_compare: bool, today: date) -> list[GradedFinding]:
    """What to report; the files are written on the way unless they are only compared."""
    from build_tools.authoring import schemas
    from build_tools.checks.profile import severity_of
    from build_tools.checks.runner import GradedFinding
    from build_tools.committed import files as committed
    from build_tools.committed import moves, record
    from build_tools.revisions.recorded import explained
    from build_tools.revisions.statements import compare

    catalog = checked.catalog
    if checked.conclusions is None:
        return checked.errors
    texts = committed.files(checked.conclusions, catalog)
    if only_compare:
        behind = [
            *committed.stale(texts, catalog),
            *record.find(catalog),
            *schemas.stale(catalog),
        ]
        return checked.by_numbers + [
            GradedFinding(finding, severity_of(finding.rule, checked.profile)) for finding in behind
        ]
    stored = committed.stored_texts(catalog.root)
    # With nothing there before, nothing moved.
    found = compare(stored, texts, _renames(catalog)) if stored else moves.Moves([], [], [])
    added = record.add(catalog, explained(found, catalog.root), today)
    written = committed.write(texts, catalog.root)
    print(
        f"{written.written} written, {written.removed} removed, {written.unchanged} unchanged in {catalog.label}/{committed.FOLDER}",
        file=sys.stderr,
    )
    if any(added):
        told = ", ".join(f"{len(of)} {word}" for word, of in added._asdict().items())
        print(f"statements: {told}; recorded in {catalog.label}/{record.FILE}", file=sys.stderr)
    if refreshed := schemas.refresh(catalog):
        print(f"{refreshed} written in {catalog.label}/{schemas.FOLDER}", file=sys.stderr)
    return checked.by_numbers


def _renames(catalog: Catalog) -> Renames:
    from build_tools.revisions.statements import NONE_RENAMED, Renames

    moved = catalog.moved.data if catalog.moved else None
    return Renames(moved.exercises, moved.muscles, moved.sources) if moved else NONE_RENAMED
