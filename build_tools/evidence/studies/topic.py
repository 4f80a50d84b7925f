"""The samples that bear on one question's part and outcome, found by key and by the pair they compare."""

from __future__ import annotations

from collections import defaultdict
from functools import cached_property
from itertools import combinations

from .samples import Sample


class Samples(tuple[Sample, ...]):
    """Samples in the order of their keys. What every pair of a large network asks of them is worked out once."""

    @cached_property
    def by_key(self) -> dict[str, Sample]:
        """Key -> sample."""
        return {sample.key: sample for sample in self}

    @cached_property
    def of_pair(self) -> dict[frozenset[str], set[str]]:
        """Pair of treatments -> keys of the samples that are pooled on it."""
        found: dict[frozenset[str], set[str]] = defaultdict(set)
        for sample in self:
            for pair in combinations(sample.block.treatments if sample.block else (), 2):
                found[frozenset(pair)].add(sample.key)
        return dict(found)

    @cached_property
    def rest_on_correlations(self) -> bool:
        """Whether an assumed correlation entered anywhere."""
        return any(
            len(sample.pooled) > 1 or any(source.measured.imputed for source in sample.pooled)
            for sample in self
        )
