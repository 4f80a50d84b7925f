"""Write the handbook as a folder of Markdown, for any page generator.

The catalog is checked and its numbers are weighed first; nothing is written while that finds errors.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from . import CLEAN, FINDINGS, CannotRun


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--catalog", type=Path, default=Path("catalog"), metavar="DIR", help="the catalog's folder (default: catalog)")
    parser.add_argument("--content", type=Path, default=Path("content"), metavar="DIR", help="the hand-written pages (default: content)")
    parser.add_argument("--to", type=Path, required=True, metavar="DIR", help="a new or empty folder")
    parser.add_argument("--url", metavar="ADDRESS", help="where the handbook will be published, e.g. https://example.org/handbook/")
    parser.add_argument("--no-offline", action="store_true", help="do not keep cue sheets and handouts on readers' devices")


def run(args: argparse.Namespace) -> int:
    """Check ``args.catalog``, then write everything to ``args.to``; answer the exit status."""
    from build_tools import clock
    from build_tools.catalog.load import load
    from build_tools.checks.profile import load_profile
    from build_tools.movement.length.length import means
    from build_tools.pipeline import weigh
    from build_tools.site import book
    from build_tools.site import folder as emit
    from build_tools.site.publication import Site

    for folder in (args.catalog, args.content):
        if not folder.is_dir():
            raise CannotRun(f"there is no folder `{folder}`")
    try:
        today, profile, catalog = clock.today(), load_profile(), load(args.catalog)
        weighed = weigh(catalog, today, profile, means(catalog))
        errors = [reported for reported in weighed.reported if reported.severity == "error"]
        if errors or weighed.conclusions is None:
            print(f"the catalog has {len(errors)} errors; nothing was written. "
                  f"Run: handbook {'conclude --check' if weighed.conclusions else 'check'}", file=sys.stderr)
            return FINDINGS
        site = Site(args.url, not args.no_offline)
        written = emit.emit(book.render(catalog, weighed.conclusions, profile, site), args.content, args.to)
    except (ValueError, OSError) as error:
        raise CannotRun(str(error)) from None
    print(f"{written} files written to {args.to}")
    return CLEAN
