"""No review is dated in the future.

Why: such a date is a slip, and it would hide that a review is due.

Instead: write the day on which the entry was last looked through.

Fails: exercises/crate-curl.yaml 1:11
    reviewed: 2062-11-01

Passes: exercises/crate-curl.yaml
    reviewed: 2026-11-01
"""

from collections.abc import Iterator
from datetime import timedelta

from build_tools.catalog.walk import reviewed_entries
from build_tools.checks.rule import Context, Problem

#: Authors east of the machine that checks are already in tomorrow.
LEEWAY = timedelta(days=1)


def check(context: Context) -> Iterator[Problem]:
    """Entries reviewed later than today."""
    for entry in reviewed_entries(context.catalog):
        if entry.data.reviewed > context.today + LEEWAY:
            yield Problem(
                entry.spot("reviewed"),
                f"`{entry.data.reviewed}` lies in the future",
                "write the day of the last review",
            )
