"""Answers every question that can be asked of a catalog under one set of conventions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache, cached_property

from ...catalog.load import Catalog
from ..certainty.rating import Override
from ..model.blocks import components
from ..settings import Settings
from ..studies import within_exercise as within
from ..studies.arm_means import compared
from ..studies.contrasts import Reports, StudyContrast
from ..studies.samples import Assembly
from ..studies.topic import Samples
from ..wording.names import Names
from .comparison import Answers, Combined, own
from .component import Fitted
from .conclusions import Comparison, PartEvidence, Question
from .verdict import RatioInterval

Topic = tuple[str, str, str | None]
"""Part, outcome, and the part it is relative to."""

_CALLED = {
    "before_after": "values before and after",
    "arms": "two exercises of the same people",
    "parts": "two parts of one muscle",
    "sites": "measurements of one sample",
}


class Engine:
    """One catalog under one set of conventions. Everything is computed once, when asked for."""

    def __init__(self, catalog: Catalog, settings: Settings) -> None:
        self.catalog, self.settings = catalog, settings
        self.names, self.reports, self.assembly = (
            Names(catalog),
            Reports(catalog),
            Assembly(catalog, settings),
        )
        self._answers = Answers(catalog, settings, self.names)
        self._people = {key: compared(study) for key, study in self.assembly.studies.items()}
        self.samples = cache(self._samples)
        self.fitted = cache(self._fitted)

    @cached_property
    def variations(self) -> list[tuple[str, Engine]]:
        """The same catalog with each assumed correlation at either end of its range, and what was changed."""
        ends = {
            "lowest": "as little alike as in any data",
            "highest": "as much alike as in any data",
        }
        return [
            (f"{_CALLED[moved.moved[0]]} {ends[moved.moved[1]]}", Engine(self.catalog, moved))
            for moved in self.settings.variations()
            if moved.moved
        ]

    def field(self, topic: Topic) -> PartEvidence:
        """Everything known on one part and outcome."""
        part, outcome, relative_to = topic
        pairs = {
            tuple(sorted((r.first.exercise, r.second.exercise)))
            for r in self.reports.on_part(part, outcome, relative_to)
        }
        for fit in self.fitted(topic):
            ids = fit.network.treatments
            pairs |= {(a, b) for n, a in enumerate(ids) for b in ids[n + 1 :]}
        return PartEvidence(
            part=part,
            outcome=outcome,
            relative_to=relative_to,
            components=tuple(fit.component() for fit in self.fitted(topic)),
            comparisons=tuple(
                self.comparison(Question(a, b, part, outcome, relative_to))
                for a, b in sorted(pairs)
            ),
        )

    def comparison(self, question: Question, override: Override | None = None) -> Comparison:
        """The answer to one question; ``override`` is a certainty that the authors set."""
        combined = self.combined(question)
        return self._answers.comparison(
            question,
            self.samples_of(question),
            self._reported(question),
            combined,
            self.tried(question) if combined else (),
            override,
        )

    def sentence(self, comparisons: list[Comparison]) -> str:
        """One sentence for comparisons that differ only in their part."""
        return self._answers.sentence(comparisons)

    def bearing(self, question: Question) -> set[str]:
        """Every study with a number or a stated direction on a question, also where several share a sample."""
        return {r.study for r in self._reported(question)}

    def combined(self, question: Question) -> Combined | None:
        """The estimate for a question, or ``None`` when nothing with a spread connects its two sides."""
        fit = self.fit(question)
        combined = fit.combined(question.first, question.second) if fit else None
        if combined is None or combined.path != "direct" or len(combined.studies) != 1:
            return combined
        # One study alone is told as it tested the two, not as its other contrasts would have it.
        sample = self.samples_of(question).by_key[self.assembly.sample_of[combined.studies[0]]]
        tested = (
            own(sample, (question.first, question.second))
            if sample.tested(question.first, question.second)
            else None
        )
        return replace(combined, estimate=tested, common=None) if tested else combined

    def fit(self, question: Question) -> Fitted | None:
        """The fitted component that holds both sides of a question."""
        sides = {question.first, question.second}
        fits: Sequence[Fitted] = (
            self._within(question) if question.within else self.fitted(_topic(question))
        )
        return next((f for f in fits if sides <= set(f.network.treatments)), None)

    def tried(self, question: Question) -> list[tuple[str, RatioInterval]]:
        """The estimate under each variation in which it can still be had."""
        if not self.samples_of(question).rest_on_correlations:
            return []
        found = ((what, engine.combined(question)) for what, engine in self.variations)
        return [(what, combined.estimate) for what, combined in found if combined]

    def _reported(self, question: Question) -> list[StudyContrast]:
        if question.within:
            return self.reports.of_parts(
                question.within, question.part, question.second, question.outcome
            )
        return [
            r
            for r in self.reports.of_exercises(
                question.first,
                question.second,
                question.part,
                question.outcome,
                question.relative_to,
            )
            if r.cover != "whole muscle"
        ]

    def samples_of(self, question: Question) -> Samples:
        """The samples of a question's part and outcome, whichever exercises they compare."""
        if question.within:
            return Samples(
                within.samples(
                    self.assembly,
                    question.within,
                    question.first,
                    question.second,
                    question.outcome,
                )
            )
        return self.samples(_topic(question))

    def _samples(self, topic: Topic) -> Samples:
        return Samples(self.assembly.samples(*topic))

    def _fitted(self, topic: Topic) -> list[Fitted]:
        blocks = [sample.block for sample in self.samples(topic) if sample.block]
        return [Fitted(component.blocks, self._people) for component in components(blocks)]

    def _within(self, question: Question) -> list[Fitted]:
        blocks = [sample.block for sample in self.samples_of(question) if sample.block]
        return [Fitted(blocks, self._people)] if blocks else []


def _topic(question: Question) -> Topic:
    return question.part, question.outcome, question.relative_to
