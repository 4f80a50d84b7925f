"""Contrasts that a paper prints with a test or an interval, as log ratios, and a block of those of one sample.

Contrasts that share an arm are taken to correlate by one half, which is exact
when all arms vary and correlate alike. All printed contrasts count, by least
squares, so that their order cannot matter.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import log, sqrt
from typing import NamedTuple

import numpy as np

from ...catalog.entries import Contrast, Difference
from ..effects.estimate import Effect
from ..effects.ratio import log_ratio_from_ci, log_ratio_from_difference
from ..effects.spread import df_independent, df_paired, se_from_ci, se_from_p, se_from_t
from ..model.blocks import Block
from . import study_order
from .arm_means import CHANGES, Unusable, factor, refuse_kind, refuse_near_zero
from .reading import Reading


class Edge(NamedTuple):
    """A contrast of two treatments: log ratio of ``a`` to ``b``."""

    a: str
    b: str
    estimate: Effect
    df: float

    def turned(self) -> Edge:
        """The same contrast of ``b`` to ``a``."""
        return self._replace(a=self.b, b=self.a, estimate=Effect(-self.estimate.y, self.estimate.v))


def edges_of(reading: Reading, treatments: Mapping[str, str]) -> tuple[list[Edge], str, str]:
    """The contrasts of a result whose spread can be had, why others' cannot, and how it was."""
    edges: list[Edge] = []
    ways: dict[str, None] = {}
    reason = ""
    for contrast in study_order.contrasts(reading.result):
        a, b = treatments.get(contrast.of), treatments.get(contrast.against)
        if contrast.of_part or a is None or b is None or a == b:
            continue
        try:
            df = degrees_of_freedom(reading, contrast)
            estimate, way = contrast_log_ratio(reading, contrast, df)
            edges.append(Edge(a, b, estimate, df))
            ways[way] = None
        except Unusable as why:
            reason = str(why)
    return edges, reason, " and ".join(ways)


def degrees_of_freedom(reading: Reading, contrast: Contrast) -> float:
    """Of a contrast's test: people - 1 within people, people - 2 between groups."""
    of, against = (reading.people(arm) for arm in (contrast.of, contrast.against))
    if of is None or against is None:
        raise Unusable("group sizes were not read")
    return df_paired(min(of, against)) if reading.study.same_people else df_independent(of, against)


def contrast_log_ratio(reading: Reading, contrast: Contrast, df: float) -> tuple[Effect, str]:
    """Log ratio of a contrast, its spread taken back from what the paper prints of it, and how."""
    ratio = contrast.ratio
    if ratio and ratio.ci95:
        return log_ratio_from_ci(
            ratio.value, ratio.ci95[0], ratio.ci95[1], df
        ), "from the printed interval of the ratio"
    if ratio:
        y = log(ratio.value)
        se, how = _se(y, contrast, df)
        return Effect(y, se**2), how
    if (
        contrast.difference
        and contrast.difference.start
        and reading.outcome in CHANGES
        and contrast.of not in reading.result.values
    ):
        return _from_start(contrast, df, reading.study.same_people)
    of, against = (_amount(reading, arm) for arm in (contrast.of, contrast.against))
    printed = _se_of_difference(reading, contrast, df)
    se, how = (
        (printed, "from the printed spread of the difference")
        if printed is not None
        else _se(of - against, contrast, df)
    )
    return log_ratio_from_difference(of, against, se), how


def _amount(reading: Reading, arm: str) -> float:
    """The number of an arm of which ratios are taken: a mean, or a growth factor."""
    value = reading.result.values.get(arm)
    if value is None:
        raise Unusable("no spread reported")
    refuse_kind(value, reading.outcome)
    if reading.outcome in CHANGES:
        return factor(value)
    if value.mean is None:
        raise Unusable("no spread reported")
    refuse_near_zero(value, reading.people(arm) or reading.study.people.n)
    return value.mean


