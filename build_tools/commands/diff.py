"""Tell what the catalog says otherwise than at a revision of git, and why.

Compared is the catalog as it stands in the folder; with a second revision, the
catalog as of that one. Told are answers that moved, from what to what, with the
study files and their numbers, conventions, entries or rules of the program
behind them; entries added, changed, renamed, retired; published addresses that
would die or are new; sentences before and after.

    `handbook diff main`             what this branch changes
    `handbook diff HEAD~5 HEAD~2`    between two commits

Conclusions are compared as committed. Whether those in the folder are up to date
is tried, and from the old catalog today's program concludes once more, so that a
changed rule is told from a changed study; --quick leaves both out. Nothing is
checked out, and nothing is written. The keys of the json format are explained,
and kept, in build_tools/revisions/reports/json.py.

Exit status: 0 whatever differs, 2 it could not run.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from build_tools.checks.reports import visible
from build_tools.revisions.reports import FORMATS

from . import CLEAN, CannotRun, reporting, terminal

if TYPE_CHECKING:
    from build_tools.revisions.difference import CatalogDifference
    from build_tools.revisions.history import History
    from build_tools.revisions.snapshot import Snapshot


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "before", metavar="REV", help="a branch, tag or commit, e.g. main or HEAD~5"
    )
    parser.add_argument(
        "now", nargs="?", metavar="OTHER", help="a later one, in place of the folder"
    )
    reporting.add_catalog(parser)
    parser.add_argument(
        "--format",
        choices=FORMATS,
        default="text",
        help="how to tell it (default: text)",
    )
    parser.add_argument(
        "--quick", action="store_true", help="compare what is committed; conclude nothing anew"
    )


def run(args: argparse.Namespace) -> int:
    """Compare ``args.catalog`` with ``args.before`` and tell it in ``args.format``. Raises ``CannotRun``."""
    from build_tools.revisions import reports
    from build_tools.revisions.history import NoRevision

    try:
        with tempfile.TemporaryDirectory(prefix="handbook-") as folder, terminal.progress() as tell:
            found = _difference(args, Path(folder), tell)
            text = reports.render(found, args.format, terminal.has_colours(sys.stdout))
    except NoRevision as error:
        raise CannotRun(visible(str(error))) from None
    except OSError as error:
        raise CannotRun(f"the catalog cannot be compared: {error}") from None
    sys.stdout.write(text)
    return CLEAN


def _difference(
    args: argparse.Namespace, folder: Path, tell: Callable[[str], None]
) -> CatalogDifference:
    from build_tools.revisions import difference
    from build_tools.revisions.history import History
    from build_tools.revisions.snapshot import NOW, Snapshot

    if args.now is None and not args.catalog.is_dir():
        raise CannotRun(
            f"there is no folder `{visible(str(args.catalog))}`; name the folder that holds handbook.yaml: --catalog DIR"
        )
    tell("reading the history")
    history = History.around(args.catalog)
    revision = history.revision(args.before)
    before = _unpacked(history, args.before, folder / "before")
    now = (
        Snapshot(args.catalog, NOW)
        if args.now is None
        else _unpacked(history, args.now, folder / "now")
    )
    tell("comparing the entries")
    found = difference.authored(before, now)
    tell("comparing the addresses")
    difference.compare_addresses(found, _answers(found, args.catalog.resolve().parent / "content"))
    if args.now is None:
        package = Path(__file__).parents[1]
        weighing = (package / room for room in ("movement", "evidence", "committed"))
        found.program = history.changed_below(revision, *weighing)
    _compare_conclusions(found, args, tell)
    return found


def _unpacked(history: History, asked: str, folder: Path) -> Snapshot:
    from build_tools.revisions.snapshot import Snapshot

    revision = history.revision(asked)
    history.unpack(revision, folder)
    return Snapshot(folder, str(revision))


def _answers(found: CatalogDifference, content: Path) -> set[str] | None:
    """All that the newer state answers at, where it can be read as a whole; pages written by hand are those of ``content``."""
    from build_tools.catalog.load import load
    from build_tools.site import hand_written
    from build_tools.site.book import answering

    catalog = load(found.now.root, "catalog")
    return None if catalog.findings else answering(catalog, hand_written.pages(content))


def _compare_conclusions(
    found: CatalogDifference, args: argparse.Namespace, tell: Callable[[str], None]
) -> None:
    """Add what the conclusions of both states differ in, with notes on what was taken for them."""
    from build_tools.committed.moves import differing_files
    from build_tools.english import counted
    from build_tools.revisions import concluded, difference

    old, new = found.before.conclusions, found.now.conclusions
    tried = None
    if args.now is None and not args.quick:
        tell("concluding from the catalog")
        today = concluded.conclude(found.now)
        if today.texts is None:
            found.notes.append(f"The present catalog was not concluded from: {today.missing}")
        elif today.texts != new:
            behind = len(differing_files(new, today.texts))
            found.notes.append(
                f"{counted(behind, 'file')} of conclusions/ would change, so what is told here was concluded anew; "
                "run `handbook conclude`"
            )
            new = today.texts
    if not new:
        found.notes.append("No conclusions stand in the newer state, so no answer was compared")
        return
    if not old or (args.now is None and not args.quick and old != new):
        tell("concluding from the old catalog")
        again = concluded.conclude(found.before)
        if again.texts is None:
            found.notes.append(
                f"Today's program cannot conclude from the old catalog: {again.missing}"
            )
        tried = again.texts
    if not old:
        if tried is None:
            found.notes.append("No conclusions stand in the older state, so no answer was compared")
            return
        found.notes.append(
            "No conclusions were committed then; today's program concluded from the old catalog"
        )
        old = tried
    tell("comparing the conclusions")
    difference.compare_statements(found, old, new, tried)
