"""Findings that are let through with a reason (``exceptions.yaml`` in the catalog).

Only what a rule or the numbers found can be let through: a file that cannot be
read is not in the handbook, whatever the list says.
"""

from __future__ import annotations

from collections.abc import Collection

from build_tools.catalog.complaints import did_you_mean
from build_tools.catalog.finding import Finding
from build_tools.catalog.load import Catalog

#: An exception that lets nothing through is itself an error, so the list only shrinks.
NEEDLESS = "needless-exception"
#: An exception for a rule that does not exist.
UNKNOWN_RULE = "exception-rule"


def let_through(
    found: list[Finding],
    catalog: Catalog,
    rules: Collection[str],
    complete: bool,
    elsewhere: Collection[str] = (),
) -> list[Finding]:
    """``found`` without what the catalog's exceptions name, and with what is wrong with the exceptions.

    ``rules`` are those that made ``found``; exceptions from rules judged
    ``elsewhere`` are left alone. Unless ``complete``, an exception that matches
    nothing is not judged: its finding may be hidden behind a file that cannot
    be read.
    """
    entry = catalog.exceptions
    if entry is None:
        return found
    kept, complaints = found, []
    for index, exception in enumerate(entry.data.exceptions):
        if exception.rule in elsewhere:
            continue
        if exception.rule not in rules:
            complaints.append(
                Finding(
                    UNKNOWN_RULE,
                    entry.spot("exceptions", index, "rule"),
                    f"there is no rule `{exception.rule}` to except from",
                    did_you_mean(exception.rule, sorted({*rules, *elsewhere}))
                    or "`handbook rules` lists them; what the loader refuses cannot be let through",
                )
            )
            continue
        file = f"{catalog.label}/{exception.file}"
        matched = [f for f in kept if f.rule == exception.rule and f.spot.file == file]
        if not matched and complete:
            complaints.append(
                Finding(
                    NEEDLESS,
                    entry.spot("exceptions", index),
                    f"`{exception.rule}` finds nothing in `{exception.file}`",
                    "remove this exception, or name the file below the catalog folder, e.g. exercises/seated-row.yaml",
                )
            )
        kept = [f for f in kept if f not in matched]
    return kept + complaints
