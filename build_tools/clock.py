"""The day a check or a build speaks of."""

from __future__ import annotations

import os
from datetime import UTC, date, datetime


def today() -> date:
    """The day of ``SOURCE_DATE_EPOCH`` (UTC) when it is set, so that a build can be repeated; else the present day.

    Raises ``ValueError`` when the variable does not hold seconds since 1970.
    """
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    if not epoch:
        return date.today()
    try:
        return datetime.fromtimestamp(int(epoch), UTC).date()
    except (ValueError, OverflowError, OSError):
        raise ValueError(
            f"SOURCE_DATE_EPOCH is `{epoch}`; it should be whole seconds since 1970, e.g. 1767225600"
        ) from None


def months_after(day: date, months: int) -> date:
    """About the same day some months later, never beyond the 28th (every month has one)."""
    years, month = divmod(day.month - 1 + months, 12)
    return date(day.year + years, month + 1, min(day.day, 28))
