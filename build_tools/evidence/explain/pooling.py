"""How samples became one estimate: spread between studies, direct and indirect sides, interval, assumed correlations."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import exp

from ...english import counted
from ..claims.component import Fitted
from ..claims.conclusions import Comparison
from ..claims.engine import Engine
from ..claims.verdict import RatioInterval
from ..model.checks import decompose
from ..model.intervals import ENOUGH_DF, inflation
from ..model.network import Network
from ..model.sides import split
from ..wording.amounts import amount, span
from .text import Line, distribution, figure, interval, ratios

_FROM = {
    "REML": "by restricted maximum likelihood",
    "moments": "by the method of moments",
    "given": "as given",
    "moments, as REML did not converge": "by the method of moments, as restricted maximum likelihood did not converge",
}


def lines(engine: Engine, comparison: Comparison) -> Iterator[Line]:
    """From the fitted network to the ratio that the page shows."""
    question = comparison.question
    fit = engine.fit(question)
    if fit is None or comparison.estimate is None:
        yield 1, "Nothing with a spread connects the two, so nothing is pooled."
        return
    yield 1, "Together"
    yield from ((2, text) for text in _model(fit))
    yield from (
        (2, text)
        for text in _estimate(fit.network, question.first, question.second, comparison.estimate)
    )
    tried = engine.tried(question)
    if tried:
        yield 2, "; ".join(_tried(tried, comparison.estimate)) + "."
    if comparison.sensitive:
        yield 2, comparison.sensitive


def _model(fit: Fitted) -> Iterator[str]:
    net = fit.network
    if len(net.blocks) == 1:
        yield "There is one sample, so its ratio is the estimate, and nothing shows how studies differ (no tau², no I²)."
        return
    held = f"{len(net.blocks)} samples connect {len(net.treatments)} exercises"
    if not net.df:
        yield f"{held}; none is measured twice and no loop closes, so nothing shows how studies differ (no tau², no I²)."
        return
    yield f"{held}, with {counted(net.df, 'contrast')} more than that takes."
    total = decompose(net).total
    p = f", p = {total.p:.2g}" if total.p is not None else ""
    yield (
        f"Spread between studies: tau² = {figure(net.tau2)} {_FROM.get(net.tau2_from, net.tau2_from)}; Q = {figure(total.q)} with "
        f"{total.df} degrees of freedom{p}; I² = (Q − df) / Q = {total.i2:.0f}%."
    )


def _estimate(net: Network, first: str, second: str, shown: RatioInterval) -> Iterator[str]:
    y, se = net.estimate(first, second)
    told = net.interval(first, second)
    factor = inflation(net.q, net.df)
    if len(net.blocks) == 1:
        yield _shown(shown)
        return
    if factor > 1:
        yield f"Standard error {figure(se)}, widened by √(Q / df) = {figure(factor)} (Q at this tau²) to {figure(told.se)}."
    else:
        yield f"Standard error {figure(se)}{'; Q is no larger than expected, so it is not widened' if net.df else ''}."
    whose = (
        "the network's own"
        if net.df >= ENOUGH_DF
        else "those of the variances it rests on, as the network has too few of its own"
    )
    yield f"Interval by {distribution(told.df)}, {whose}: {ratios(y, told.lower, told.upper)}."
    yield _shown(shown)
    side = next((s for s in split(net) if {s.a, s.b} == {first, second}), None)
    if side is None:
        yield "No sample compares the two itself: all of it comes through other exercises."
    elif side.separate and side.indirect and side.p is not None:
        turn = 1 if side.a == first else -1
        yield (
            f"Direct evidence alone gives a ratio of {figure(exp(turn * side.direct.estimate))} and has {side.share:.0%} of the weight, "
            f"indirect alone {figure(exp(turn * side.indirect.estimate))}; p of their difference {side.p:.2g}."
        )
    prediction = net.prediction(first, second)
    if prediction:
        yield f"A new study would be expected between {interval(exp(prediction.lower), exp(prediction.upper))}."


def _shown(estimate: RatioInterval) -> str:
    return (
        f"As the page tells it: {amount(estimate.ratio)}, {span(estimate.low, estimate.high)} "
        f"(ratio {figure(estimate.ratio)}, {interval(estimate.low, estimate.high)})."
    )


def _tried(tried: Sequence[tuple[str, RatioInterval]], shown: RatioInterval) -> Iterator[str]:
    yield "Over the stated ranges of the assumed correlations"
    moved = [(what, estimate) for what, estimate in tried if estimate != shown]
    for what, estimate in moved:
        yield f"with {what}, {figure(estimate.ratio)} ({interval(estimate.low, estimate.high)})"
    if len(moved) < len(tried):
        yield "the others change nothing" if moved else "nothing changes"
