"""One result of one study as contrasts on the log ratio scale, with how their spread was had.

Arms with a spread of their own give a full block (``arm_blocks``). Where a paper
prints only means with a test, or a ratio with a test, each contrast's standard
error is taken back from that test (``printed_contrasts``).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import log

import numpy as np

from ..effects.ratio import LogMean
from ..effects.spread import critical
from ..errors import EvidenceError
from ..model.blocks import Block, check
from .arm_blocks import correlations, from_arms
from .arm_means import Unusable, arm_log_mean, rests_on_correlation
from .printed_contrasts import Edge, edges_of, from_edges
from .reading import Reading

#: Outcomes of which nothing is pooled: architecture answers no claim, and length is computed from joint angles.
LISTED = {"architecture", "length"}

#: A log ratio whose interval reaches beyond a millionfold either way says nothing, and its limits cannot be told.
_FARTHEST = log(1e6)


@dataclass(frozen=True)
class ResultBlock:
    """What one result says of the treatments its arms did, or why it can only be listed."""

    result: int
    block: Block | None
    how: str
    """How the spread was had; without a block, why there is none."""
    imputed: bool = False
    """Whether one of the handbook's correlations entered (the same people's arms, before and after)."""
    unfit: bool = False
    """Whether its numbers can be weighed in no way, not even with a spread borrowed from other studies."""
    edges: tuple[Edge, ...] = ()
    """The printed contrasts that the block was made of, where it was made of contrasts."""


def measure(
    key: str, index: int, reading: Reading, treatments: Mapping[str, str], pools: bool
) -> ResultBlock:
    """Result ``index`` of study ``key`` as a block over ``treatments`` (arm to treatment).

    Raises:
        EvidenceError: for numbers that contradict each other or have no ratio.
    """
    doubt = reading.result.doubt
    if why := (
        f"not weighed, as it is in doubt: {doubt.rstrip('.')}"
        if doubt
        else unpooled(reading.outcome, pools)
    ):
        return ResultBlock(index, None, why)
    if is_of_fractions(reading):
        raise EvidenceError(
            "all its changes and their spreads are below 1%, which looks like fractions of 1; a change of 0.08 is one of 8%"
        )
    arms, reason = _arms(reading, treatments)
    if len({treatments[arm] for arm in arms}) > 1:
        alike = correlations(reading, arms)
        taken_back = alike.taken_back
        changes = any(rests_on_correlation(reading, arm) for arm in arms)
        pairs = len(arms) * (len(arms) - 1) / 2
        return weighable(
            index,
            from_arms(key, reading, arms, treatments, alike),
            "from the spreads printed for each exercise"
            + (" and their paired test" if taken_back else ""),
            imputed=changes or (reading.study.same_people and taken_back < pairs),
        )
    edges, edge_reason, how = edges_of(reading, treatments)
    if edges:
        return replace(weighable(index, from_edges(key, edges), how), edges=tuple(edges))
    return ResultBlock(index, None, edge_reason or reason or "no spread reported")


def is_of_fractions(reading: Reading) -> bool:
    """Whether changes said to be in per cent look like fractions: all below 1, and so are their spreads, of which there are some."""
    changes = [v for v in reading.result.values.values() if v.change_percent is not None]
    spreads = [x for v in changes for x in (v.sd, v.se) if x is not None]
    sizes = [abs(v.change_percent or 0.0) for v in changes]
    return bool(spreads) and any(sizes) and all(x < 1 for x in (*sizes, *spreads))


def unpooled(outcome: str, pools: bool) -> str | None:
    """Why nothing of an outcome, or of a measure that does not pool, is ever pooled; ``None`` when it may be."""
    if outcome in LISTED:
        return "this outcome is listed only"
    return None if pools else "values of this measure are no amounts whose ratio could be taken"


def weighable(index: int, block: Block, how: str, imputed: bool = False) -> ResultBlock:
    """A result with its block, or without it when the block's intervals are too wide to say anything.

    Raises:
        EvidenceError: when no study could be weighed so.
    """
    check(block)
    half = critical(block.df) * np.sqrt(np.diag(block.v))
    if (np.abs(block.y) + half).max() > _FARTHEST:
        return ResultBlock(index, None, "its interval is too wide to say anything", unfit=True)
    return ResultBlock(index, block, how, imputed)


def _arms(reading: Reading, treatments: Mapping[str, str]) -> tuple[dict[str, LogMean], str]:
    """Log means of the arms that print a spread, and why others have none."""
    found, reason = {}, ""
    for arm in sorted(reading.result.values):
        if arm in treatments:
            try:
                found[arm] = arm_log_mean(reading, arm)
            except Unusable as why:
                reason = str(why)
    return found, reason
