"""Samples of people and what they say on one part and outcome, ready to be pooled.

Several measurements of one sample (sites along a muscle, phases of a lift, two
publications on the same people) are combined into one, so that measuring more
never counts as testing more people.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from ...catalog.entries import Result, Study
from ...catalog.finding import Finding
from ...catalog.load import Catalog
from ..errors import EvidenceError
from ..model.blocks import Block
from ..model.network import PairEffect, pair_of
from ..settings import Settings
from ..terms import Measured
from .contrasts import COVERS, Cover
from .measurement import ResultBlock, measure
from .printed_contrasts import Edge
from .reading import Reading
from .study_index import StudyIndex


class PooledTopic(NamedTuple):
    """What samples are pooled on: numbers of two topics never meet in one estimate."""

    part: str
    """The part, or the muscle where it was measured as one."""
    outcome: str
    relative_to: str | None
    measured: Measured = "part"
    dimension: str | None = None


@dataclass(frozen=True)
class Bearing:
    """One result of one study that bears on a part and outcome."""

    study: str
    measured: ResultBlock
    cover: Cover


@dataclass(frozen=True)
class Sample:
    """One sample of people on one part and outcome."""

    key: str
    """The study that gives the sample its name."""
    sources: tuple[Bearing, ...]
    block: Block | None
    """What is pooled of it; ``None`` when it can only be listed."""
    pooled: tuple[Bearing, ...]
    """The sources that ``block`` combines."""

    measured: Measured = "part"
    dimension: str | None = None
    """What is measured of growth: thickness, area, volume; ``None`` for other outcomes."""

    def tested(self, first: str, second: str) -> Edge | None:
        """The one printed contrast of a pair, where the sample has no other number on it; turned to ``first`` against ``second``."""
        edges = [
            edge
            for source in self.pooled
            for edge in source.measured.edges
            if {edge.a, edge.b} == {first, second}
        ]
        if len(self.pooled) != 1 or len(edges) != 1:
            return None
        [edge] = edges
        return edge if edge.a == first else edge.turned()

    def own(self, first: str, second: str) -> tuple[PairEffect, float | None] | None:
        """Its own log ratio of a pair with degrees of freedom: the paper's test of the two where it prints one."""
        if edge := self.tested(first, second):
            return PairEffect(edge.estimate.y, edge.estimate.se), edge.df
        if self.block is None or not {first, second} <= set(self.block.treatments):
            return None
        return pair_of(self.block, first, second), self.block.df


