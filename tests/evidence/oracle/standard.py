"""Standardised and raw mean differences.

Papers report these; the handbook pools ratios. Several variances of one estimate are published; each function names its
own. J corrects the small-sample bias of d (Hedges 1981,
doi:10.3102/10769986006002107). All differences are first minus second.
"""

from __future__ import annotations

import math
from typing import Literal, NamedTuple

from build_tools.evidence.effects import inputs
from build_tools.evidence.effects.estimate import Effect
from build_tools.evidence.effects.spread import df_independent, df_paired
from build_tools.evidence.errors import EvidenceError

Variance = Literal["large sample", "large sample of d", "unbiased"]


class Group(NamedTuple):
    """One group of people."""

    n: float
    mean: float
    sd: float


def sd_of_differences(sd1: float, sd2: float, r: float) -> float:
    """SD of differences (or changes) within people whose two values correlate by ``r``."""
    inputs.correlation(r)
    # Written so that equal SDs with r near 1 do not cancel: (s1 - s2)^2 + 2(1 - r) s1 s2.
    return inputs.sd(math.sqrt((inputs.sd(sd1) - inputs.sd(sd2)) ** 2 + 2 * (1 - r) * sd1 * sd2))


def hedges_j(df: float) -> float:
    """Small-sample correction of a standardised difference, exact."""
    inputs.people(df)
    return math.exp(math.lgamma(df / 2) - math.lgamma((df - 1) / 2)) * math.sqrt(2 / df)


def hedges_j_approximate(df: float) -> float:
    """The correction as most handbooks print it."""
    return 1 - 3 / (4 * inputs.people(df) - 1)


def pooled_sd(a: Group, b: Group) -> float:
    """SD within two independent groups."""
    df = df_independent(a.n, b.n)
    return math.sqrt(((a.n - 1) * inputs.sd(a.sd) ** 2 + (b.n - 1) * inputs.sd(b.sd) ** 2) / df)


def mean_difference(a: Group, b: Group) -> Effect:
    """Difference of two independent means; for a common spread give both groups the pooled SD."""
    return Effect(
        a.mean - b.mean,
        inputs.sd(a.sd) ** 2 / inputs.people(a.n) + inputs.sd(b.sd) ** 2 / inputs.people(b.n),
    )


def mean_difference_paired(a: Group, b: Group, r: float) -> Effect:
    """Difference of two means of the same people (Morris and DeShon 2002, doi:10.1037/1082-989x.7.1.105)."""
    return Effect(a.mean - b.mean, sd_of_differences(a.sd, b.sd, r) ** 2 / _pairs(a, b))


def cohen_d(a: Group, b: Group) -> Effect:
    """Uncorrected difference in pooled SDs; variance as in Borenstein (2009)."""
    return _d((a.mean - b.mean) / pooled_sd(a, b), a.n, b.n)


def cohen_d_from_t(t: float, n1: float, n2: float) -> Effect:
    """Uncorrected difference in pooled SDs behind the t of two independent groups."""
    return _d(t * math.sqrt(1 / inputs.people(n1) + 1 / inputs.people(n2)), n1, n2)


def _d(d: float, n1: float, n2: float) -> Effect:
    return Effect(d, 1 / n1 + 1 / n2 + d**2 / (2 * (n1 + n2)))


def hedges_g(d: float, n1: float, n2: float, variance: Variance = "large sample") -> Effect:
    """Corrected difference in pooled SDs, from the uncorrected one.

    ``variance``: Hedges (1982) eq. 8 with g; Borenstein (2009) eq. 12.17, J^2
    times that of d; or Hedges (1983) eq. 9.
    """
    df = df_independent(n1, n2)
    j = hedges_j(df)
    g = j * d
    if variance == "large sample of d":
        return Effect(g, j**2 * _d(d, n1, n2).v)
    if variance == "unbiased":
        return Effect(g, 1 / n1 + 1 / n2 + (1 - (df - 2) / (df * j**2)) * g**2)
    return Effect(g, _d(g, n1, n2).v)


def covariance_shared_control(d1: float, d2: float, n_control: float, n_all: float) -> float:
    """Covariance of two differences from one control group, in the SD within all ``n_all`` people (Gleser and Olkin 2009)."""
    return 1 / inputs.people(n_control) + d1 * d2 / (2 * inputs.people(n_all))


def hedges_g_unequal_spread(a: Group, b: Group) -> Effect:
    """Corrected difference in units of sqrt((sd1^2 + sd2^2) / 2); variance of Bonett (2008) with n - 1."""
    s2 = (inputs.sd(a.sd) ** 2 + inputs.sd(b.sd) ** 2) / 2
    g = hedges_j(df_independent(a.n, b.n)) * (a.mean - b.mean) / math.sqrt(s2)
    fourth = a.sd**4 / (a.n - 1) + b.sd**4 / (b.n - 1)
    return Effect(g, g**2 * fourth / (8 * s2**2) + (a.sd**2 / (a.n - 1) + b.sd**2 / (b.n - 1)) / s2)


def change_in_sds_of_change(a: Group, b: Group, r: float) -> Effect:
    """Corrected paired difference in SDs of the differences (Gibbons et al. 1993).

    Grows without bound as ``r`` nears 1, so it is never comparable with a
    difference in SDs between people.
    """
    n = _pairs(a, b)
    g = hedges_j(df_paired(n)) * (a.mean - b.mean) / sd_of_differences(a.sd, b.sd, r)
    return Effect(g, 1 / n + g**2 / (2 * n))


def change_in_sds_of_first(a: Group, b: Group, r: float) -> Effect:
    """Corrected paired difference in SDs of the first arm; variance of Becker (1988), which takes the SDs as equal."""
    n, g = _pairs(a, b), _in_first(a, b)
    return Effect(g, 2 * (1 - inputs.correlation(r)) / n + g**2 / (2 * n))


def change_in_sds_of_first_unequal_spread(a: Group, b: Group, r: float) -> Effect:
    """The same estimate; variance of Bonett (2008) with n - 1, for SDs that differ."""
    df, g = df_paired(_pairs(a, b)), _in_first(a, b)
    return Effect(g, sd_of_differences(a.sd, b.sd, r) ** 2 / (a.sd**2 * df) + g**2 / (2 * df))


def paired_d(a: Group, b: Group, r: float) -> Effect:
    """Uncorrected paired difference in units of sqrt((sd1^2 + sd2^2) / 2) (Cochrane Handbook 23.2.7)."""
    n = _pairs(a, b)
    d = (a.mean - b.mean) / math.sqrt((inputs.sd(a.sd) ** 2 + inputs.sd(b.sd) ** 2) / 2)
    return Effect(d, (1 / n + d**2 / (2 * n)) * 2 * (1 - inputs.correlation(r)))


def _in_first(a: Group, b: Group) -> float:
    return hedges_j(df_paired(a.n)) * (a.mean - b.mean) / inputs.sd(a.sd)


def _pairs(a: Group, b: Group) -> float:
    if a.n != b.n:
        raise EvidenceError(f"{a.n:g} and {b.n:g} people are no pairs: count those who did both")
    return inputs.people(a.n)
