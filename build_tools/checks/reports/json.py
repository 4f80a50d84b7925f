"""For programs: one JSON object whose shape is stable.

    {
      "version": 1,                      raised when a key changes its meaning or goes
      "checked": 42,                     entries and references looked at
      "errors": 1,
      "warnings": 0,
      "notices": 0,                      told, but fail nothing, not even under --strict
      "findings": [                      in the order of the files
        {"severity": "error",            "warning" or "notice"
         "rule": "unknown-key",          permanent id
         "file": "catalog/exercises/seated-row.yaml",
         "line": 3, "column": 1,         both from 1; columns count characters
         "message": "...", "help": "..."}
      ],
      "counts": {}                       table -> row -> column -> count, with --summary
    }

Keys may be added; readers ignore those they do not know.
"""

from __future__ import annotations

import json

from . import Report

VERSION = 1


def render(report: Report) -> str:
    """The report as one JSON object, ASCII only."""
    return (
        json.dumps(
            {
                "version": VERSION,
                "checked": report.checked,
                "errors": report.errors,
                "warnings": report.warnings,
                "notices": report.notices,
                "findings": [
                    {
                        "severity": severity,
                        "rule": finding.rule,
                        **finding.spot._asdict(),
                        "message": finding.message,
                        "help": finding.help,
                    }
                    for finding, severity in report.reported
                ],
                "counts": report.counts,
            },
            indent=2,
        )
        + "\n"
    )
