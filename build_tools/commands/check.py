"""Check the catalog and say what to mend.

Every file is read and every rule runs, so all that is wrong shows at once:

    catalog/exercises/seated-row.yaml:12:5: error[basis]: what is wrong
      help: what to write instead

--fix mends what has one right answer (an entry that stands twice, a DOI written as an
address, an invisible character, a date in another order, a needless exception, new
addresses) and reports what is left; each mend is told. Nothing else in a file changes,
and nothing is written that could not be read afterwards. --fix --dry-run prints a patch.

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
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from build_tools.catalog.counts import counts
from build_tools.checks.runner import GradedFinding
from build_tools.checks.runner import run as run_rules
from build_tools.pipeline import Opened

from . import CLEAN, COULD_NOT_RUN, FINDINGS, CannotRun, reporting, terminal

if TYPE_CHECKING:
    from build_tools.authoring.mending import Left


def add_arguments(parser: argparse.ArgumentParser) -> None:
    reporting.add_arguments(parser)
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
        return _fix(args)
    with terminal.progress() as tell:
        opened = reporting.load(args.catalog, tell)
        tell("running the rules")
        found = run_rules(*opened)
    status = _report(args, opened, found)
    if args.format in (None, "text") and found:
        from build_tools.authoring import mending

        label = opened.catalog.label
        count = mending.mendable(args.catalog, label, (graded.finding for graded in found))
        if count:
            told = f"{count} of these can be mended for you"
            print(f"{told}: {terminal.command('check', '--fix')}", file=sys.stderr)
    return status


def _report(args: argparse.Namespace, opened: Opened, found: list[GradedFinding]) -> int:
    catalog = opened.catalog
    report = reporting.tell(
        args, found, catalog, "Handbook check", counts(catalog) if args.summary else {}
    )
    if report.has_internal_error:
        return COULD_NOT_RUN
    return FINDINGS if report.errors or (args.strict and report.warnings) else CLEAN


def _fix(args: argparse.Namespace) -> int:
    """Mend a copy, then put what changed in its place, or print it as a patch."""
    from build_tools.authoring import files, mending

    label = reporting.from_here(args.catalog)
    with tempfile.TemporaryDirectory() as scratch, terminal.progress() as tell:
        reporting.load(args.catalog, tell)  # says what is wrong with the folder itself
        tell("mending")
        copy = Path(scratch) / "catalog"
        kept_out = shutil.ignore_patterns("conclusions", ".*")
        shutil.copytree(args.catalog, copy, symlinks=True, ignore=kept_out)
        left = mending.mend(copy, label)
        told = [*map(str, left.told), *_new_addresses(left)]
        changed = list(_changed(args.catalog, copy))
        if not args.dry_run:
            try:
                for path, _, after in changed:
                    files.replace(path, after)
            except OSError as error:
                raise CannotRun(f"a file cannot be written: {error}") from None
    if args.dry_run:
        for path, before, after in changed:
            shown = f"{label}/{path.relative_to(args.catalog).as_posix()}"
            sys.stdout.writelines(mending.unified_diff(before, after, shown))
        print("\n".join(told) or "nothing that a machine can mend", file=sys.stderr)
        return FINDINGS if changed else CLEAN
    for line in told:
        print(line, file=sys.stderr if args.format in ("json", "sarif") else sys.stdout)
    return _report(args, left.opened, left.found)


def _new_addresses(left: Left) -> list[str]:
    """Add to a list of addresses that is there, once nothing is wrong any more: an entry in error would look like one that is gone."""
    from build_tools.committed import addresses

    catalog = left.opened.catalog
    is_wrong = any(graded.severity == "error" for graded in left.found)
    if is_wrong or not (catalog.root / addresses.FILE).is_file():
        return []
    from build_tools.site.book import answering

    answers = answering(catalog)
    stale = [
        finding for finding in addresses.stale(catalog, answers) if finding.rule == "address-list"
    ]
    _, written = addresses.add(catalog, answers) if stale else (None, None)
    if written is None:
        return []
    what = f"{written.added} addresses added" if written.added else "put in order"
    return [f"{catalog.label}/{addresses.FILE}:1: mended [{addresses.LIST}]: {what}"]


def _changed(folder: Path, copy: Path) -> Iterator[tuple[Path, str, str]]:
    """Each file that differs in the copy, with its text before and after."""
    for path in sorted(copy.rglob("*")):
        original = folder / path.relative_to(copy)
        if path.is_file() and not path.is_symlink():
            before, after = original.read_bytes(), path.read_bytes()
            if before != after:
                yield original, before.decode("utf-8"), after.decode("utf-8")
