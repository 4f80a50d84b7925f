"""A block from arms that print a spread each, with the covariance of those that the same people did.

Where a paired test is printed too, the correlation of two arms is taken back from
it: an imputed one can be far off, and moves a standard error more than anything else.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import sqrt
from typing import NamedTuple

import numpy as np

from ..effects.ratio import LogMean, averaging, contrasts, covariance, exchangeable
from ..effects.spread import t_from_p
from ..model.blocks import Block
from . import study_order as ordering
from .arm_means import Unusable
from .printed_contrasts import BOUND, contrast_log_ratio, degrees_of_freedom
from .reading import Reading


class Alike(NamedTuple):
    """How alike the arms of one result are."""

    correlations: np.ndarray
    """(k, k)"""
    taken_back: int
    """How many pairs' correlations were taken back from a printed paired test."""
    bounded: bool
    """Whether a bound on p, not the handbook's convention, says how alike some pair is at least."""


def correlations(reading: Reading, arms: Mapping[str, LogMean]) -> Alike:
    """How alike ``arms`` (arm to log mean) of the same people are, in their order.

    The others are the handbook's, moved as far as a printed bound asks: "p < 0.05" of two arms
    says that they are at least so much alike, "no difference" that they are at most so much alike.
    A correlation outside [0, 1) is not believed: the test was then of something else (several
    comparisons, another model).
    """
    ids = list(arms)
    imputed = exchangeable(len(ids), reading.correlation("arms"))
    found, pairs, bounded = imputed.copy(), set(), False
    for contrast in ordering.contrasts(reading.result) if reading.study.same_people else ():
        if (
            contrast.of_part
            or contrast.of == contrast.against
            or not {contrast.of, contrast.against} <= set(ids)
        ):
            continue
        i, j = ids.index(contrast.of), ids.index(contrast.against)
        a, b = arms[contrast.of], arms[contrast.against]
        try:
            df = degrees_of_freedom(reading, contrast)
            estimate, how = contrast_log_ratio(reading, contrast, df)
            known = how != BOUND
            # A bound holds for what is told, which is corrected for the small sample.
            r = _alike(a, b, estimate.v if known else estimate.v * ((a.y - b.y) / estimate.y) ** 2)
        except Unusable:
            if not (contrast.tested and contrast.favours == "neither"):
                continue
            # The level at which no difference was found, where the paper names no other.
            least = abs(a.y - b.y) / t_from_p(contrast.p_above or 0.05, df)
            r, known = min(float(imputed[i, j]), _alike(a, b, least**2)), False
        significant = not known and contrast.favours != "neither"
        r = max(float(imputed[i, j]), r) if significant else r
        if 0 <= r < 1:
            bounded |= significant and r > imputed[i, j]
            found[i, j] = found[j, i] = r
            if known:
                pairs.add(frozenset((i, j)))
    if np.linalg.eigvalsh(found)[0] < 1e-9:  # together they contradict each other
        return Alike(imputed, 0, False)
    return Alike(found, len(pairs), bounded)


def _alike(a: LogMean, b: LogMean, variance: float) -> float:
    """The correlation at which the difference of two arms has a variance."""
    return (a.c + b.c - variance) / (2 * sqrt(a.c * b.c))


def from_arms(
    key: str,
    reading: Reading,
    arms: Mapping[str, LogMean],
    treatments: Mapping[str, str],
    alike: Alike,
) -> Block:
    """The block of a result's arms (arm to log mean), their correlations counting only for the same people."""
    ids = list(arms)
    order = list(dict.fromkeys(treatments[arm] for arm in ids))
    y = np.array([arms[arm].y for arm in ids])
    s = covariance([arms[arm].c for arm in ids], alike.correlations, reading.study.same_people)
    # Several arms of one exercise (versions of it) stand for it with their average.
    groups = averaging(
        [[n for n, arm in enumerate(ids) if treatments[arm] == t] for t in order], len(ids)
    )
    y, v = contrasts(groups @ y, groups @ s @ groups.T)
    sizes = [reading.people(arm) or 0 for arm in ids]
    df = min(sizes) - 1 if reading.study.same_people else sum(sizes) - len(sizes)
    # Of two, the interval then ends at no difference by construction; of more, it does so for some pair only.
    return Block(key, tuple(order), y, v, df, bounded=alike.bounded and len(order) == 2)
