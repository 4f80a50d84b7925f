"""Where the catalog's own contents point opposite ways: study against study, one study against itself, growth against
activation, and numbers against what a page claims.

Opposite signs disagree; a null beside a positive does not. What was tested is told apart from what is only read off
two numbers. Each question stands once, with the strongest contradiction that it holds.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from ...catalog.entries import Claim
from ...catalog.load import Catalog
from ..studies import print_style
from ..studies.contrasts import Direction, Reports, StudyContrast
from ..studies.study_index import sample_names
from ..terms import Question
from .conclude import claimed_of
from .conclusions import Comparison, Conclusions, KindsCompared, Row
from .sample_rows import clear_side

#: What stands against what, those that a coach should know of first.
ContradictionKind = Literal[
    "tested", "kinds", "itself", "claim", "half tested", "partly", "untested"
]
KINDS: tuple[ContradictionKind, ...] = (
    "tested",
    "kinds",
    "itself",
    "claim",
    "half tested",
    "partly",
    "untested",
)
_OUTCOMES = ("growth", "strength", "activation", "architecture")


@dataclass(frozen=True)
class Measurement:
    """One number or statement of one study on the question."""

    study: str
    result: int
    """Index into the study's results."""
    people: int
    says: Direction
    tested: bool
    """Whether the two were tested against each other, or the study's own interval leaves out no difference."""
    at: str
    """The place where it was read."""
    printed: str
    """As the paper prints it, with that place."""
    set_apart: tuple[str, ...]
    """What was measured, where and when, as far as the catalog says: a phase, a site, a dimension, another way to do it."""
    strength_test: str | None = None
    """Two lifts are two questions, so a measurement with one never opposes one with another."""


@dataclass(frozen=True)
class Contradiction:
    """One question on which something points opposite ways."""

    kind: ContradictionKind
    question: Question
    parts: tuple[str, ...]
    """All parts that the same numbers speak of."""
    measurements: tuple[Measurement, ...] = ()
    claim: tuple[str, int] | None = None
    """Exercise and index of a claim that the numbers lean against."""
    comparisons: tuple[Comparison, ...] = ()
    """The answers on the question: one, or growth and activation."""
    sentence: str = ""
    """Of growth and activation what both say together."""

    def of(self, says: Direction) -> list[Measurement]:
        """The measurements on one side, those that were tested first."""
        found = [m for m in self.measurements if m.says == says]
        return sorted(found, key=lambda m: not m.tested)


def contradictions(catalog: Catalog, conclusions: Conclusions) -> list[Contradiction]:
    """Every contradiction, each question once, the strongest first; of equals growth first, then most people."""
    measured = _Measured(catalog, conclusions)
    found: dict[tuple[object, ...], Contradiction] = {}
    for key, comparison in _questions(conclusions).items():
        if told := _between(comparison, measured.of(comparison), measured.sample_of):
            found[key] = told
    for told in _of_claims(catalog, conclusions):
        key = same_question(told.question)
        found[key] = replace(found[key], claim=told.claim) if key in found else told
    joined = list(_joined(found.values()))
    joined += [_of_kinds(conclusions, kinds) for kinds in conclusions.kinds if kinds.agree is False]
    return sorted(joined, key=_order)


def same_question(question: Question) -> tuple[object, ...]:
    """The question, whichever side it names first."""
    part = None if question.within else question.part
    return (
        tuple(sorted((question.first, question.second))),
        part,
        question.outcome,
        question.relative_to,
        question.within,
    )


def _questions(conclusions: Conclusions) -> dict[tuple[object, ...], Comparison]:
    """Every question once: as a claim asks it, else as its part's page does. Lengths come from a model, which contradicts nobody."""
    claimed = [c for told in conclusions.claims.values() for one in told for c in one.comparisons]
    every = [*claimed, *(c for field in conclusions.fields.values() for c in field.comparisons)]
    found: dict[tuple[object, ...], Comparison] = {}
    for comparison in every:
        if comparison.question.outcome != "length":
            found.setdefault(same_question(comparison.question), comparison)
    return found


