"""Two parts within one exercise: samples that measured both in the same repetitions."""

from __future__ import annotations

import numpy as np

from ..catalog.entries import Contrast, Result, Study
from .assemble import Assembly, Sample, Source, combine
from .conventions import Settings
from .effects.ratio import log_ratio
from .measured import Measured, Unusable, arm_log_mean, contrast_log_ratio, people
from .network_blocks import Block


def samples(assembly: Assembly, exercise: str, first: str, second: str, outcome: str) -> list[Sample]:
    """Samples that compare ``first`` with ``second`` in ``exercise``; one a study, its measurements combined."""
    found = []
    for key, study in assembly.studies.items():
        sources = [Source(key, measured, "alone") for arm_id, arm in study.arms.items() if arm.exercise == exercise
                   for measured in _measured(assembly, key, study, arm_id, first, second, outcome)]
        blocks = [source.measured.block for source in sources if source.measured.block]
        if sources:
            found.append(Sample(key, tuple(sources), combine(blocks, assembly.settings.between_measurements) if blocks else None,
                                tuple(s for s in sources if s.measured.block)))
    return found


def _measured(assembly: Assembly, key: str, study: Study, arm: str, first: str, second: str, outcome: str) -> list[Measured]:
    stated, results = [], [(n, r) for n, r in enumerate(study.results) if assembly.outcome(r) == outcome and r.relative_to is None]
    for index, result in results:
        for contrast in result.contrasts:
            if contrast.of == contrast.against == arm and {contrast.of_part, contrast.against_part} == {first, second}:
                stated.append(_stated(assembly, key, study, index, result, contrast, first, second, outcome))
    return stated or [
        Measured(index, _block(key, study, arm, (a, first), (b, second), outcome, assembly.settings),
                 "from the spreads printed for each part", imputed=True)
        for index, a in results for _, b in results
        if a.parts == [first] and b.parts == [second] and (a.measure, a.unit, a.site) == (b.measure, b.unit, b.site)
        and assembly.pools(a) and _spreads(study, arm, a, b, outcome, assembly.settings)]


def _stated(assembly: Assembly, key: str, study: Study, index: int, result: Result, contrast: Contrast, first: str, second: str,
            outcome: str) -> Measured:
    n = people(study, contrast.of)
    if n is None or not assembly.pools(result) or contrast.ratio is None:
        return Measured(index, None, "no spread reported")
    try:
        estimate, how = contrast_log_ratio(result, contrast, n - 1, outcome)
    except Unusable as why:
        return Measured(index, None, str(why))
    y = estimate.y if contrast.of_part == first else -estimate.y
    # The block's baseline is its first treatment, so the contrast runs second against first.
    return Measured(index, Block(key, (first, second), np.array([-y]), np.array([[estimate.v]]), n - 1), how)


def _spreads(study: Study, arm: str, a: Result, b: Result, outcome: str, settings: Settings) -> bool:
    try:
        for result in (a, b):
            if arm not in result.values:
                return False
            arm_log_mean(study, arm, result.values[arm], outcome, settings)
    except Unusable:
        return False
    return True


def _block(key: str, study: Study, arm: str, a: tuple[Result, str], b: tuple[Result, str], outcome: str, settings: Settings) -> Block:
    means = [arm_log_mean(study, arm, result.values[arm], outcome, settings) for result, _ in (a, b)]
    y, v = log_ratio(means[1], means[0], settings.within_person)
    n = people(study, arm, a[0].values[arm])
    return Block(key, (a[1], b[1]), np.array([y]), np.array([[v]]), n - 1 if n else None)
