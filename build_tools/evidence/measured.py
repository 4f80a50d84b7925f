"""One result of one study as contrasts on the log ratio scale, with how their spread was had.

Arms with a spread of their own give a full block with its covariance. Where a
paper prints only means with a test, or a ratio with a test, each contrast's
standard error is taken back from that test; contrasts that share an arm are
then taken to correlate by one half, which is exact when all arms vary and
correlate alike.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ..catalog.entries import Contrast, Result, Study, Value
from .conventions import Settings
from .effects.estimate import Estimate
from .effects.quartiles import from_quartiles
from .effects.ratio import (
    LogMean,
    averaging,
    contrasts,
    covariance,
    growth_factor,
    log_growth_from_percent,
    log_growth_from_pre_post,
    log_mean,
    log_ratio_from_ci,
    log_ratio_from_difference,
)
from .effects.spread import df_independent, df_paired, sd_from_ci, sd_from_se, se_from_ci, se_from_p, se_from_t
from .network_blocks import Block

#: Outcomes whose number is a change; a level after training says nothing of them.
CHANGES = {"growth", "strength"}

#: Outcomes of which nothing is pooled: they answer no claim.
LISTED = {"architecture"}


@dataclass(frozen=True)
class Measured:
    """What one result says of the treatments its arms did, or why it can only be listed."""

    result: int
    block: Block | None
    how: str
    imputed: bool = False
    """Whether the handbook's correlation of the same people's arms entered."""


class Unusable(Exception):
    """A value or contrast without a usable spread, and why, in plain words. It is listed, not pooled."""


def measure(key: str, study: Study, index: int, treatments: Mapping[str, str], outcome: str, pools: bool, settings: Settings) -> Measured:
    """Result ``index`` of ``study`` as a block over ``treatments`` (arm to treatment).

    Raises:
        EvidenceError: for numbers that contradict each other or have no ratio.
    """
    result = study.results[index]
    if outcome in LISTED:
        return Measured(index, None, "not pooled: this outcome is listed only")
    if not pools:
        return Measured(index, None, "not pooled: values of this measure are no amounts whose ratio could be taken")
    arms, reason = _arms(study, result, treatments, outcome, settings)
    if len({treatments[arm] for arm in arms}) > 1:
        return Measured(index, _from_arms(key, study, result, arms, treatments, settings), "from the spreads printed for each exercise",
                        imputed=study.same_people)
    edges, edge_reason, how = _edges(study, result, treatments, outcome)
    if edges:
        return Measured(index, _from_edges(key, edges), how)
    return Measured(index, None, edge_reason or reason or "no spread reported")


def _arms(study: Study, result: Result, treatments: Mapping[str, str], outcome: str, settings: Settings) -> tuple[dict[str, LogMean], str]:
    """Log means of the arms that print a spread, and why others have none."""
    found, reason = {}, ""
    for arm, value in result.values.items():
        if arm in treatments:
            try:
                found[arm] = arm_log_mean(study, arm, value, outcome, settings)
            except Unusable as why:
                reason = str(why)
    return found, reason


def arm_log_mean(study: Study, arm: str, value: Value, outcome: str, settings: Settings) -> LogMean:
    """Log of an arm's mean (activation) or of its growth factor (growth, strength)."""
    n = people(study, arm, value)
    if value.pre and value.post:
        if n is None:
            raise Unusable("group sizes were not read")
        sds = [_sd(moment, n) for moment in (value.pre, value.post)]
        return log_growth_from_pre_post(value.pre.mean, sds[0], value.post.mean, sds[1], n, settings.pre_post)
    if outcome in CHANGES and value.change_percent is None:
        raise Unusable("a change without the value before it has no ratio" if value.change is not None
                        else "a level after training is no change")
    if n is None:
        raise Unusable("group sizes were not read")
    if value.median is not None and value.quartiles:
        return log_mean(*from_quartiles(value.quartiles[0], value.median, value.quartiles[1], n), n)
    sd = _sd(value, n)
    if value.change_percent is not None:
        return log_growth_from_percent(value.change_percent, sd, n)
    if value.mean is None:
        raise Unusable("a change without the value before it has no ratio")
    return log_mean(value.mean, sd, n)


def people(study: Study, arm: str, value: Value | None = None) -> int | None:
    """How many people an arm's number rests on; ``None`` when only the whole study's number is known."""
    own = value.n if value and value.n else study.arms[arm].n
    return own or (study.people.n if study.same_people else None)


def _sd(spread: object, n: int) -> float:
    sd, se, ci = getattr(spread, "sd"), getattr(spread, "se"), getattr(spread, "ci95")  # noqa: B009 - Moment or Value
    if sd is not None:
        return sd
    if se is not None:
        return sd_from_se(se, n)
    if ci is not None:
        return sd_from_ci(ci[0], ci[1], n)
    raise Unusable("no spread reported")


