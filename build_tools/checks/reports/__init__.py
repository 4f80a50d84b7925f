"""The outcome of a check, and one module for each format it can be told in."""

from __future__ import annotations

import importlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from build_tools.catalog import invocation
from build_tools.checks.runner import INTERNAL_ERROR, GradedFinding

from ...english import counted

FORMATS = ("text", "json", "github", "sarif")

Counts = Mapping[str, Mapping[str, Mapping[str, int]]]
"""Table -> row -> column -> count; see ``build_tools.catalog.counts``."""


@dataclass(frozen=True)
class Report:
    """What every format tells."""

    reported: Sequence[GradedFinding]
    checked: int = 0
    """How many entries and references were looked at."""
    counts: Counts = field(default_factory=dict)
    """What the catalog holds, when asked for."""
    colour: bool = False
    """Whether the reader is a terminal that shows colours."""
    title: str = "Handbook check"
    """What was run, for formats with a heading."""
    catalog: str = invocation.CATALOG
    """The catalog's folder from where the person stands, for the commands that are named."""
    looked_at: str = ""
    """What was looked at, where one command looks at more than one thing."""

    @property
    def errors(self) -> int:
        """How many findings fail the check."""
        return sum(item.severity == "error" for item in self.reported)

    @property
    def warnings(self) -> int:
        """How many findings fail the check only under ``--strict``."""
        return sum(item.severity == "warning" for item in self.reported)

    @property
    def notices(self) -> int:
        """How many findings are only told."""
        return len(self.reported) - self.errors - self.warnings

    @property
    def has_internal_error(self) -> bool:
        """Whether a rule itself failed, so that the check is not complete."""
        return any(item.finding.rule == INTERNAL_ERROR for item in self.reported)

    @property
    def closing(self) -> str:
        """One line that sums up."""
        counts = ((self.errors, "error"), (self.warnings, "warning"), (self.notices, "notice"))
        found = " and ".join(counted(n, word) for n, word in counts if n)
        looked_at = f" ({self.looked_at})" if self.looked_at else ""
        return f"{found or 'no findings'} in {counted(self.checked, 'entry', 'entries')}{looked_at}"


def helping(report: Report, item: GradedFinding) -> str:
    """What to write instead, for people: commands as they are typed here."""
    return visible(invocation.typed(item.finding.help, report.catalog))


def render(report: Report, format: str) -> str:
    """``report`` in one of ``FORMATS``, ending with a line break."""
    text: str = importlib.import_module(f".{format}", __name__).render(report)
    return text


def visible(text: str) -> str:
    """``text`` with control, direction and unprintable characters written as escapes.

    File names and quoted values come from whoever wrote the catalog; none may
    steer the terminal that shows them.
    """
    if text.isprintable():
        return text
    return "".join(
        c if c.isprintable() else c.encode("unicode_escape", "backslashreplace").decode("ascii")
        for c in text
    )
