"""The page of one source: the reference, what was read of it, its numbers, and everything that rests on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import groupby
from typing import NamedTuple

from ...catalog import entries
from ...english import upper_first
from ...evidence.certainty.appraisal import risk_of
from ...evidence.claims.conclusions import Comparison, Row
from ...evidence.studies.print_style import number, raised
from ...evidence.studies.print_style import value as printed_value
from ..client import scripts
from ..context import Link, PageContext, RenderContext
from ..resource import Resource
from ..sections import labels as words
from ..sections.comparison import asked, shows
from ..sections.references import Formatted, formatted
from ..templating import render
from . import data_files
from .citations import Mention, mentions
from .people import told

SECTIONS = ("top", "what-was-read", "numbers", "rests-on-it", "bibtex")


@dataclass(frozen=True)
class ArmRow:
    """One arm's value in one result."""

    called: str
    exercise: Link | None
    same_name: bool
    """Whether the paper's name is the exercise's own, so that one of them is enough."""
    differs: str | None
    people: int | None
    value: str


@dataclass(frozen=True)
class MadeView:
    """What one comparison takes from a result."""

    asked: Link
    shows: str
    how: str


@dataclass(frozen=True)
class ResultView:
    """One measurement with its arms and the contrasts the paper states."""

    anchor: str
    parts: list[Link]
    measure: str
    unit: str | None
    details: list[str]
    at: str
    via: Link | None
    """The source that carries a second-hand number."""
    doubt: str | None
    outcome: str
    arms: list[ArmRow]
    contrasts: list[str]
    note: str | None
    made: list[MadeView]


class NoticeView(NamedTuple):
    """What was published on the work since."""

    says: str
    href: str
    doi: str


class AnswerView(NamedTuple):
    """One signalling question with what was found."""

    asks: str
    decides: bool
    answer: str
    because: str | None
    at: str


@dataclass(frozen=True)
class AppraisalView:
    """The risk of bias that was computed, and what it was computed from."""

    risk: str
    answers: list[AnswerView]


#: How a number covers its parts, where that is not plain from their names.
_COVERED = {"part": None, "together": "measured as one", "whole": "the whole muscle"}


@dataclass(frozen=True)
class SourcePage:
    """Everything the template of a source shows."""

    meta: dict[str, object]
    reference: Formatted
    read: str
    readat: str
    recheck: str
    notices: list[NoticeView]
    study: entries.Study | None
    design: str
    people: str
    appraisal: AppraisalView | None
    results: list[ResultView]
    resting: list[tuple[Link, list[tuple[Mention, str]]]]
    bibtex: str
    key: str
    downloads: list[Link]
    """The records of all sources, of which a script takes this one."""
    script: str
    """The record as a file, in each form."""


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """A page for each source."""
    studies = shelf.catalog.studies
    for key in shelf.catalog.references:
        yield Resource(
            f"sources/{key}.md",
            partial(text, key=key),
            anchors(shelf, key),
            f"studies/{key}.yaml" if key in studies else "references.bib",
        )


def anchors(shelf: RenderContext, key: str) -> list[str]:
    """The anchors of a source's page."""
    study = shelf.catalog.studies.get(key)
    return [*SECTIONS, *(f"result-{n + 1}" for n in range(len(study.data.results) if study else 0))]


def text(shelf: RenderContext, key: str) -> str:
    """The page as Markdown."""
    return render("source.md.jinja", page=model(shelf, key))


def model(shelf: RenderContext, key: str) -> SourcePage:
    """What the page shows."""
    reference, desk = shelf.catalog.references[key], shelf.at(f"sources/{key}.md")
    entry = shelf.catalog.studies.get(key)
    study, shown = entry.data if entry else None, formatted(desk, key)
    return SourcePage(
        meta={
            "title": shown.here.text,
            "description": f"{shown.here.text}: {reference.title}. What was read, the reported numbers, "
            "and what rests on them.",
            "section": "sources",
            "hide": ["navigation"],
        },
        reference=shown,
        read=words.read_of(reference.read),
        readat=reference.readat,
        recheck=reference.recheck,
        notices=[
            NoticeView(words.NOTICES[notice.kind], f"https://doi.org/{notice.doi}", notice.doi)
            for notice in reference.notices
        ],
        study=study,
        design=shelf.vocabulary.designs[study.design].name if study else "",
        people=told(study.people) if study else "",
        appraisal=_appraisal(shelf, key, study) if study else None,
        results=[_result(desk, key, study, n, r) for n, r in enumerate(study.results)]
        if study
        else [],
        resting=_resting(desk, mentions(shelf).get(key, [])),
        bibtex=reference.bibtex.strip(),
        key=key,
        downloads=data_files.downloads(desk),
        script=desk.href(scripts.uri(scripts.RECORDS)),
    )


