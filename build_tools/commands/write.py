"""Write the handbook as a folder of Markdown, for any page generator.

The catalog is checked and its numbers are weighed first; nothing is written while that finds errors.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from build_tools.checks.reports import visible

from . import CLEAN, FINDINGS, CannotRun, reporting, terminal


def add_arguments(parser: argparse.ArgumentParser) -> None:
    reporting.add_catalog(parser)
    parser.add_argument(
        "--content",
        type=Path,
        default=Path("content"),
        metavar="DIR",
        help="the hand-written pages (default: content)",
    )
    parser.add_argument(
        "--to", type=Path, required=True, metavar="DIR", help="a new or empty folder"
    )
    parser.add_argument(
        "--url",
        metavar="ADDRESS",
        help="where the handbook will be published, e.g. https://example.org/handbook/",
    )
    parser.add_argument(
        "--no-offline",
        action="store_true",
        help="do not keep cue sheets and handouts on readers' devices",
    )


def run(args: argparse.Namespace) -> int:
    """Check ``args.catalog``, then write everything to ``args.to``; answer the exit status."""
    from build_tools import pipeline
    from build_tools.site import book, hand_written
    from build_tools.site import folder as emit
    from build_tools.site.publication import Publication

    if not args.content.is_dir():
        raise CannotRun(f"there is no folder `{visible(str(args.content))}`")
    try:
        with terminal.progress() as tell:
            opened = reporting.load(args.catalog, tell)
            tell("weighing the numbers")
            checked = pipeline.run(opened)
            if checked.conclusions and not checked.errors:
                tell("writing the files")
                site = Publication(args.url, not args.no_offline)
                written_by_hand = hand_written.pages(args.content)
                made = book.render(
                    checked.catalog, checked.conclusions, checked.profile, site, written_by_hand
                )
                written = emit.emit(made, args.content, args.to)
    except (ValueError, OSError) as error:
        raise CannotRun(str(error)) from None
    if checked.conclusions is None or checked.errors:
        terminal.say(
            f"the catalog has {len(checked.errors)} errors; nothing was written. "
            f"Run `handbook {'conclude --check' if checked.conclusions else 'check'}`",
            reporting.shown(args.catalog),
        )
        return FINDINGS
    print(f"{written} files written to {args.to}")
    return CLEAN