class _Measured:
    """What every study of a catalog measured of a question."""

    def __init__(self, catalog: Catalog, conclusions: Conclusions) -> None:
        self._catalog, self._names, self._reports = catalog, conclusions.names, Reports(catalog)
        self.sample_of = sample_names({key: entry.data for key, entry in catalog.studies.items()})

    def of(self, comparison: Comparison) -> list[Measurement]:
        """One for each number or statement; the whole muscle only where it answers for the part. What is in doubt says nothing."""
        asked = comparison.question
        if asked.within:
            given = self._reports.of_parts(asked.within, asked.part, asked.second, asked.outcome)
        else:
            given = self._reports.of_exercises(
                asked.first, asked.second, asked.part, asked.outcome, asked.relative_to
            )
        whole = comparison.measured == "whole" or comparison.finding == "not studied"
        rows = {self.sample_of[row.study]: row for row in comparison.rows}
        return [
            self._measurement(contrast, contrast.direction, rows[self.sample_of[contrast.study]])
            for contrast in given
            if contrast.direction
            and not contrast.doubt
            and self.sample_of[contrast.study] in rows
            and (whole or contrast.cover != "whole muscle")
        ]

    def _measurement(self, contrast: StudyContrast, says: Direction, row: Row) -> Measurement:
        clear = {1: "more", -1: "less"}.get(clear_side(row) if row.estimate else 0)
        arms = self._catalog.studies[contrast.study].data.arms
        apart = (
            contrast.site,
            self._dimension(contrast),
            *(arms[side.arm].differs for side in (contrast.first, contrast.second)),
            contrast.strength_test,
        )
        return Measurement(
            study=contrast.study,
            result=contrast.result,
            people=row.people,
            says=says,
            tested=contrast.stated or clear == says,
            at=contrast.at,
            printed=print_style.reading(self._catalog, self._names, contrast),
            set_apart=tuple(dict.fromkeys(told for told in apart if told)),
            strength_test=contrast.strength_test,
        )

    def _dimension(self, contrast: StudyContrast) -> str | None:
        assert self._catalog.vocabulary is not None
        return self._catalog.vocabulary.data.measures[contrast.measure].dimension


def _between(
    comparison: Comparison, given: list[Measurement], sample_of: dict[str, str]
) -> Contradiction | None:
    """What points opposite ways among the measurements of one question."""
    opposed = [
        (more, less)
        for more in given
        for less in given
        if (more.says, less.says) == ("more", "less") and more.strength_test == less.strength_test
    ]
    tested = [(more, less) for more, less in opposed if more.tested and less.tested]
    kind: ContradictionKind
    if comparison.conflict or any(sample_of[a.study] != sample_of[b.study] for a, b in tested):
        kind = "tested"
    elif tested:
        kind = "itself"
    elif any(more.tested or less.tested for more, less in opposed):
        kind = "half tested"
    elif any(row.mixed and row.stated for row in comparison.rows):
        kind = "partly"
    elif opposed or any(row.mixed for row in comparison.rows):
        kind = "untested"
    else:
        return None
    asked = comparison.question
    return Contradiction(kind, asked, (asked.part,), tuple(given), comparisons=(comparison,))


def _of_claims(catalog: Catalog, conclusions: Conclusions) -> Iterator[Contradiction]:
    """Claims whose numbers lean the other way, clearly or not."""
    for id, entry in catalog.exercises.items():
        for conclusion in conclusions.of(id):
            claim: Claim = entry.data.emphasis[conclusion.index]
            says = claimed_of(claim)
            for comparison in conclusion.comparisons:
                leans = comparison.finding in ("found", "hinted") and comparison.side != says
                against = conclusion.finding == "opposite" or (leans and says != "similar")
                if claim.outcome == "length" or not against:
                    continue
                asked = comparison.question
                yield Contradiction(
                    "claim",
                    asked,
                    (asked.part,),
                    claim=(id, conclusion.index),
                    comparisons=(comparison,),
                )


def _of_kinds(conclusions: Conclusions, kinds: KindsCompared) -> Contradiction:
    asked = kinds.question
    answers = [
        comparison
        for outcome in ("growth", "activation")
        if (field := conclusions.fields.get((asked.part, outcome, None)))
        for comparison in field.comparisons
        if same_question(replace(comparison.question, outcome="growth")) == same_question(asked)
    ]
    return Contradiction(
        "kinds", asked, (asked.part,), comparisons=tuple(answers), sentence=kinds.sentence
    )


def _joined(found: Iterable[Contradiction]) -> Iterator[Contradiction]:
    """Parts of which the same numbers speak are one contradiction."""
    together: dict[tuple[object, ...], Contradiction] = {}
    for one in found:
        asked = one.question
        rows = tuple((row.study, row.results) for c in one.comparisons for row in c.rows)
        numbers = None if asked.within else rows
        key = (one.kind, *same_question(replace(asked, part="")), numbers or asked.part)
        first = together.get(key)
        together[key] = replace(first, parts=(*first.parts, *one.parts)) if first else one
    yield from together.values()


def _order(one: Contradiction) -> tuple[object, ...]:
    people = sum({m.study: m.people for m in one.measurements}.values())
    return (
        KINDS.index(one.kind),
        _OUTCOMES.index(one.question.outcome),
        -people,
        one.question.first,
        one.question.second,
        one.parts,
    )
