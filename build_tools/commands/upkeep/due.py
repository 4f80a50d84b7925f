"""What has come up this week, as Markdown for a person to go through: entries whose
review is due, and references to look up for corrections and retractions.

The references take turns: each comes up in one week of the year, the same week every
year, so nobody has to keep a list of what was looked up when.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator
from datetime import date
from zlib import crc32

from ...catalog.bibliography.references import Reference
from ...catalog.finding import Spot
from ...checks.reports.job_summary import escape
from ...checks.runner import run as run_rules
from ...english import counted
from .. import CLEAN, reporting, terminal

#: Groups of references; the 53rd week of a long year takes the first group again.
_WEEKS = 52
#: Reviews in the list. Convention.
_MOST_REVIEWS = 50


def add_arguments(parser: argparse.ArgumentParser) -> None:
    reporting.add_catalog(parser)


def run(args: argparse.Namespace) -> int:
    """Print the list for the week of the day of the build. Raises ``CannotRun``."""
    with terminal.progress() as tell:
        catalog, today, profile = reporting.load(args.catalog, tell)
        tell("running the rules")
        found = run_rules(catalog, today, profile)
    due = [
        (item.finding.spot, item.finding.message)
        for item in found
        if item.finding.rule == "review-due"
    ]
    turn = this_week(catalog.references.values(), today)
    sys.stdout.write("\n".join([*_reviews(due), *_references(turn, len(catalog.references))]))
    return CLEAN


def this_week(references: Iterable[Reference], today: date) -> list[Reference]:
    """Those whose turn it is, by key. A key's checksum gives its week, so a new reference moves no other."""
    week = (today.isocalendar().week - 1) % _WEEKS
    turn = [reference for reference in references if crc32(reference.key.encode()) % _WEEKS == week]
    return sorted(turn, key=lambda reference: reference.key)


def _reviews(due: list[tuple[Spot, str]]) -> Iterator[str]:
    yield from ("### Reviews that are due", "")
    if not due:
        yield from ("None.", "")
        return
    yield f"{counted(len(due), 'entry', 'entries')}: look through each against the newest studies, then set `reviewed:` to that day."
    yield ""
    for spot, message in due[:_MOST_REVIEWS]:
        yield f"- {escape(spot.file)}: {escape(message)}"
    if more := len(due) - _MOST_REVIEWS:
        if more > 0:
            yield f"- and {more} more: `handbook check` lists all"
    yield ""


def _references(turn: list[Reference], of: int) -> Iterator[str]:
    yield from ("### References to look up for corrections and retractions", "")
    yield f"{len(turn)} of {counted(of, 'reference')} have their turn this week. Look for a notice at each; one that stands there becomes"
    yield "`notice` of its record."
    yield ""
    for reference in turn:
        place = f"<{reference.link}>" if reference.link else "no identifier"
        yield f"- `{reference.key}` ({reference.year}): {place}"
    yield from ("", "")
