"""Answers every question that can be asked of a catalog under one set of conventions."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache, cached_property
from typing import NamedTuple

from ...catalog.load import Catalog
from ..certainty.rating import Override
from ..model.blocks import components
from ..model.network import single
from ..model.posterior import Array, Mixture
from ..model.reports import PairReport
from ..settings import Settings
from ..studies import within_exercise
from ..studies.arm_means import compared
from ..studies.contrasts import COVERS, Reports, StudyContrast
from ..studies.pair_reports import pair_report
from ..studies.samples import Assembly, PooledTopic
from ..studies.study_index import StudyIndex
from ..studies.topic import Samples
from ..studies.unit_spreads import UnitSpreads, printed
from ..terms import Question
from ..wording.names import Names
from ..wording.sentences import ComposedAnswer
from .comparison import Answers
from .component import Component, Connected
from .conclusions import Comparison, PartEvidence
from .weighing import Weighing, weigh_question

#: Of two dimensions of growth with equally many samples, the first is told.
_DIMENSIONS = ("volume", "area", "thickness", "mass", "girth")

_CALLED = {
    "before_after": "values before and after",
    "arms": "two exercises of the same people",
    "parts": "two parts of one muscle",
    "sites": "measurements of one sample",
}


class Earlier(NamedTuple):
    """The engine of a state before, which differs in studies of ``measured`` alone: muscles, each with an outcome."""

    engine: Engine
    measured: frozenset[tuple[str, str]]

    def covers(self, outcome: str, *parts: str) -> bool:
        """Whether what was known of these parts still is."""
        return not {(part.partition("/")[0], outcome) for part in parts} & self.measured


class Engine:
    """One catalog under one set of conventions. Everything is computed once, when asked for; what an earlier engine still knows is asked of it."""

    settings: Settings
    index: StudyIndex
    names: Names
    reports: Reports
    assembly: Assembly

    def __init__(
        self,
        catalog: Catalog,
        settings: Settings,
        earlier: Earlier | None = None,
        varied: Engine | None = None,
    ) -> None:
        """``varied`` is an engine of the same catalog; what does not hang on conventions is taken from it."""
        before = earlier.engine if earlier else None
        if before and before.settings != settings:
            earlier = before = None
        self.catalog, self.settings = catalog, settings
        if varied:
            self.index, self.names, self.reports = varied.index, varied.names, varied.reports
        else:
            self.index = StudyIndex(catalog, before.index if before else None)
            self.names, self.reports = Names(catalog), Reports(catalog, self.index)
        self.assembly = Assembly(catalog, settings, self.index, before.assembly if before else None)
        same = before and self.assembly.measures_like(before.assembly)
        self._earlier = earlier if same else None
        self._answers = Answers(catalog, settings, self.names)
        self._people = {key: compared(study) for key, study in self.index.studies.items()}
        self.samples = cache(self._samples)
        self._samples_of = cache(self._of_question)
        self.components = cache(self._components)
        self.weighing = cache(self._weighing)
        self._compared = cache(self._comparison)
        self._borrows_as_before = cache(self._borrows)

    @cached_property
    def spreads(self) -> UnitSpreads:
        """What printed spreads say of those that are missing."""
        return UnitSpreads(printed(self.assembly))

    @cached_property
    def variations(self) -> list[tuple[str, Engine]]:
        """The same catalog with each assumed correlation at either end of its range, and what was changed."""
        ends = {
            "lowest": "as little alike as in any data",
            "highest": "as much alike as in any data",
        }
        varied = [moved for moved in self.settings.variations() if moved.moved]
        before: Sequence[Earlier | None] = [None] * len(varied)
        if self._earlier:
            engines = self._earlier.engine.variations
            before = [Earlier(engine, self._earlier.measured) for _, engine in engines]
        return [
            (
                f"{_CALLED[moved.moved[0]]} {ends[moved.moved[1]]}",
                Engine(self.catalog, moved, earlier, varied=self),
            )
            for moved, earlier in zip(varied, before, strict=True)
            if moved.moved
        ]

    def forget_earlier(self) -> None:
        """Ask no engine of a state before any more, so that it can go."""
        self._earlier = None
        for _, engine in self.__dict__.get("variations", ()):
            engine.forget_earlier()

    def field(self, part: str, outcome: str, relative_to: str | None) -> PartEvidence:
        """Everything known on one part and outcome."""
        pairs = {
            tuple(sorted((r.first.exercise, r.second.exercise)))
            for r in self.reports.on_part(part, outcome, relative_to)
        }
        orders = []
        for topic in self._topics(part, outcome, relative_to):
            for component in self.components(topic):
                ids = component.network.treatments
                pairs |= {(a, b) for n, a in enumerate(ids) for b in ids[n + 1 :]}
                orders.append(component.order(topic.measured, topic.dimension))
        return PartEvidence(
            part=part,
            outcome=outcome,
            relative_to=relative_to,
            components=tuple(orders),
            comparisons=tuple(
                self.comparison(Question(a, b, part, outcome, relative_to))
                for a, b in sorted(pairs)
            ),
        )

    def comparison(self, question: Question, override: Override | None = None) -> Comparison:
        """The answer to one question; ``override`` is a certainty that the authors set."""
        return self._compared(question, override)

    def _comparison(self, question: Question, override: Override | None) -> Comparison:
        earlier = self._earlier
        if earlier and self._is_known(question, self.weighing(question)):
            return earlier.engine.comparison(question, override)
        return self._answers.comparison(
            question,
            self.weighing(question),
            self.by_sample(question),
            self.own_samples(question),
            self.tried(question),
            self.expected(question),
            override,
        )

    def told(self, comparisons: list[Comparison]) -> ComposedAnswer:
        """The sentence for comparisons that differ only in their part, and what follows it."""
        return self._answers.told(comparisons)

    def bearing(self, question: Question) -> set[str]:
        """Every study with a number or a stated direction on a question, also where several share a sample."""
        return {c.study for contrasts in self.by_sample(question).values() for c in contrasts}

    def contrasts(self, question: Question) -> list[StudyContrast]:
        """Every reported contrast that bears on a question."""
        if question.within:
            return self.reports.of_parts(
                question.within, question.part, question.second, question.outcome
            )
        return self.reports.of_exercises(
            question.first, question.second, question.part, question.outcome, question.relative_to
        )

    def by_sample(self, question: Question) -> dict[str, list[StudyContrast]]:
        """Sample -> its contrasts; the whole muscle only where it answers for the part."""
        weighing = self.weighing(question)
        whole = weighing is None or weighing.measured == "whole"
        found: dict[str, list[StudyContrast]] = defaultdict(list)
        for contrast in self.contrasts(question):
            if whole or contrast.cover != "whole muscle":
                found[self.assembly.sample_of[contrast.study]].append(contrast)
        return dict(found)

    def own_samples(self, question: Question) -> Samples:
        """The samples of the numbers that answer a question; where none do, the nearest that were measured, and say why not."""
        weighing = self.weighing(question)
        if weighing:
            return self._samples_of(question, weighing.topic)
        topics = self._topics(question.part, question.outcome, question.relative_to)
        found = (self._samples_of(question, topic) for topic in topics)
        return next((samples for samples in found if samples), Samples())

    def component(self, question: Question) -> Component | None:
        """The component that connects both sides of a question."""
        weighing = self.weighing(question)
        return self._component(question, weighing.topic) if weighing else None

    def tried(self, question: Question) -> list[tuple[str, Weighing]]:
        """The answer under each variation of an assumed correlation, where one entered."""
        weighing = self.weighing(question)
        if (
            weighing is None
            or weighing.connected is None
            or not self.own_samples(question).rest_on_correlations
        ):
            return []
        found = [(what, engine.weighing(question)) for what, engine in self.variations]
        return [(what, answer) for what, answer in found if answer and answer.connected]

    def expected(self, question: Question) -> list[tuple[str, Weighing]]:
        """The answer with half and twice the spread between studies expected."""
        weighing = self.weighing(question)
        if weighing is None:
            return []
        return [
            (what, self._with_prior(question, weighing, factor))
            for what, factor in (("half", 0.5), ("twice", 2.0))
        ]

    def _with_prior(self, question: Question, weighing: Weighing, factor: float) -> Weighing:
        """The same numbers under another expectation of the spread between studies."""
        connected = weighing.connected
        if connected:
            component = self._component(question, weighing.topic, factor)
            assert component is not None  # or nothing would be connected
            samples = self._samples_of(question, weighing.topic)
            posterior, tau = self._posterior(question, component, samples)
            connected = replace(
                connected, posterior=posterior, tau=tau, spread=component.network.spread
            )
        return weigh_question(
            question,
            weighing.topic,
            connected,
            weighing.reports,
            self.settings.with_prior(factor),
            weighing.samples,
            weighing.people,
        )

    def _is_known(self, question: Question, weighing: Weighing | None) -> bool:
        """Whether all that was known of a question in the state before still is, ``weighing`` being its answer."""
        parts = {question.part, *((question.first, question.second) if question.within else ())}
        if not self._earlier or not self._earlier.covers(question.outcome, *parts):
            return False
        # A report without a spread borrows one, of any study with the same outcome.
        return not (weighing and weighing.reports) or self._borrows_as_before(question.outcome)

    def _borrows(self, outcome: str) -> bool:
        """Whether spreads that an outcome misses are borrowed from the same ones as in the state before."""
        assert self._earlier is not None
        return self._earlier.engine.spreads.behind(outcome) == self.spreads.behind(outcome)

    def _samples(self, topic: PooledTopic) -> Samples:
        if self._earlier and self._earlier.covers(topic.outcome, topic.part):
            return self._earlier.engine.samples(topic)
        return Samples(self.assembly.samples(topic))

    def _components(self, topic: PooledTopic, factor: float = 1.0) -> list[Component]:
        if self._earlier and self._earlier.covers(topic.outcome, topic.part):
            return self._earlier.engine.components(topic, factor)
        blocks = [sample.block for sample in self.samples(topic) if sample.block]
        return [
            Component(c.blocks, self._people, factor * self.settings.spreads[topic.outcome])
            for c in components(blocks)
        ]

    def _of_question(self, question: Question, topic: PooledTopic) -> Samples:
        if not question.within:
            return self.samples(topic)
        return Samples(
            within_exercise.samples(
                self.assembly,
                question.within,
                question.first,
                question.second,
                question.outcome,
                topic.dimension,
            )
        )

    def _component(
        self, question: Question, topic: PooledTopic, factor: float = 1.0
    ) -> Component | None:
        sides = {question.first, question.second}
        if not question.within:
            connected = self.components(topic) if factor == 1 else self.components(topic, factor)
            return next((c for c in connected if sides <= set(c.network.treatments)), None)
        blocks = [sample.block for sample in self._samples_of(question, topic) if sample.block]
        if not blocks:
            return None
        return Component(blocks, self._people, factor * self.settings.spreads[topic.outcome])

    def _topics(self, part: str, outcome: str, relative_to: str | None) -> Iterator[PooledTopic]:
        """Every topic of a part's own and joint measurements, a dimension each."""
        dimensions = self.assembly.dimensions(outcome)
        for measured in ("part", "together"):
            for dimension in dimensions:
                yield PooledTopic(part, outcome, relative_to, measured, dimension)

    def _weighing(self, question: Question) -> Weighing | None:
        """The answer from the most direct measurements that say anything; of a pair's two sides one is weighed and turned."""
        if self._earlier:
            known = self._earlier.engine.weighing(question)
            if self._is_known(question, known):
                return known
        if question.first > question.second:
            part = question.second if question.within else question.part
            other = replace(question, first=question.second, second=question.first, part=part)
            turned = self.weighing(other)
            return turned.mirrored() if turned else None
        contrasts = self.contrasts(question)
        for measured, cover in COVERS.items():
            if cover == "whole muscle" and "/" not in question.part:
                continue
            part = question.part.partition("/")[0] if measured == "whole" else question.part
            covered = [c for c in contrasts if c.cover == cover]
            answers = [
                found
                for dimension in self.assembly.dimensions(question.outcome)
                if (
                    found := self._weighed(
                        question,
                        PooledTopic(
                            part, question.outcome, question.relative_to, measured, dimension
                        ),
                        [c for c in covered if self._dimension(c) == dimension],
                    )
                )
            ]
            if answers:
                return min(answers, key=lambda found: found[0])[1]
        return None

    def _dimension(self, contrast: StudyContrast) -> str | None:
        study = self.catalog.studies[contrast.study].data
        return self.assembly.dimension(study.results[contrast.result])

    def _weighed(
        self, question: Question, topic: PooledTopic, contrasts: list[StudyContrast]
    ) -> tuple[tuple[int, int, int, int], Weighing] | None:
        """How much stands behind an answer by one dimension (the most first), and the answer."""
        by_sample: dict[str, list[StudyContrast]] = defaultdict(list)
        for contrast in contrasts:
            by_sample[self.assembly.sample_of[contrast.study]].append(contrast)
        component = self._component(question, topic)
        samples = self._samples_of(question, topic)
        pooled = samples.of_pair.get(frozenset((question.first, question.second)), set())
        connected = self._connected(question, component, samples) if component else None
        unfit = {
            (source.study, source.measured.result)
            for sample in samples
            for source in sample.sources
            if source.measured.unfit
        }
        reports: dict[str, PairReport] = {}
        for key, own in sorted(by_sample.items()):
            report = (
                pair_report(self.catalog, self.spreads, key, own, unfit)
                if key not in pooled
                else None
            )
            if report:
                reports[key] = report
        # A measure of which no ratio can be taken says a direction, and stands back where a number says more.
        if connected or any(report.y is not None for report in reports.values()):
            unsized = {key for key in reports if not self._pools(by_sample[key])}
            reports = {key: report for key, report in reports.items() if key not in unsized}
        if not connected and not reports:
            return None
        keys = {*pooled, *reports} or set(connected.studies if connected else ())
        people = sum(self._people.get(key, 0) for key in keys)
        order = _DIMENSIONS.index(topic.dimension) if topic.dimension in _DIMENSIONS else 0
        rank = (-len(keys), -people, -bool(connected), order)
        each = max(2, round(people / len(keys))) if keys else 2
        return rank, weigh_question(
            question, topic, connected, reports, self.settings, len(keys), each
        )

    def _pools(self, contrasts: list[StudyContrast]) -> bool:
        return any(
            self.assembly.pools(self.catalog.studies[c.study].data.results[c.result])
            for c in contrasts
        )

    def _connected(self, question: Question, component: Component, samples: Samples) -> Connected:
        """What the component says."""
        posterior, tau = self._posterior(question, component, samples)
        found = component.connected(question.first, question.second)
        return replace(found, posterior=posterior, tau=tau)

    def _posterior(
        self, question: Question, component: Component, samples: Samples
    ) -> tuple[Mixture, Array]:
        """Where the log ratio probably lies, over which spreads: of one sample alone by what it printed of this very pair."""
        network = component.network
        if len(network.blocks) == 1:
            pooled = samples.of_pair.get(frozenset((question.first, question.second)), set())
            for key in pooled:
                if edge := samples.by_key[key].tested(question.first, question.second):
                    return single(edge.estimate.y, edge.estimate.se, edge.df, network.scale)
        return network.posterior(question.first, question.second), network.tau
