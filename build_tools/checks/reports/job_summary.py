"""For the summary page of a GitHub Actions run: every finding in one Markdown table."""

from __future__ import annotations

import re

from . import Report, helping, visible
from .place import in_repository

#: GitHub drops the summary of a step at 1 MiB; other commands of the step need room too.
MAX_BYTES = 512 * 1024


def render(report: Report) -> str:
    """Markdown for ``$GITHUB_STEP_SUMMARY``, cut with a note at ``MAX_BYTES``."""
    lines = [f"### {report.title}", "", f"{escape(report.closing)}.", ""]
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
        row = f"| {escape(place)} | {severity} {escape(finding.rule)} | {escape(finding.message)} | {escape(helping(report, item))} |"
        size += len(row.encode("utf-8")) + 1
        if size > MAX_BYTES:
            lines += ["", f"{len(report.reported) - index:,} more in the log of this step."]
            break
        lines.append(row)
    return "\n".join(lines) + "\n\n"


def escape(text: str) -> str:
    """Plain text that stays plain text within a line of Markdown: no markup, no HTML, no links."""
    plain = re.sub(r"[^\w\s.,:;?()/'-]", lambda found: f"&#{ord(found[0])};", visible(text))
    plain = plain.replace("_", "&#95;").replace("://", ":&#47;/")
    # GitHub makes links of bare addresses that begin so (GFM 6.9, extended autolinks).
    return re.sub(r"\bwww\.", lambda found: f"{found[0][:-1]}&#46;", plain, flags=re.IGNORECASE)
