"""Contrasts that a paper prints with a test or an interval, as log ratios, and a block of those of one sample.

Contrasts that share an arm are taken to correlate by one half, which is exact
when all arms vary and correlate alike.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import log, sqrt
from typing import NamedTuple

import numpy as np

from ..catalog.entries import Contrast, Result, Study, Value
from .arm_means import CHANGES, Unusable, people, refuse_kind
from .effects.estimate import Estimate
from .effects.ratio import growth_factor, log_ratio_from_ci, log_ratio_from_difference
from .effects.spread import df_independent, df_paired, se_from_ci, se_from_p, se_from_t
from .network_blocks import Block

#: How a standard error is called that rests on a bound.
BOUND = "taken back from a bound on p, so wider than it may be"


class Edge(NamedTuple):
    """A contrast of two treatments: log ratio of ``a`` to ``b``."""

    a: str
    b: str
    estimate: Estimate
    df: float


def edges_of(study: Study, result: Result, treatments: Mapping[str, str], outcome: str) -> tuple[list[Edge], str, str]:
    """The contrasts of a result whose spread can be had, why others' cannot, and how it was."""
    edges: dict[frozenset[str], Edge] = {}
    ways: dict[str, None] = {}
    reason = ""
    for contrast in result.contrasts:
        a, b = treatments.get(contrast.of), treatments.get(contrast.against)
        if contrast.of_part or a is None or b is None or a == b:
            continue
        try:
            df = degrees_of_freedom(study, result, contrast)
            estimate, way = contrast_log_ratio(result, contrast, df, outcome, study.same_people)
            # Of several contrasts of the same two exercises the first counts.
            if frozenset((a, b)) not in edges:
                edges[frozenset((a, b))], ways[way] = Edge(a, b, estimate, df), None
        except Unusable as why:
            reason = str(why)
    return list(edges.values()), reason, " and ".join(ways)


def degrees_of_freedom(study: Study, result: Result, contrast: Contrast) -> float:
    """Of a contrast's test: people - 1 within people, people - 2 between groups."""
    of, against = (people(study, arm, result.values.get(arm)) for arm in (contrast.of, contrast.against))
    if of is None or against is None:
        raise Unusable("group sizes were not read")
    return df_paired(min(of, against)) if study.same_people else df_independent(of, against)


def contrast_log_ratio(result: Result, contrast: Contrast, df: float, outcome: str, paired: bool = False) -> tuple[Estimate, str]:
    """Log ratio of a contrast, its spread taken back from what the paper prints of it, and how.

    ``paired`` when the same people did both sides, so that ``df`` + 1 people have a difference each.
    """
    ratio = contrast.ratio
    if ratio and ratio.ci95:
        return log_ratio_from_ci(ratio.value, ratio.ci95[0], ratio.ci95[1], df), "from the printed interval of the ratio"
    if ratio:
        y = log(ratio.value)
        se, how = _se(y, contrast, df)
        return Estimate(y, se**2), how
    of, against = (_amount(result.values.get(arm), outcome) for arm in (contrast.of, contrast.against))
    printed = _se_of_difference(result, contrast, df, outcome, paired)
    se, how = (printed, "from the printed spread of the difference") if printed is not None else _se(of - against, contrast, df)
    return log_ratio_from_difference(of, against, se), how


def _amount(value: Value | None, outcome: str) -> float:
    """The number of an arm of which ratios are taken: a mean, or a growth factor."""
    if value is None:
        raise Unusable("no spread reported")
    refuse_kind(value, outcome)
    if value.change_percent is not None:
        return growth_factor(value.change_percent)
    if value.mean is None:
        raise Unusable("no spread reported")
    return value.mean


def _se_of_difference(result: Result, contrast: Contrast, df: float, outcome: str, paired: bool) -> float | None:
    """Standard error printed for the difference of two amounts, in their unit; ``None`` when there is none."""
    difference = contrast.difference
    # Growth factors differ by a hundredth of what changes in per cent of the value before differ by.
    unit, scale = ("%", 100) if outcome in CHANGES else (result.unit, 1)
    if difference is None or difference.unit != unit:
        return None
    if difference.se is not None:
        return difference.se / scale
    if difference.ci95 is not None:
        return se_from_ci(difference.ci95[0], difference.ci95[1], df) / scale
    if difference.sd is not None and paired:
        return difference.sd / sqrt(df + 1) / scale
    return None


def _se(difference: float, contrast: Contrast, df: float) -> tuple[float, str]:
    if difference == 0:
        raise Unusable("two equal numbers with a test have no spread to take back")
    if contrast.t:
        return se_from_t(difference, contrast.t), "taken back from t"
    if contrast.p is not None and contrast.p < 1:
        return se_from_p(difference, contrast.p, df), "taken back from the exact p value"
    if contrast.p_below is not None and contrast.p_below < 1:
        return se_from_p(difference, contrast.p_below, df, "below"), BOUND
    tested = contrast.p_above or contrast.p or contrast.p_below
    raise Unusable("its p value does not say how wide the spread is" if tested else "no spread reported")


def from_edges(key: str, edges: list[Edge]) -> Block:
    """A block over the treatments that the most edges connect, along a tree of them."""
    # In the order of the paper, so that no exercise's name decides which contrasts make the tree.
    trees = [_tree(edges, start) for start in dict.fromkeys(t for e in edges for t in (e.a, e.b))]
    order, tree = max(trees, key=lambda found: len(found[0]))
    signs = np.zeros((len(tree), len(order)))
    for row, edge in enumerate(tree):
        signs[row, order.index(edge.a)], signs[row, order.index(edge.b)] = 1, -1
    se = np.array([edge.estimate.se for edge in tree])
    s = (signs @ signs.T / 2) * np.outer(se, se)
    # signs[:, 1:] is square: baseline contrasts are the solution of "edges = signs x contrasts".
    path = np.linalg.inv(signs[:, 1:])
    y, v = path @ np.array([edge.estimate.y for edge in tree]), path @ s @ path.T
    return Block(key, tuple(order), y, (v + v.T) / 2, min(edge.df for edge in tree))


def _tree(edges: list[Edge], start: str) -> tuple[list[str], list[Edge]]:
    """Treatments reached from ``start``, and one edge for each step."""
    order, tree = [start], []
    for here in order:
        for edge in edges:
            there = {edge.a: edge.b, edge.b: edge.a}.get(here)
            if there and there not in order:
                order.append(there)
                tree.append(edge)
    return order, tree
