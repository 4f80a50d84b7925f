"""P-scores: how sure the network is, on average, that a treatment gives more than each other one.

Rücker & Schwarzer 2015, doi 10.1186/s12874-015-0060-8 (abstract seen: means of
one-sided p-values from estimates and standard errors, under normality). They depend on
which treatments are in the network and say nothing of how far apart these are or how
good the studies: hence a ranking always carries its league.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from ..model.network import League


@dataclass(frozen=True)
class Ranking:
    """Treatments from the most to the least, with the league that the order comes from."""

    league: League
    scores: dict[str, float]
    """P-score by treatment, 0 to 1, highest first; equal scores by id. Greater log ratios rank higher."""


def rank(league: League) -> Ranking:
    """P-scores of a league by the model's standard errors, before the small-sample rule, as published."""
    apart = ~np.eye(len(league.treatments), dtype=bool)
    z = np.divide(league.estimate, league.se, out=np.zeros_like(league.se), where=apart)
    scores = np.where(apart, ndtr(z), 0.0).sum(axis=1) / (len(league.treatments) - 1)
    order = sorted(
        zip(league.treatments, scores.tolist(), strict=True), key=lambda item: (-item[1], item[0])
    )
    return Ranking(league, dict(order))
