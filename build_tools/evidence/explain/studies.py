"""What each sample of people says on one question: what was read, what is printed where, and the ratio made of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import isclose

from ...catalog.entries import Study
from ...catalog.load import Catalog
from ...english import upper_first
from ..claims.conclusions import Row
from ..claims.engine import Engine
from ..effects.spread import critical
from ..model.blocks import Block
from ..model.network import pair_of
from ..model.reports import PairReport
from ..studies.arm_means import Unusable, arm_log_mean
from ..studies.contrasts import alike
from ..studies.printed_contrasts import edges_of
from ..studies.reading import Reading
from ..studies.samples import Bearing
from ..terms import Question
from . import spread
from .text import Line, figure, interval, place, ratios


def lines(engine: Engine, question: Question, rows: tuple[Row, ...]) -> Iterator[Line]:
    """Every sample that bears on the question, pooled or not."""
    samples = engine.own_samples(question).by_key
    weighing = engine.weighing(question)
    reports = weighing.reports if weighing else {}
    for row in rows:
        sample = samples.get(engine.assembly.sample_of[row.study])
        yield 1, _who(engine.catalog, row)
        for text in row.texts:
            yield 2, f"Printed: {text}"
        for note in row.notes:
            yield 2, f"Note: {note}"
        if sample is None or row.estimate is None:
            for index in row.results:
                yield 2, place(engine.catalog.studies[row.study].spot("results", index))
            yield 2, f"{upper_first(row.how)}."
            report = reports.get(engine.assembly.sample_of[row.study])
            if report:
                yield 2, _report(report)
            continue
        for source in sample.pooled:
            yield (
                2,
                place(engine.catalog.studies[source.study].spot("results", source.measured.result)),
            )
            yield from ((3, told) for told in _spread(engine, question, source))
        if len(sample.pooled) > 1:
            yield (
                2,
                (
                    f"{len(sample.pooled)} measurements of the same people, taken to correlate by "
                    f"{engine.assembly.between_sites(sample.pooled):g}, are averaged into one."
                ),
            )
        assert sample.block is not None
        yield 2, _own(sample.block, question)


def elsewhere(
    engine: Engine, question: Question, rows: tuple[Row, ...], connected: set[str]
) -> Iterator[Line]:
    """Samples that connect the two sides through other exercises."""
    told = {engine.assembly.sample_of[row.study] for row in rows if row.estimate}
    for sample in engine.own_samples(question):
        if sample.block and sample.key not in told and set(sample.block.treatments) <= connected:
            yield 1, f"{sample.key}: {', '.join(sample.block.treatments)}"


def _report(report: PairReport) -> str:
    """How a report without a spread is weighed."""
    said = {
        1: f"a test, at t = {figure(report.critical)}, found the first ahead",
        -1: f"a test, at t = {figure(report.critical)}, found the second ahead",
        0: f"a test, at t = {figure(report.critical)}, found no difference",
        None: "nobody tested the two",
    }[report.sign]
    number = f"log ratio {figure(report.y)}" if report.y is not None else "no number"
    return (
        f"Weighed as: {number}; {said}; a standard error borrowed from other studies, about {figure(report.spread.middle)} "
        f"({interval(*report.spread.span)} in 95 of 100), as far as number and test allow it."
    )


def _who(catalog: Catalog, row: Row) -> str:
    study = catalog.studies[row.study].data
    weeks = f", {study.weeks:g} weeks" if study.weeks else ""
    return f"{row.study}: {study.design}, {row.people} people{weeks}; read: {row.read or 'unknown'}"


def _spread(engine: Engine, question: Question, source: Bearing) -> Iterator[str]:
    study: Study = engine.catalog.studies[source.study].data
    reading = Reading(
        study, study.results[source.measured.result], question.outcome, engine.settings
    )
    if question.within:
        yield from _within(reading, question)
        return
    result = reading.result
    doing = engine.assembly.index.doing(source.study)
    arms = {id: doing[id] for id in result.values if id in doing and _has_spread(reading, id)}
    pair = (question.first, question.second)
    if set(pair) <= set(arms.values()):
        yield f"{upper_first(source.measured.how)}."
        yield from spread.of_arms(reading, arms, pair)
        return
    stated = [c for c in result.contrasts if not c.of_part and c.of in doing and c.against in doing]
    of_pair = [c for c in stated if {doing[c.of], doing[c.against]} == set(pair)]
    if not (of_pair and _is_own(source, reading, doing, pair)):
        yield "From the study's contrasts with other exercises; those that share an arm are taken to correlate by one half:"
        of_pair = stated
    for contrast in of_pair:
        yield spread.of_contrast(reading, contrast)


def _is_own(
    source: Bearing, reading: Reading, doing: dict[str, str], pair: tuple[str, str]
) -> bool:
    """Whether the ratio of a pair is the study's contrast of the two, not one that follows from its others."""
    assert source.measured.block is not None
    edges, *_ = edges_of(reading, doing)
    edge = next((edge for edge in edges if {edge.a, edge.b} == set(pair)), None)
    return edge is not None and isclose(
        edge.estimate.se, pair_of(source.measured.block, *pair).se, rel_tol=1e-9
    )


def _within(reading: Reading, question: Question) -> Iterator[str]:
    study, result = reading.study, reading.result
    sides = {question.first, question.second}
    stated = [
        c
        for c in result.contrasts
        if {c.of_part, c.against_part} == sides and study.arms[c.of].treatment == question.within
    ]
    for contrast in stated:
        yield spread.of_contrast(reading, contrast)
    if stated:
        return
    for id, arm in study.arms.items():
        for other in study.results:
            both = other.parts == [question.second] and id in result.values and id in other.values
            if arm.treatment == question.within and alike(other, result) and both:
                yield from spread.of_parts((reading, replace(reading, result=other)), id)


def _has_spread(reading: Reading, arm: str) -> bool:
    try:
        arm_log_mean(reading, arm)
    except Unusable:
        return False
    return True


def _own(block: Block, question: Question) -> str:
    y, se = pair_of(block, question.first, question.second)
    half = critical(block.df) * se
    df = (
        f"t({block.df:g}) = {figure(critical(block.df))}"
        if block.df is not None
        else f"z = {figure(critical(None))}"
    )
    return f"Its own ratio: {ratios(y, y - half, y + half)} (standard error {figure(se)}, {df})."