def _appraisal(shelf: RenderContext, key: str, study: entries.Study) -> AppraisalView | None:
    risk = risk_of(shelf.catalog, key)
    if risk is None:
        return None
    given = study.appraisal or {}
    return AppraisalView(
        words.RISKS[risk],
        [
            AnswerView(
                question.asks, question.decides, given[id].answer, given[id].because, given[id].at
            )
            for id, question in shelf.vocabulary.asked_of(study.design).items()
        ],
    )


def _resting(
    desk: PageContext, found: list[Mention]
) -> list[tuple[Link, list[tuple[Mention, str]]]]:
    ordered = sorted(found, key=lambda m: m.uri)
    return [
        (Link(group[0].page, desk.href(uri)), [(m, desk.href(m.uri, m.anchor)) for m in group])
        for uri, group in ((uri, list(ms)) for uri, ms in groupby(ordered, key=lambda m: m.uri))
    ]


def _result(
    desk: PageContext, key: str, study: entries.Study, index: int, result: entries.Result
) -> ResultView:
    measure = desk.shelf.vocabulary.measures[result.measure]
    details = [
        detail
        for detail in (_COVERED.get(result.measured or "part"), result.where, result.strength_test)
        if detail
    ]
    if result.relative_to:
        details.append(f"relative to {desk.part(result.relative_to).text}")
    return ResultView(
        anchor=f"result-{index + 1}",
        parts=desk.parts(result.parts),
        measure=measure.name,
        unit=raised(result.unit) if result.unit else None,
        details=details,
        at=result.place,
        via=desk.source(result.via.key) if result.via else None,
        doubt=result.doubt,
        outcome=words.OUTCOMES[measure.outcome],
        arms=[
            _arm(desk, study.arms[arm], value, result.unit or "")
            for arm, value in result.values.items()
        ],
        contrasts=[_contrast(desk, study, c) for c in result.contrasts],
        note=result.note,
        made=[_made(desk, c, row) for c, row in desk.shelf.readings.get((key, index), [])],
    )


def _made(desk: PageContext, comparison: Comparison, row: Row) -> MadeView:
    question = comparison.question
    href = desk.exercise(question.within).href if question.within else desk.part(question.part).href
    return MadeView(Link(upper_first(asked(desk.shelf, question)), href), shows(row), row.how)


def _arm(desk: PageContext, arm: entries.Arm, given: entries.Value, unit: str) -> ArmRow:
    exercise = desk.exercise(arm.treatment) if arm.treatment else None
    same_name = exercise is not None and exercise.text.casefold() == arm.called.casefold()
    differs = (
        f"not our exercise: ours says “{arm.forbidden_by}”" if arm.forbidden_by else arm.differs
    )
    return ArmRow(
        upper_first(arm.called),
        exercise,
        same_name,
        differs,
        given.n or arm.n,
        printed_value(given, unit),
    )


def _contrast(desk: PageContext, study: entries.Study, contrast: entries.Contrast) -> str:
    """``More in seated curl than in standing curl; difference 5 %; p < 0.01.``"""

    def side(arm: str, part: str | None) -> str:
        called = study.arms[arm].called
        return f"{desk.part(part).text} ({called})" if part else called

    first, second = (
        side(contrast.of, contrast.of_part),
        side(contrast.against, contrast.against_part),
    )
    told = {
        "of": f"More in {first} than in {second}",
        "against": f"More in {second} than in {first}",
        "neither": f"No difference between {first} and {second}",
    }
    pieces = [
        told.get(
            contrast.favours or "", f"{upper_first(first)} against {second}, no direction stated"
        ),
        words.TESTS[contrast.test],
    ]
    for name, given in (
        ("difference", contrast.difference),
        ("ratio", contrast.ratio),
        ("standardised", contrast.standardised),
    ):
        if given:
            called = (
                given.kind
                if isinstance(given, entries.Standardised) and given.kind != "not named"
                else name
            )
            unit = f" {raised(given.unit)}" if isinstance(given, entries.Difference) else ""
            interval = (
                f" (95% interval {number(given.ci95[0])} to {number(given.ci95[1])})"
                if given.ci95
                else ""
            )
            pieces.append(
                f"{called.replace('standardised', 'standardised difference')} {number(given.value)}{unit}{interval}"
            )
    if contrast.t is not None:
        pieces.append(f"t = {number(contrast.t)}")
    pieces += [
        f"p {sign} {p:g}"
        for sign, p in (("=", contrast.p), ("<", contrast.p_below), (">", contrast.p_above))
        if p is not None
    ]
    note = f" {upper_first(contrast.note.rstrip('.'))}." if contrast.note else ""
    return "; ".join(pieces) + f".{note}"
