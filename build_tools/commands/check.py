"""Check the catalog and say what to mend.

Every file is read and every rule runs. What a file may contain comes first: while one has
such an error, the rules pass over that file and over what needs it, and tell the rest once it
is mended. Of everything else all that is wrong shows at once:

    catalog/exercises/seated-row.yaml:12:5: error[basis]: what is wrong
      help: what to write instead

With --all the numbers are weighed too, and catalog/conclusions/, changes.yaml
and addresses.txt are compared with what they should hold: all that a
publication asks, in one run. Numbers and files wait until the rules find no
error.

--fix first mends what has one right answer (an entry that stands twice, a DOI
written as an address, an invisible character, a date in another order, a needless
exception, new addresses) and tells each mend. Nothing else in a file changes, and
nothing is written that could not be read afterwards. --fix --dry-run prints a
patch instead.

Exit status: 0 nothing to mend, 1 something to mend (warnings count only with
--strict, notices never), 2 the check could not run. Colours follow the terminal; NO_COLOR
turns them off. SOURCE_DATE_EPOCH sets the day that reviews are judged by.
Under GitHub Actions the github format is the default, and all findings also go
to the job summary. The keys of the json format are explained, and kept, in
build_tools/checks/reports/json.py.
"""

from __future__ import annotations

import argparse
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from build_tools.catalog.counts import counts
from build_tools.checks.runner import run as run_rules

from . import CLEAN, COULD_NOT_RUN, FINDINGS, CannotRun, reporting, terminal

if TYPE_CHECKING:
    from build_tools.authoring.mending import Left
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
    parser.add_argument("--fix", action="store_true", help="mend what a machine can")
    parser.add_argument(
        "--dry-run", action="store_true", help="with --fix: write nothing, print a patch"
    )


def run(args: argparse.Namespace) -> int:
    """Check ``args.catalog``, tell it in ``args.format``, and answer the exit status."""
    if args.dry_run and not args.fix:
        raise CannotRun("--dry-run shows what --fix would do; give both")
    if args.fix:
        changed = _mend(args)
        if args.dry_run:
            return FINDINGS if changed else CLEAN
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
    if found and not args.fix and args.format in (None, "text"):
        _tell_mendable(opened, found)
    return FINDINGS if report.errors or (args.strict and report.warnings) else CLEAN


def _everything(
    opened: Opened, content: Path, tell: Callable[[str], None]
) -> tuple[list[GradedFinding], str]:
    """What rules, numbers and committed files have to mend, and what was looked at."""
    from build_tools import pipeline
    from build_tools.authoring import schemas
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
            *schemas.stale(opened.catalog),
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


def _tell_mendable(opened: Opened, found: list[GradedFinding]) -> None:
    from build_tools.authoring import mending

    catalog = opened.catalog
    count = mending.mendable(catalog.root, catalog.label, (graded.finding for graded in found))
    if count:
        told = f"{count} of these can be mended for you: run `handbook check --fix`"
        terminal.say(told, catalog.label)


def _mend(args: argparse.Namespace) -> bool:
    """Mend a copy, put what changed in its place or print it as a patch, and answer whether anything changed."""
    from build_tools.authoring import mending
    from build_tools.committed import whole

    label = reporting.shown(args.catalog)
    with tempfile.TemporaryDirectory() as scratch, terminal.progress() as tell:
        reporting.load(args.catalog, tell)  # refuses a folder that is no catalog
        tell("mending")
        copy = Path(scratch) / "catalog"
        kept_out = shutil.ignore_patterns("conclusions", ".*")
        shutil.copytree(args.catalog, copy, symlinks=True, ignore=kept_out)
        left = mending.mend(copy, label)
        told = [*map(str, left.told), *_new_addresses(left, reporting.content(args))]
        changed = list(_changed(args.catalog, copy))
        try:
            for path, _, after in changed if not args.dry_run else ():
                whole.put(path, after)
        except OSError as error:
            raise CannotRun(f"a file cannot be written: {error}") from None
    if args.dry_run:
        for path, before, after in changed:
            shown = f"{label}/{path.relative_to(args.catalog).as_posix()}"
            sys.stdout.writelines(mending.unified_diff(before, after, shown))
        told = told or ["nothing that a machine can mend"]
    beside = args.dry_run or args.format in ("json", "sarif")
    for line in told:
        print(line, file=sys.stderr if beside else sys.stdout)
    return bool(changed)


def _new_addresses(left: Left, content: Path) -> list[str]:
    """Add to a list of addresses that is there, once nothing is wrong any more: an entry in error would look like one that is gone."""
    from build_tools.committed import addresses as address_list

    catalog = left.opened.catalog
    is_wrong = any(graded.severity == "error" for graded in left.found)
    if is_wrong or not (catalog.root / address_list.FILE).is_file():
        return []
    from build_tools.site import book, hand_written

    answers = book.answering(catalog, hand_written.pages(content))
    stale = [f for f in address_list.stale(catalog, answers) if f.rule == address_list.LIST]
    before = (catalog.root / address_list.FILE).read_bytes()
    _, written = address_list.add(catalog, answers) if stale else ([], None)
    if written is None or (catalog.root / address_list.FILE).read_bytes() == before:
        return []
    what = f"{written.added} addresses added" if written.added else "put in order"
    return [f"{catalog.label}/{address_list.FILE}:1: mended [{address_list.LIST}]: {what}"]


def _changed(folder: Path, copy: Path) -> Iterator[tuple[Path, str, str]]:
    """Each file that differs in the copy, with its text before and after."""
    for path in sorted(copy.rglob("*")):
        original = folder / path.relative_to(copy)
        if path.is_file() and not path.is_symlink():
            before, after = original.read_bytes(), path.read_bytes()
            if before != after:
                yield original, before.decode("utf-8"), after.decode("utf-8")
