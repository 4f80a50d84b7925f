"""Two parts within one exercise: samples that measured both in the same repetitions."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from dataclasses import replace
from functools import partial

import numpy as np

from ...catalog.entries import Contrast, Study
from ..effects.ratio import log_ratio
from ..errors import EvidenceError
from ..model.blocks import Block
from .arm_means import Unusable, arm_log_mean
from .contrasts import alike
from .measurement import ResultBlock, unpooled, weighable
from .printed_contrasts import contrast_log_ratio
from .reading import Reading
from .samples import Assembly, Bearing, Sample, combine


def samples(
    assembly: Assembly,
    exercise: str,
    first: str,
    second: str,
    outcome: str,
    dimension: str | None = None,
) -> list[Sample]:
    """Samples that compare ``first`` with ``second`` in ``exercise`` by one dimension, each with its measurements combined."""
    groups: dict[str, dict[str, list[Bearing]]] = defaultdict(dict)
    for key, arm in assembly.index.arms_of.get(exercise, ()):
        study = assembly.studies[key]
        found = [
            measured
            for measured in _measured(assembly, key, study, arm, first, second, outcome)
            if assembly.dimension(study.results[measured.result]) == dimension
        ]
        # Two groups that did the same exercise are different people; two limbs of one person are not.
        people = "all" if assembly.studies[key].same_people else arm
        groups[assembly.sample_of[key]].setdefault(people, []).extend(
            Bearing(key, measured, "alone") for measured in found
        )
    told = {
        key: [sources for sources in of.values() if sources] for key, of in sorted(groups.items())
    }
    return [_sample(assembly, key, sources) for key, sources in told.items() if sources]


def _sample(assembly: Assembly, key: str, groups: list[list[Bearing]]) -> Sample:
    """One sample of several groups of people, each with its sources."""
    pooled = [[source for source in sources if source.measured.block] for sources in groups]
    blocks = [
        combine(
            [source.measured.block for source in sources if source.measured.block],
            assembly.between_sites(sources),
        )
        for sources in pooled
        if sources
    ]
    every, used = (tuple(source for sources in of for source in sources) for of in (groups, pooled))
    return Sample(key, every, combine(blocks, 0.0) if blocks else None, used)


def _measured(
    assembly: Assembly, key: str, study: Study, arm: str, first: str, second: str, outcome: str
) -> list[ResultBlock]:
    """What one arm says: by contrasts of the two parts, else by the spreads of both, else why by neither."""
    stated, both = [], []
    results = [
        (n, r)
        for n, r in assembly.index.results(key)
        if assembly.outcome(r) == outcome and r.relative_to is None
    ]
    for index, result in results:
        reading = Reading(study, result, outcome, assembly.settings)
        unpoolable = (
            "not weighed, as it is in doubt"
            if result.doubt
            else unpooled(outcome, assembly.pools(result))
        )
        for contrast in assembly.index.contrasts(key, index):
            if contrast.of == contrast.against == arm and {
                contrast.of_part,
                contrast.against_part,
            } == {first, second}:
                stated.append(
                    _weighed(
                        assembly,
                        key,
                        index,
                        unpoolable,
                        partial(_stated, key, reading, contrast, first, second),
                    )
                )
        for _, other in results:
            parts = result.parts == [first] and other.parts == [second]
            if (
                parts
                and not other.doubt
                and alike(result, other)
                and arm in result.values
                and arm in other.values
            ):
                both.append(
                    _weighed(
                        assembly,
                        key,
                        index,
                        unpoolable,
                        partial(
                            _both,
                            key,
                            arm,
                            (reading, first),
                            (replace(reading, result=other), second),
                        ),
                    )
                )
    return next(
        (found for found in (stated, both) if any(measured.block for measured in found)),
        stated or both,
    )


def _weighed(
    assembly: Assembly,
    key: str,
    index: int,
    unpoolable: str | None,
    made: Callable[[], tuple[Block, str, bool]],
) -> ResultBlock:
    if unpoolable:
        return ResultBlock(index, None, unpoolable)
    try:
        return weighable(index, *made())
    except Unusable as why:
        return ResultBlock(index, None, str(why))
    except EvidenceError as error:
        return assembly.refused(key, index, error)


def _stated(
    key: str, reading: Reading, contrast: Contrast, first: str, second: str
) -> tuple[Block, str, bool]:
    n = reading.people(contrast.of)
    if n is None:
        raise Unusable("group sizes were not read")
    if contrast.ratio is None:
        raise Unusable("no spread reported")
    estimate, how = contrast_log_ratio(reading, contrast, n - 1)
    y = estimate.y if contrast.of_part == first else -estimate.y
    # The block's baseline is its first treatment, so the contrast runs second against first.
    return Block(key, (first, second), np.array([-y]), np.array([[estimate.v]]), n - 1), how, False


def _both(
    key: str, arm: str, a: tuple[Reading, str], b: tuple[Reading, str]
) -> tuple[Block, str, bool]:
    means = [arm_log_mean(reading, arm) for reading, _ in (a, b)]
    y, v = log_ratio(means[1], means[0], a[0].correlation("parts"))
    sizes = [reading.people(arm) or 0 for reading, _ in (a, b)]
    return (
        Block(key, (a[1], b[1]), np.array([y]), np.array([[v]]), min(sizes) - 1),
        "from the spreads printed for each part",
        True,
    )
