"""For GitHub Actions: workflow commands that become annotations at the line.

Syntax: GitHub's documentation, "Workflow commands for GitHub Actions". Escapes:
``toCommandValue``, ``escapeData`` and ``escapeProperty`` of the actions toolkit
(``packages/core/src/command.ts``). A step shows about ten annotations of each
level, so ``job_summary`` tells all of them once more.
"""

from __future__ import annotations

from . import Report, helping, visible
from .place import in_repository
from .text import tables


def render(report: Report) -> str:
    """One workflow command for each finding, then plain lines for readers of the log."""
    lines = []
    for item in report.reported:
        finding, severity = item
        spot = finding.spot
        file = visible(in_repository(spot.file))
        # The log shows the message alone, so the place stands in it too.
        message = f"{file}:{spot.line}:{spot.column}: {visible(finding.message)}\nhelp: {helping(report, item)}"
        lines.append(
            command(
                severity, message, file=file, line=spot.line, col=spot.column, title=finding.rule
            )
        )
    return "\n".join([*lines, *tables(report.counts), report.closing]) + "\n"


def command(name: str, message: str, /, **properties: str | int) -> str:
    """``::name key=value,key=value::message``, escaped."""
    shown = ",".join(f"{key}={_property(str(value))}" for key, value in properties.items())
    return f"::{name}{' ' if shown else ''}{shown}::{_data(message)}"


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
