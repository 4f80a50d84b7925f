"""Standard deviations and standard errors from what papers print.

Formulae: Cochrane Handbook for Systematic Reviews of Interventions, sections
6.3, 6.5.2 and 23.2.7, unless another source is named. Degrees of freedom are
n1 + n2 - 2 for two groups and n - 1 for one group or one sample of pairs.
"""

from __future__ import annotations

import math
from typing import Literal

from scipy.special import ndtri, stdtrit

from ..errors import EvidenceError
from . import inputs

Bound = Literal["exact", "below", "above"]


def df_paired(n: float) -> float:
    """Degrees of freedom of a mean, or of a mean difference within n people."""
    return inputs.people(n) - 1


def df_independent(n1: float, n2: float) -> float:
    """Degrees of freedom of a mean difference between two groups, each with a spread of its own."""
    return inputs.people(n1) + inputs.people(n2) - 2


def critical(df: float | None, level: float = 0.95) -> float:
    """Half-width of a ``level`` interval in standard errors: t with ``df``, or normal when ``df`` is None."""
    if not 0 < level < 1:
        raise EvidenceError(f"{level:g} is no level of confidence: it must lie between 0 and 1")
    return t_from_p(1 - level, df)


def t_from_p(p: float, df: float | None, bound: Bound = "exact") -> float:
    """Size of t (of z when ``df`` is None) behind a two-sided p value.

    "p below x" is read as p = x: t is then at least this large, so a standard
    error got from it is too large rather than too small. "p above x" bounds
    the standard error from the wrong side and is refused.
    """
    if bound == "above":
        raise EvidenceError(f"p above {p:g} does not say how large the standard error is")
    if not 0 < p <= 1:
        raise EvidenceError(
            f"p = {p:g} is no p value: it must lie above 0 and at most at 1 (print p < x as a bound)"
        )
    return abs(float(ndtri(p / 2) if df is None else stdtrit(df, p / 2)))


def sd_from_se(se: float, n: float) -> float:
    """SD behind the standard error of a mean, or SD of differences behind that of a mean paired difference."""
    return inputs.sd(se) * math.sqrt(inputs.people(n))


def sd_from_ci(
    lower: float, upper: float, n: float, level: float = 0.95, form: Literal["t", "z"] = "t"
) -> float:
    """SD behind the interval of a mean, or SD of differences behind that of a mean paired difference.

    ``form="z"`` is for intervals known to be made with the normal quantile;
    in small samples it gives a larger SD.
    """
    return sd_from_se(se_from_ci(lower, upper, None if form == "z" else df_paired(n), level), n)


def se_from_ci(lower: float, upper: float, df: float | None, level: float = 0.95) -> float:
    """Standard error of whatever the interval is of; normal quantile when ``df`` is None."""
    return inputs.interval(lower, upper) / (2 * critical(df, level))


def se_from_t(difference: float, t: float) -> float:
    """Standard error of a difference from its t (or z); both have the same sign, or t comes without one."""
    if difference == 0 or t == 0:
        raise EvidenceError("no difference and t = 0: the standard error cannot be had from them")
    if t < 0 < difference:
        raise EvidenceError(f"t = {t:g} and a difference of {difference:g} point opposite ways")
    return inputs.sd(abs(difference / t))


def se_from_p(difference: float, p: float, df: float | None, bound: Bound = "exact") -> float:
    """Standard error of a difference from its two-sided p value; normal when ``df`` is None. Bounds: see ``t_from_p``."""
    t = t_from_p(p, df, bound)
    if difference == 0 or p == 1:
        raise EvidenceError(
            f"a difference of {difference:g} with p = {p:g}: the standard error cannot be had from them"
        )
    return se_from_t(difference, math.copysign(t, difference))


def within_person_correlation(sd1: float, sd2: float, sd_difference: float) -> float:
    """Within-person correlation implied by the two SDs and the SD of the differences."""
    r = (inputs.sd(sd1) ** 2 + inputs.sd(sd2) ** 2 - inputs.sd(sd_difference) ** 2) / (
        2 * sd1 * sd2
    )
    if not -1 <= r <= 1:
        raise EvidenceError(
            f"SDs of {sd1:g} and {sd2:g} cannot differ within people by an SD of {sd_difference:g}: that would be a correlation "
            f"of {r:.2f}; one of them may be a standard error, or t, p or the interval may come from another test"
        )
    return r
