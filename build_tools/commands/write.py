"""Write the handbook as a folder of Markdown, for any page generator.

The catalog is checked first; nothing is written while it has errors.
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


def run(args: argparse.Namespace) -> int:
    """Check ``args.catalog``, then write everything to ``args.to``; answer the exit status."""
    from build_tools import clock
    from build_tools.catalog.load import load
    from build_tools.checks.profile import load_profile
    from build_tools.checks.runner import run as run_rules
    from build_tools.evidence.conclude import conclude
    from build_tools.site import book, emit

    for folder in (args.catalog, args.content):
        if not folder.is_dir():
            raise CannotRun(f"there is no folder `{folder}`")
    try:
        today, profile, catalog = clock.today(), load_profile(), load(args.catalog)
        errors = [r for r in run_rules(catalog, today, profile) if r.severity == "error"]
        if errors:
            print(f"the catalog has {len(errors)} errors; nothing was written. Run: handbook check", file=sys.stderr)
            return FINDINGS
        written = emit.emit(book.render(catalog, conclude(catalog), profile), args.content, args.to)
    except (ValueError, OSError) as error:
        raise CannotRun(str(error)) from None
    print(f"{written} files written to {args.to}")
    return CLEAN
