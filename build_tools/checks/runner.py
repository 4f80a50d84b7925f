"""Run every rule over a loaded catalog and sort what is wrong with it.

Nothing is read from disk here. A rule that fails leaves an ``internal-error``
and everything the other rules (and it itself, until then) have found.
"""

from __future__ import annotations

import traceback
from collections.abc import Mapping
from datetime import date
from types import ModuleType
from typing import NamedTuple

from build_tools.catalog.complaints import DRAFT
from build_tools.catalog.finding import Finding, Spot
from build_tools.catalog.load import Catalog

from . import exceptions
from .manuals.numbers import NUMBERS
from .profile import Profile, Severity, severity_of
from .rule import Context, all_rules

#: Whatever else is wrong may follow from these, so they are told first.
CAUSES = ("file-name", "misplaced-file", "stray-file")
#: A rule itself failed: a fault of the checks, never of the catalog.
INTERNAL_ERROR = "internal-error"


class GradedFinding(NamedTuple):
    """A finding and how severe it is."""

    finding: Finding
    severity: Severity

    @property
    def place(self) -> tuple[bool, Spot, str, str]:
        """What findings are sorted by: files that are not where they belong first, then file, line, column, rule and message."""
        return (
            self.finding.rule not in CAUSES,
            self.finding.spot,
            self.finding.rule,
            self.finding.message,
        )


def run(
    catalog: Catalog, today: date, profile: Profile, rules: Mapping[str, ModuleType] | None = None
) -> list[GradedFinding]:
    """Everything wrong with ``catalog`` on the day ``today``, in the order of its files.

    ``rules`` (id -> module) are all rules unless given. What the loader found is
    included; findings listed in the catalog's ``exceptions.yaml`` are left out.
    """
    context = Context(catalog, today)
    rules = all_rules() if rules is None else rules
    found: list[Finding] = []
    failed: list[Finding] = []
    for rule, module in rules.items():
        try:
            for problem in module.check(context):
                found.append(Finding(rule, *problem))
        except Exception as error:
            failed.append(_internal_error(rule, catalog, error))
    # A file that cannot be read, or a rule that failed, hides findings: none can then be called absent.
    complete = not catalog.broken and not failed
    found = exceptions.let_through(found, catalog, rules, complete, elsewhere=NUMBERS)
    findings = _without_consequences({*catalog.findings, *found, *failed})
    return sorted(
        (GradedFinding(finding, severity_of(finding.rule, profile)) for finding in findings),
        key=lambda r: r.place,
    )


def _without_consequences(findings: set[Finding]) -> set[Finding]:
    """Whatever else is said of a line that is still to be written only follows from that."""
    drafts = {(f.spot.file, f.spot.line) for f in findings if f.rule == DRAFT}
    return {f for f in findings if f.rule in (DRAFT, INTERNAL_ERROR) or f.spot[:2] not in drafts}


def _internal_error(rule: str, catalog: Catalog, error: Exception) -> Finding:
    last = traceback.extract_tb(error.__traceback__)[-1]
    where = f"{last.filename.replace(chr(92), '/').rsplit('/', 1)[-1]}:{last.lineno}"
    return Finding(
        INTERNAL_ERROR,
        Spot(catalog.label, 1, 1),
        f"the rule `{rule}` failed at {where}: {type(error).__name__}: {error}",
        "this is a fault of the checks, not of the catalog; report it with this line and the entry edited last",
    )
