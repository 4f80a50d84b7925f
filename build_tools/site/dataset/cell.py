"""Tables as CSV after RFC 4180, which spreadsheets open without running anything in them."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

#: Stands between several values in one cell; no id and no name of the catalog holds it.
BETWEEN = " | "
#: A spreadsheet takes a text that begins so for a formula (the CSV injection of OWASP), or drops the mark and then does.
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")

Value = str | float | bool | None | Sequence[str]


def written(columns: Iterable[str], rows: Iterable[Sequence[Value]]) -> bytes:
    """A head and its rows, lines ended by CR LF, in UTF-8."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([cell(name) for name in columns])
    writer.writerows([cell(value) for value in row] for row in rows)
    return out.getvalue().encode()


def cell(value: Value) -> str:
    """One cell. A text that a spreadsheet could take for a formula gets an apostrophe before it; numbers never do."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (int, float)):
        return f"{value:.15g}"
    text = value if isinstance(value, str) else BETWEEN.join(value)
    return f"'{text}" if text.startswith(_FORMULA) else text
