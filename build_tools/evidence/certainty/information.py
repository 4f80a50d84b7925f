"""Optimal information size: how many people one adequately powered study would need."""

from __future__ import annotations

from functools import lru_cache

from .body import EvidenceBody

ALPHA = 0.05
POWER = 0.8
#: Difference, in standard deviations, that the study should be able to find. It is what GRADE's rule of thumb
#: of about 400 people in all amounts to at 80% power (Guyatt 2011, doi:10.1016/j.jclinepi.2011.01.012, from memory).
OIS_DIFFERENCE = 0.28


@lru_cache
def people_per_arm(d: float, alpha: float = ALPHA, power: float = POWER) -> float:
    """People in each of two separate groups: 2 (z_{1-alpha/2} + z_power)^2 / d^2."""
    from statistics import NormalDist  # here, because a plain check of the catalog never needs it

    z = NormalDist().inv_cdf
    return 2 * (z(1 - alpha / 2) + z(power)) ** 2 / d**2


def people_paired(d: float, r: float, alpha: float = ALPHA, power: float = POWER) -> float:
    """People who do both sides: (1 - r) of one arm of the parallel trial, for a within-person correlation r."""
    return (1 - r) * people_per_arm(d, alpha, power)


def information(body: EvidenceBody) -> float:
    """People as a share of those needed, each sample by its own design; 1 or more is enough."""
    return sum(
        sample.n
        / (
            people_paired(OIS_DIFFERENCE, sample.correlation)
            if sample.paired
            else 2 * people_per_arm(OIS_DIFFERENCE)
        )
        for sample in body.samples
    )
