"""How samples became one answer: spread between studies, direct and indirect sides, reports without a spread, what would change it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import exp

from ...english import counted
from ..claims.component import Component
from ..claims.conclusions import Comparison
from ..claims.engine import Engine
from ..claims.weighing import Weighing
from ..model.change import Outlook
from ..model.posterior import interval as central
from ..model.sides import split
from ..terms import RatioInterval
from ..wording.amounts import amount, span
from .text import Line, figure, interval, ratios


def lines(engine: Engine, comparison: Comparison) -> Iterator[Line]:
    """From the weighed network to the ratio that the page shows."""
    question = comparison.question
    weighing = engine.weighing(question)
    if weighing is None:
        yield 1, "Nothing connects the two with a number or a test, so nothing is weighed."
        return
    yield 1, "Together"
    component = engine.component(question)
    yield 2, _topic(weighing)
    if component and weighing.connected:
        yield from ((2, text) for text in _network(component, question.first, question.second))
    yield 2, _prior(engine, weighing)
    yield from ((2, text) for text in _answer(weighing))
    tried = engine.tried(question)
    if tried:
        yield 2, "; ".join(_tried(tried, weighing)) + "."
    for what, found in engine.expected(question):
        told = found.weighed.estimate
        yield (
            2,
            f"With {what} the spread between studies expected: {figure(told.ratio)} "
            f"({interval(told.low, told.high)}), {_finding(found)}.",
        )
    if comparison.outlook:
        yield 1, "What would change it"
        settled = comparison.finding in ("found", "alike")
        yield from ((2, text) for text in _outlook(comparison.outlook, settled))


def _topic(weighing: Weighing) -> str:
    measured = {
        "part": "the part itself",
        "together": "the part together with others",
        "whole": "the whole muscle",
    }[weighing.measured]
    dimension = f", by {weighing.topic.dimension}" if weighing.topic.dimension else ""
    return f"What is weighed: measurements of {measured}{dimension}."


def _network(component: Component, first: str, second: str) -> Iterator[str]:
    net = component.network
    if len(net.blocks) == 1:
        yield (
            "One sample has a spread of its own, so nothing shows how studies differ: the handbook's expectation stands in."
        )
    else:
        yield f"{len(net.blocks)} samples with a spread of their own connect {len(net.treatments)} exercises."
        common = net.common
        if common.df:
            yield (
                f"Without any spread between studies Q = {figure(common.q)} with {counted(common.df, 'degree', 'degrees')} of "
                f"freedom; the spread to expect after them is {figure(net.spread)}."
            )
    side = split(net.typical, first, second)
    if side is None:
        yield "No sample compares the two itself: all of it comes through other exercises."
    elif side.separate and side.indirect and side.p is not None:
        yield (
            f"Direct evidence alone gives a ratio of {figure(exp(side.direct.estimate))} and has {side.share:.0%} of the weight, "
            f"indirect alone {figure(exp(side.indirect.estimate))}; p of their difference {side.p:.2g}."
        )


def _prior(engine: Engine, weighing: Weighing) -> str:
    scale = engine.settings.spreads[weighing.topic.outcome]
    return (
        f"Spread between studies: half-normal of scale {figure(scale)} (log ratio) before any is read, and every value of it is "
        "weighed by how well it fits."
    )


def _answer(weighing: Weighing) -> Iterator[str]:
    if weighing.reports and weighing.connected and weighing.known:
        told = weighing.known.estimate
        yield f"Samples with a spread of their own alone: {figure(told.ratio)} ({interval(told.low, told.high)})."
    low, high = central(weighing.posterior)
    if weighing.has_interval:
        mean, sd = weighing.posterior.mean, weighing.posterior.sd
        yield f"Log ratio {figure(mean)}, standard deviation {figure(sd)}: {ratios(mean, low, high)}."
        yield _shown(weighing.weighed.estimate)
    else:
        yield "No number says how much, so only the chances below are told."
    yield (
        f"Chance of more at all {weighing.weighed.more:.1%}; that the likelier side is ahead by what matters "
        f"{weighing.weighed.matters:.1%}: {_finding(weighing)}."
    )


def _finding(weighing: Weighing) -> str:
    return f"{weighing.finding}, {weighing.side}" if weighing.side else weighing.finding


def _shown(estimate: RatioInterval) -> str:
    return (
        f"As the page tells it: {amount(estimate.ratio)}, {span(estimate.low, estimate.high)} "
        f"(ratio {figure(estimate.ratio)}, {interval(estimate.low, estimate.high)})."
    )


def _tried(tried: Sequence[tuple[str, Weighing]], shown: Weighing) -> Iterator[str]:
    yield "Over the stated ranges of the assumed correlations"
    moved = [
        (what, w.weighed.estimate)
        for what, w in tried
        if w.weighed.estimate != shown.weighed.estimate
    ]
    for what, estimate in moved:
        yield f"with {what}, {figure(estimate.ratio)} ({interval(estimate.low, estimate.high)})"
    if len(moved) < len(tried):
        yield "the others change nothing" if moved else "nothing changes"


def _outlook(outlook: Outlook, settled: bool) -> Iterator[str]:
    yield f"One more study of {outlook.same} people changes the finding with a chance of {outlook.chance:.0%}."
    if not settled:
        yield _settled_by(outlook)
    for further in outlook.studies:
        side = f", {further.side}" if further.side else ""
        yield f"If {further.people} people showed a ratio of {figure(further.ratio)}: {further.finding}{side}."


def _settled_by(outlook: Outlook) -> str:
    if outlook.people:
        return f"A study of {outlook.people} people would settle it in 8 of 10 cases."
    if outlook.more:
        return f"No single study would settle it in 8 of 10 cases; {outlook.more} more of {outlook.same} people would."
    return "Not even 20 more studies like these would settle it in 8 of 10 cases."