class Assembly:
    """Samples by part, outcome and ratio, and the numbers that could not be used."""

    def __init__(
        self,
        catalog: Catalog,
        settings: Settings,
        index: StudyIndex | None = None,
        earlier: Assembly | None = None,
    ) -> None:
        """``index`` is the catalog's. ``earlier`` has the same conventions and terms; what it measured of the very same studies is kept."""
        assert catalog.vocabulary is not None
        vocabulary = catalog.vocabulary.data
        self.settings = settings
        self._refused: dict[tuple[str, Finding], None] = {}
        """Study and finding, each once."""
        self._catalog = catalog
        self._measures = vocabulary.measures
        self.index = index or StudyIndex(catalog)
        self.studies, self.sample_of = self.index.studies, self.index.sample_of
        self._cache: dict[tuple[str, int], ResultBlock] = {}
        self._by_topic: dict[PooledTopic, list[tuple[str, int]]] = defaultdict(list)
        found: dict[str, set[str | None]] = defaultdict(set)
        for key in self.studies:
            for at, result in self.index.results(key):
                outcome, dimension = self.outcome(result), self.dimension(result)
                found[outcome].add(dimension)
                measured: Measured = "part" if len(result.parts) == 1 else "together"
                for part in result.parts:
                    topic = PooledTopic(part, outcome, result.relative_to, measured, dimension)
                    self._by_topic[topic].append((key, at))
        self._dimensions = {outcome: sorted(of, key=str) for outcome, of in found.items()}
        if earlier:
            same = {k for k, study in self.studies.items() if earlier.studies.get(k) is study}
            self._cache |= {at: block for at, block in earlier._cache.items() if at[0] in same}
            self._refused |= {found: None for found in earlier._refused if found[0] in same}

    @property
    def trouble(self) -> list[Finding]:
        """The numbers that were asked for and are impossible."""
        return [found for _, found in self._refused]

    def measures_like(self, other: Assembly) -> bool:
        """Whether both measure each outcome in the same dimensions."""
        return self._dimensions == other._dimensions

    def result_block(self, key: str, index: int) -> ResultBlock:
        """A study's result over the exercises its arms did."""
        return self._measured(key, self.studies[key], index)

    def dimensions(self, outcome: str) -> list[str | None]:
        """The dimensions in which the catalog measures an outcome; ``[None]`` where it has none."""
        return self._dimensions.get(outcome, [None])

    def outcome(self, result: Result) -> str:
        """The outcome that a result's measure speaks for."""
        return self._measures[result.measure].outcome

    def pools(self, result: Result) -> bool:
        """Whether ratios can be taken of a result's values."""
        return self._measures[result.measure].pools

    def fields(self) -> list[tuple[str, str, str | None]]:
        """Every (part, outcome, relative_to) that some study compares exercises on, sorted."""
        found = set()
        for key, study in self.studies.items():
            if len(set(self.index.doing(key).values())) > 1:
                found |= {
                    (part, self.outcome(r), r.relative_to)
                    for r in study.results
                    for part in r.parts
                }
        return sorted(found, key=lambda topic: (topic[0], topic[1], topic[2] or ""))

    def samples(self, topic: PooledTopic) -> list[Sample]:
        """The samples that compare exercises on a topic, sorted by key."""
        # A whole muscle was measured as one, so there it is the part.
        own = topic._replace(measured="part") if topic.measured == "whole" else topic
        how = COVERS[own.measured]
        groups: dict[str, list[Bearing]] = defaultdict(list)
        for key, index in self._by_topic.get(own, ()):
            groups[self.sample_of[key]].append(Bearing(key, self.result_block(key, index), how))
        return [self._sample(key, sources, topic) for key, sources in sorted(groups.items())]

    def dimension(self, result: Result) -> str | None:
        """What a result's number is, for growth; measures whose conversion is declared count as areas."""
        found = self._measures[result.measure].dimension
        return "area" if found and self.settings.conversion(found) is not None else found

    def _measured(self, key: str, study: Study, index: int) -> ResultBlock:
        """The result over the exercises its arms did."""
        if (key, index) not in self._cache:
            result = study.results[index]
            try:
                reading = Reading(study, result, self.outcome(result), self.settings)
                found = measure(key, index, reading, self.index.doing(key), self.pools(result))
                self._cache[key, index] = self._converted(found, result)
            except EvidenceError as error:
                self._cache[key, index] = self.refused(key, index, error)
        return self._cache[key, index]

    def _converted(self, found: ResultBlock, result: Result) -> ResultBlock:
        """Growth of a thickness or a volume as that of an area, where the handbook declares how."""
        dimension = self._measures[result.measure].dimension
        exponent = self.settings.conversion(dimension) if dimension else None
        if exponent is None or found.block is None:
            return found
        block = replace(found.block, y=exponent * found.block.y, v=exponent**2 * found.block.v)
        return replace(found, block=block, edges=())

    def refused(self, key: str, index: int, error: EvidenceError) -> ResultBlock:
        """A result whose numbers are impossible: listed only, with a finding at its line."""
        found = Finding(
            "unusable-number",
            self._catalog.studies[key].spot("results", index),
            f"this result cannot be weighed: {error}",
            "compare it with the paper; leave out a value that the paper does not print",
        )
        self._refused.setdefault((key, found))
        return ResultBlock(index, None, "its numbers cannot be weighed", unfit=True)

    def _sample(self, key: str, sources: list[Bearing], topic: PooledTopic) -> Sample:
        usable = [s for s in sources if s.measured.block]
        by_treatments: dict[frozenset[str], list[Bearing]] = defaultdict(list)
        for source in usable:
            assert source.measured.block
            by_treatments[frozenset(source.measured.block.treatments)].append(source)
        widest = max(
            by_treatments,
            key=lambda treatments: (len(treatments), sorted(treatments)),
            default=frozenset(),
        )
        pooled = by_treatments[widest]
        blocks = [s.measured.block for s in pooled if s.measured.block]
        return Sample(
            key,
            tuple(sources),
            combine(blocks, self.between_sites(pooled)) if blocks else None,
            tuple(pooled),
            topic.measured,
            topic.dimension,
        )

    def between_sites(self, pooled: Sequence[Bearing]) -> float:
        """How alike several measurements of one sample are taken to be; of several measures, as much as any of them."""
        results = [self.studies[source.study].results[source.measured.result] for source in pooled]
        return max(
            self.settings.correlation("sites", self.outcome(result), result.measure)
            for result in results
        )


def combine(blocks: list[Block], correlation: float) -> Block:
    """Several measurements of one sample over the same treatments as one: their average.

    Two measurements are taken to correlate by ``correlation``, their covariance
    being that share of the mean of their own; at 1 the result is as wide as
    its parts are on average.
    """
    first = blocks[0]
    turned = [_like(block, first.treatments) for block in blocks]
    k = len(turned)
    y = np.sum([y for y, _ in turned], axis=0) / k
    v = np.sum([v for _, v in turned], axis=0) / k * (1 + correlation * (k - 1)) / k
    dfs = [block.df for block in blocks if block.df is not None]
    return Block(
        first.study,
        first.treatments,
        y,
        v,
        min(dfs) if dfs else None,
    )


def _like(block: Block, treatments: tuple[str, ...]) -> tuple[np.ndarray, np.ndarray]:
    """Contrasts and covariance of a block against the baseline and in the order of ``treatments``."""
    k = len(treatments)
    # Effects with the block's own baseline at zero; any other baseline is a linear map of them.
    place = np.zeros((k, k - 1))
    for column, treatment in enumerate(block.treatments[1:]):
        place[treatments.index(treatment), column] = 1
    to = np.hstack([-np.ones((k - 1, 1)), np.eye(k - 1)]) @ place
    return to @ block.y, to @ block.v @ to.T
