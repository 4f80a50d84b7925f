"""Explain the rules that entries are checked against.

Without RULE, lists every id that `handbook check` can report, with its severity
and what it demands. With RULE, prints its manual: why, what to write instead,
and examples.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from textwrap import fill, indent

from build_tools.catalog.complaints import did_you_mean
from build_tools.catalog.invocation import typed
from build_tools.checks.manuals.manual import Manual
from build_tools.checks.manuals.register import manuals
from build_tools.checks.profile import Severity, load_profile, severity_of

from . import CLEAN, CannotRun

_WIDTH = 80


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("rule", nargs="?", metavar="RULE", help="id of one rule, e.g. unknown-key")


def run(args: argparse.Namespace) -> int:
    """Print the list, or one manual. Raises ``CannotRun`` for a rule that does not exist."""
    known, profile = manuals(), load_profile()
    if args.rule is None:
        width = max(map(len, known))
        for rule, manual in known.items():
            print(f"{rule.ljust(width)}  {severity_of(rule, profile):7}  {manual.title}")
    elif args.rule in known:
        print("\n\n".join(_manual(args.rule, known[args.rule], severity_of(args.rule, profile))))
    else:
        raise CannotRun(
            f"there is no rule `{args.rule}`; {did_you_mean(args.rule, list(known)) or '`handbook rules` lists them all'}"
        )
    return CLEAN


def _manual(rule: str, manual: Manual, severity: Severity) -> Iterator[str]:
    yield f"{rule} ({severity})"
    yield fill(manual.title, _WIDTH)
    yield fill(f"Why: {manual.why}", _WIDTH)
    yield fill(typed(f"Instead: {manual.instead}"), _WIDTH)
    for label, examples in (("Fails", manual.fails), ("Passes", manual.passes)):
        for example in examples:
            # As it stands in a docstring, so that it can be copied into one.
            places = "".join(f" {line}:{column}" for line, column in example.places)
            yield f"{label}: {example.file}{places}\n\n{indent(example.fragment.rstrip(), '    ')}"
