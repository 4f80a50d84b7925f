"""Numbers as committed files print them: few enough digits that no machine's last one shows.

A ratio keeps three significant digits (1.06, 0.832), which is a per cent's tenth around 1;
a P-score two decimals; tau² two significant digits, and 0 below a millionth (a spread of
0.1 % between studies); I² whole per cent. Every number is first cut to ten digits, so that
noise around a half cannot send it either way, and a zero never has a sign.
"""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal

_NOISE_FREE = 10
_NO_TAU2 = 1e-6


def ratio(x: float) -> Decimal:
    """Three significant digits."""
    return _significant(x, 3)


def tau2(x: float) -> Decimal:
    """Two significant digits; 0 below a millionth, where only rounding is left."""
    return _significant(x, 2) if x >= _NO_TAU2 else Decimal(0)


def p_score(x: float) -> Decimal:
    """Two decimals."""
    return _places(x, 2)


def i2(x: float) -> Decimal:
    """Whole per cent."""
    return _places(x, 0)


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
