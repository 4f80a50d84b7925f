"""The root of a function between two points where it has opposite signs."""

from __future__ import annotations

import sys
from collections.abc import Callable

_STEPS = 500


def bracketed_root(f: Callable[[float], float], low: float, high: float) -> float | None:
    """Where ``f`` crosses zero between ``low`` and ``high``, to the last digits of a float.

    Inverse quadratic interpolation where it is safe, halving elsewhere
    (Chandrupatla 1997, Advances in Engineering Software 28:145-149; from memory).
    ``None`` when ``f`` has the same sign at both ends or is not a number on the way.
    """
    a, b = low, high
    fa, fb = f(a), f(b)
    if fa == 0:
        return a
    if fb == 0:
        return b
    if not fa * fb < 0:  # also when either is not a number
        return None
    step = 0.5
    for _ in range(_STEPS):
        x = a + step * (b - a)
        fx = f(x)
        if fx != fx:
            return None
        if (fx > 0) == (fa > 0):
            c, fc = a, fa
        else:
            c, fc, b, fb = b, fb, a, fa
        a, fa = x, fx
        best, f_best = (a, fa) if abs(fa) < abs(fb) else (b, fb)
        narrowest = 2 * sys.float_info.epsilon * abs(best)
        if f_best == 0 or abs(b - a) <= 2 * narrowest:
            return best
        step = _next_step(a, fa, b, fb, c, fc)
        edge = narrowest / abs(b - a)
        step = min(1 - edge, max(edge, step))
    return None


def _next_step(a: float, fa: float, b: float, fb: float, c: float, fc: float) -> float:
    """How far to go from a towards b, as a share of the way."""
    xi, phi = (a - b) / (c - b), (fa - fb) / (fc - fb)
    if phi**2 < xi and (1 - phi) ** 2 < 1 - xi:
        return fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
    return 0.5
