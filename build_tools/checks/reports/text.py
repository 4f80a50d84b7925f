"""For people: ``path:line:column: severity[rule]: what is wrong``, then what to write instead."""

from __future__ import annotations

from collections.abc import Iterator

from build_tools.checks.profile import Severity

from . import Counts, Report, helping, visible

_BOLD, _RED, _YELLOW, _CYAN = "1", "1;31", "1;33", "36"
_STYLES: dict[Severity, str] = {"error": _RED, "warning": _YELLOW, "notice": _CYAN}


def render(report: Report) -> str:
    """One finding after the other, then the counts (if any), then one line that sums up."""
    return "\n".join(_lines(report)) + "\n"


def _lines(report: Report) -> Iterator[str]:
    def paint(text: str, style: str) -> str:
        return f"\x1b[{style}m{text}\x1b[0m" if report.colour else text

    for item in report.reported:
        finding, severity = item
        spot = finding.spot
        place = paint(f"{visible(spot.file)}:{spot.line}:{spot.column}:", _BOLD)
        label = paint(f"{severity}[{finding.rule}]", _STYLES[severity])
        yield f"{place} {label}: {visible(finding.message)}"
        yield f"  {paint('help:', _CYAN)} {helping(report, item)}"
    yield from tables(report.counts)
    yield paint(report.closing, _RED if report.errors else _BOLD)


def tables(counts: Counts) -> Iterator[str]:
    """The counts as aligned plain tables, an empty line after each."""
    for title, rows in counts.items():
        columns = list(dict.fromkeys(column for row in rows.values() for column in row))
        width = max(map(len, (title, *rows)))
        yield title.ljust(width) + "".join(f"  {column}" for column in columns)
        for name, row in rows.items():
            yield name.ljust(width) + "".join(
                f"  {row.get(column, 0):>{len(column)},}" for column in columns
            )
        yield ""