def _from_arms(key: str, study: Study, result: Result, arms: Mapping[str, LogMean], treatments: Mapping[str, str],
               settings: Settings) -> Block:
    ids = list(arms)
    order = list(dict.fromkeys(treatments[arm] for arm in ids))
    y = np.array([arms[arm].y for arm in ids])
    s = covariance([arms[arm].c for arm in ids], settings.within_person, study.same_people)
    # Several arms of one exercise (versions of it) stand for it with their average.
    groups = averaging([[n for n, arm in enumerate(ids) if treatments[arm] == t] for t in order], len(ids))
    y, v = contrasts(groups @ y, groups @ s @ groups.T)
    sizes = [people(study, arm, result.values[arm]) or 0 for arm in ids]
    df = min(sizes) - 1 if study.same_people else sum(sizes) - len(sizes)
    return Block(key, tuple(order), y, v, df)


class _Edge(NamedTuple):
    """A contrast of two treatments: log ratio of ``a`` to ``b``."""

    a: str
    b: str
    estimate: Estimate
    df: float


def _edges(study: Study, result: Result, treatments: Mapping[str, str], outcome: str) -> tuple[list[_Edge], str, str]:
    edges: dict[frozenset[str], _Edge] = {}
    reason, how = "", ""
    for contrast in result.contrasts:
        a, b = treatments.get(contrast.of), treatments.get(contrast.against)
        if contrast.of_part or a is None or b is None or a == b:
            continue
        try:
            df = _df(study, result, contrast)
            estimate, way = contrast_log_ratio(result, contrast, df, outcome)
            edges.setdefault(frozenset((a, b)), _Edge(a, b, estimate, df))
            how = how or way
        except Unusable as why:
            reason = str(why)
    return list(edges.values()), reason, how


def _df(study: Study, result: Result, contrast: Contrast) -> float:
    sizes = [people(study, arm, result.values.get(arm)) for arm in (contrast.of, contrast.against)]
    if sizes[0] is None or sizes[1] is None:
        raise Unusable("group sizes were not read")
    return df_paired(min(sizes)) if study.same_people else df_independent(*sizes)


def contrast_log_ratio(result: Result, contrast: Contrast, df: float, outcome: str) -> tuple[Estimate, str]:
    """Log ratio of a contrast, its spread taken back from what the paper prints of it, and how."""
    ratio = contrast.ratio
    if ratio and ratio.ci95:
        return log_ratio_from_ci(ratio.value, *ratio.ci95, df), "from the printed interval of the ratio"
    if ratio:
        y = float(np.log(ratio.value))
        se, how = _se(y, contrast, df)
        return Estimate(y, se**2), how
    of, against = (_positive(result.values.get(arm), outcome) for arm in (contrast.of, contrast.against))
    difference = contrast.difference
    if difference and difference.unit == result.unit and (difference.se or difference.ci95) and outcome not in CHANGES:
        se = difference.se or se_from_ci(*difference.ci95, df)  # type: ignore[misc]
        return log_ratio_from_difference(of, against, se), "from the printed spread of the difference"
    se, how = _se(of - against, contrast, df)
    return log_ratio_from_difference(of, against, se), how


def _positive(value: Value | None, outcome: str) -> float:
    """The number of an arm of which ratios are taken."""
    if value is None:
        raise Unusable("no spread reported")
    if value.change_percent is not None:
        return growth_factor(value.change_percent)
    if outcome in CHANGES or value.mean is None:
        raise Unusable("no spread reported")
    return value.mean


def _se(difference: float, contrast: Contrast, df: float) -> tuple[float, str]:
    if difference == 0:
        raise Unusable("two equal numbers with a test have no spread to take back")
    if contrast.t is not None and contrast.t != 0:
        return se_from_t(abs(difference), abs(contrast.t)), "taken back from t"
    if contrast.p is not None and contrast.p < 1:
        return se_from_p(difference, contrast.p, df), "taken back from the exact p value"
    if contrast.p_below is not None:
        return se_from_p(difference, contrast.p_below, df, "below"), "taken back from a bound on p, so wider than it may be"
    raise Unusable("no spread reported")


def _from_edges(key: str, edges: list[_Edge]) -> Block:
    """A block over the treatments that the most edges connect, along a tree of them."""
    trees = [_tree(edges, start) for start in sorted({t for e in edges for t in (e.a, e.b)})]
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


def _tree(edges: list[_Edge], start: str) -> tuple[list[str], list[_Edge]]:
    """Treatments reached from ``start``, and one edge for each step."""
    order, tree = [start], []
    for here in order:
        for edge in edges:
            there = {edge.a: edge.b, edge.b: edge.a}.get(here)
            if there and there not in order:
                order.append(there)
                tree.append(edge)
    return order, tree
