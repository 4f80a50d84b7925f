"""For the summary page of a GitHub Actions run: every finding in one Markdown table."""

from __future__ import annotations

import re

from . import Report, helping, visible
from .place import in_repository

#: GitHub drops the summary of a step at 1 MiB; other commands of the step need room too.
MAX_BYTES = 512 * 1024


def render(report: Report) -> str:
    """Markdown for ``$GITHUB_STEP_SUMMARY``, cut with a note at ``MAX_BYTES``."""
    lines = [f"### {report.title}", "", f"{_escape(report.closing)}.", ""]
    if report.reported:
        lines += [
            "| Place | Rule | What is wrong | What to write instead |",
            "| --- | --- | --- | --- |",
        ]
    size = sum(len(line) + 1 for line in lines)
    for index, item in enumerate(report.reported):
        finding, severity = item
        spot = finding.spot
        place = f"{in_repository(spot.file)}:{spot.line}:{spot.column}"
        row = f"| {_escape(place)} | {severity} {_escape(finding.rule)} | {_escape(finding.message)} | {_escape(helping(report, item))} |"
        size += len(row.encode("utf-8")) + 1
        if size > MAX_BYTES:
            lines += ["", f"{len(report.reported) - index:,} more in the log of this step."]
            break
        lines.append(row)
    return "\n".join(lines) + "\n\n"


def _escape(text: str) -> str:
    """Plain text that stays plain text: no Markdown, no HTML, no mentions or links."""
    return (
        re.sub(r"[^\w\s.,:;?()/'-]", lambda found: f"&#{ord(found[0])};", visible(text))
        .replace("_", "&#95;")
        .replace("://", ":&#47;/")
    )
