"""A block from arms that print a spread each, with the covariance of those that the same people did.

Where a paired test is printed too, the correlation of two arms is taken back from
it: an imputed one can be far off, and moves a standard error more than anything else.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from math import sqrt
from typing import Literal, NamedTuple

import numpy as np

from ...catalog.entries import Contrast
from ..effects.ratio import LogMean, averaging, contrasts, covariance, exchangeable
from ..effects.spread import t_from_p
from ..model.blocks import Block
from ..model.network import pair_of
from . import study_order
from .arm_means import Unusable
from .printed_contrasts import contrast_log_ratio, degrees_of_freedom
from .reading import Reading

#: p < x is strictly below x. The widest spread that keeps it there is this share of the one at p = x,
#: far enough from it that no last digit decides whether the interval leaves out no difference.
_STRICTLY = 1 - 1e-6


class Alike(NamedTuple):
    """How alike the arms of one result are."""

    correlations: np.ndarray
    """(k, k)"""
    taken_back: int
    """How many pairs' correlations were taken back from a printed paired test."""


def correlations(reading: Reading, arms: Mapping[str, LogMean]) -> Alike:
    """How alike ``arms`` (arm to log mean) of the same people are, in their order.

    The others are the handbook's, moved as far as a printed bound asks: "p < 0.05" of two arms
    says that they are at least so much alike, "no difference" that they are at most so much alike.
    A correlation outside [0, 1) is not believed: the test was then of something else (several
    comparisons, another model).
    """
    ids = list(arms)
    imputed = exchangeable(len(ids), reading.correlation("arms"))
    found, pairs = imputed.copy(), set()
    for contrast, i, j in _tested(reading, ids) if reading.study.same_people else ():
        a, b = arms[ids[i]], arms[ids[j]]
        printed = _printed(reading, contrast, a.y - b.y)
        if printed is None:
            continue
        r, own = _alike(a, b, printed.se**2), float(imputed[i, j])
        if printed.kind != "exact":
            r = max(own, r) if printed.kind == "at most" else min(own, r)
        if 0 <= r < 1:
            found[i, j] = found[j, i] = r
            if printed.kind == "exact":
                pairs.add(frozenset((i, j)))
    if np.linalg.eigvalsh(found)[0] < 1e-9:  # together they contradict each other
        return Alike(imputed, 0)
    return Alike(found, len(pairs))


class PrintedError(NamedTuple):
    """A standard error as far as a printed test says it."""

    se: float
    kind: Literal["exact", "at least", "at most"]


def _tested(reading: Reading, ids: list[str]) -> Iterator[tuple[Contrast, int, int]]:
    """The contrasts of two of the arms, with their places."""
    for contrast in study_order.contrasts(reading.result):
        two = contrast.of != contrast.against and {contrast.of, contrast.against} <= set(ids)
        if two and not contrast.of_part:
            yield contrast, ids.index(contrast.of), ids.index(contrast.against)


def _printed(reading: Reading, contrast: Contrast, y: float) -> PrintedError | None:
    """What a printed test says of the standard error of a log ratio ``y``; ``None`` when it says nothing."""
    try:
        df = degrees_of_freedom(reading, contrast)
    except Unusable:
        return None
    try:
        estimate, _ = contrast_log_ratio(reading, contrast, df)
        return PrintedError(estimate.se, "exact")
    except Unusable:
        if not contrast.tested or contrast.favours is None or y == 0:
            return None
    if contrast.favours == "neither":
        # The level at which no difference was found, where the paper names no other.
        return PrintedError(abs(y) / t_from_p(contrast.p_above or 0.05, df), "at least")
    # "p < 0.05" is strictly below: far enough that no last digit decides whether no difference is left out.
    return PrintedError(abs(y) / t_from_p(contrast.p_below or 0.05, df) * _STRICTLY, "at most")


def widened_to_tests(
    block: Block, reading: Reading, arms: Mapping[str, LogMean], treatments: Mapping[str, str]
) -> Block:
    """A block that is nowhere surer than a test its paper prints."""
    ids, most = list(arms), 1.0
    for contrast, i, j in _tested(reading, ids):
        a, b = treatments[ids[i]], treatments[ids[j]]
        printed = _printed(reading, contrast, arms[ids[i]].y - arms[ids[j]].y) if a != b else None
        if printed and printed.kind != "at most":
            most = max(most, printed.se / pair_of(block, a, b).se)
    return block if most <= 1 + 1e-9 else replace(block, v=block.v * most**2)


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
    block = Block(key, tuple(order), y, v, df)
    return widened_to_tests(block, reading, arms, treatments)
