"""Numbers as committed files print them: few enough digits that no machine's last one shows.

A ratio keeps three significant digits (1.06, 0.832), which is a per cent's tenth around 1;
a chance two decimals; a per cent one. Every number is first cut to ten digits, so that
noise around a half cannot send it either way, and a zero never has a sign.
"""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal

_NOISE_FREE = 10


def ratio(x: float) -> Decimal:
    """Three significant digits."""
    return _significant(x, 3)


def chance(x: float) -> Decimal:
    """Two decimals."""
    return _places(x, 2)


def per_cent(x: float) -> Decimal:
    """One decimal."""
    return _places(x, 1)


def _significant(x: float, digits: int) -> Decimal:
    rounded = Context(prec=digits, rounding=ROUND_HALF_EVEN).plus(_clean(x))
    # Zeros at the end say that they were known: 1.10, not 1.1.
    return (
        rounded.quantize(Decimal(1).scaleb(rounded.adjusted() - digits + 1))
        if rounded
        else Decimal(0)
    )


def _places(x: float, places: int) -> Decimal:
    rounded = _clean(x).quantize(Decimal(1).scaleb(-places), ROUND_HALF_EVEN)
    return rounded if rounded else abs(rounded)


def _clean(x: float) -> Decimal:
    return Decimal(f"{x:.{_NOISE_FREE}g}")