def _from_start(contrast: Contrast, df: float, paired: bool) -> tuple[Effect, str]:
    """Ratio of growth factors from a difference of changes and the mean before: 1 + difference / start.

    ``paired`` when the same people did both sides, so that ``df`` + 1 people have a difference each.

    The other side's own change is not known then; it would shrink the ratio by that share, a few hundredths of it.
    """
    assert contrast.difference and contrast.difference.start
    start, difference = contrast.difference.start, contrast.difference
    share = difference.value / start
    if (
        difference.se is None
        and difference.ci95 is None
        and not (difference.sd is not None and paired)
    ):
        se, how = _se(share, contrast, df)
    else:
        se, how = _printed_se(difference, df) / start, "from the printed spread of the difference"
    return log_ratio_from_difference(1 + share, 1, se), f"{how}, over the mean before training"


def _printed_se(difference: Difference, df: float) -> float:
    if difference.se is not None:
        return difference.se
    if difference.ci95 is not None:
        return se_from_ci(difference.ci95[0], difference.ci95[1], df)
    assert difference.sd is not None
    return difference.sd / sqrt(df + 1)


def _se_of_difference(reading: Reading, contrast: Contrast, df: float) -> float | None:
    """Standard error printed for the difference of two amounts, in their unit; ``None`` when there is none."""
    difference = contrast.difference
    # Growth factors differ by a hundredth of what changes in per cent of the value before differ by.
    unit, scale = ("%", 100) if reading.outcome in CHANGES else (reading.result.unit, 1)
    if difference is None or difference.unit != unit:
        return None
    if (
        difference.se is None
        and difference.ci95 is None
        and not (difference.sd is not None and reading.study.same_people)
    ):
        return None
    return _printed_se(difference, df) / scale


def _se(difference: float, contrast: Contrast, df: float) -> tuple[float, str]:
    if difference == 0:
        raise Unusable("two equal numbers with a test have no spread to take back")
    if contrast.t:
        return se_from_t(difference, contrast.t), "taken back from t"
    if contrast.p is not None and contrast.p < 1:
        return se_from_p(difference, contrast.p, df), "taken back from the exact p value"
    if contrast.p_below is not None:
        raise Unusable("only a bound on p is printed, which does not say how wide the spread is")
    tested = contrast.p_above or contrast.p
    raise Unusable(
        "its p value does not say how wide the spread is" if tested else "no spread reported"
    )


def from_edges(key: str, edges: list[Edge]) -> Block:
    """A block over the treatments that the most edges connect: least squares over all of them, weighted by their own spreads."""
    order = _most_connected(edges)
    used = [edge for edge in edges if edge.a in order]
    signs = np.zeros((len(used), len(order)))
    for row, edge in enumerate(used):
        signs[row, order.index(edge.a)], signs[row, order.index(edge.b)] = 1, -1
    se = np.array([edge.estimate.se for edge in used])
    # A Gram matrix times a rank-one matrix, element by element: never a negative variance, whatever the edges.
    s = (signs @ signs.T / 2) * np.outer(se, se)
    x = signs[:, 1:] / se[:, None]
    path = np.linalg.pinv(x) / se[None, :]
    y, v = path @ np.array([edge.estimate.y for edge in used]), path @ s @ path.T
    return Block(
        key,
        tuple(order),
        y,
        (v + v.T) / 2,
        min(edge.df for edge in used),
    )


def _most_connected(edges: list[Edge]) -> list[str]:
    """The treatments of the largest part that hangs together, sorted; of equals the first by name."""
    parts: list[set[str]] = []
    for edge in edges:
        touching = [part for part in parts if {edge.a, edge.b} & part]
        parts = [part for part in parts if part not in touching] + [
            {edge.a, edge.b}.union(*touching)
        ]
    return min((sorted(part) for part in parts), key=lambda part: (-len(part), part))
