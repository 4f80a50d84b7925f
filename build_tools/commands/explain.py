"""Show how a claim's numbers became its sentence.

CLAIM is an exercise and the number of one of its claims, counted from 1 in the
order of its file: seated-leg-curl/4. Printed are the claim as written, for each
part every study with what was read and what it prints, how the spread was had,
how studies were pooled, each step of certainty, the finding, what would change it, and the sentence.

Exit status: 0 explained, 1 the catalog does not pass `handbook check`, 2 there
is no such claim, or it could not run.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Collection

from build_tools.catalog.complaints import did_you_mean
from build_tools.checks.reports import visible

from . import CLEAN, FINDINGS, CannotRun, reporting, terminal


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("claim", metavar="CLAIM", help="id of a claim, e.g. seated-leg-curl/4")
    reporting.add_catalog(parser)


def run(args: argparse.Namespace) -> int:
    """Print the chain of ``args.claim``. Raises ``CannotRun`` for a claim that does not exist."""
    from build_tools import pipeline
    from build_tools.evidence.explain.claim import by_id, explain

    with terminal.progress() as tell:
        opened = reporting.load(args.catalog, tell)
        tell("weighing the numbers")
        conclusions = pipeline.run(opened).conclusions
        known = by_id(conclusions) if conclusions else {}
        text = (
            explain(opened.catalog, conclusions, args.claim)
            if conclusions and args.claim in known
            else ""
        )
    if conclusions is None:
        terminal.say(
            "handbook: nothing was computed, because the catalog has errors; run `handbook check`",
            reporting.shown(args.catalog),
        )
        return FINDINGS
    if not text:
        raise CannotRun(f"there is no claim `{visible(args.claim)}`; {_instead(args.claim, known)}")
    sys.stdout.write(text)
    return CLEAN


def _instead(asked: str, known: Collection[str]) -> str:
    of_exercise = [id for id in known if id.rpartition("/")[0] == asked.partition("/")[0]]
    if of_exercise:
        first, last = of_exercise[0], of_exercise[-1]
        return f"this exercise has {first}" + (f" to {last}" if last != first else "")
    return did_you_mean(
        asked, sorted(known)
    ) or "a claim is an exercise and a number, e.g. " + next(iter(known), "seated-leg-curl/1")
