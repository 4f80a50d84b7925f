"""Every entry has been reviewed within the handbook's review interval.

Why: new trials move conclusions, and a page that nobody has looked at for years
still looks finished.

Instead: read the page against the newest studies, mend it, and set `reviewed:` to
that day. The interval is the convention `review_interval` in handbook.yaml.

Fails: exercises/crate-curl.yaml 1:11
    reviewed: 2024-03-01

Passes: exercises/crate-curl.yaml
    reviewed: 2026-03-01
"""

from collections.abc import Iterator

from build_tools.catalog.walk import reviewed_entries
from build_tools.checks.rule import Context, Problem
from build_tools.clock import months_after


def check(context: Context) -> Iterator[Problem]:
    """Entries whose last review is too old."""
    handbook = context.catalog.handbook
    if handbook is None:
        return
    months = round(handbook.data.conventions.review_interval.value)
    for entry in reviewed_entries(context.catalog):
        due = months_after(entry.data.reviewed, months)
        if context.today > due:
            yield Problem(
                entry.spot("reviewed"),
                f"the review was due on {due}",
                "look through the entry again, then set `reviewed:` to that day",
            )
