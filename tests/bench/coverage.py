"""How often a 95% interval holds the truth, and how far selection by significance pulls it: simulated studies of one pair.

Seeded. A study has a true effect of its own around the average, a standard error, and prints a number with it; or it prints
no spread: a number with a bound on p, or a bare direction, weighed with a standard error borrowed around the true one.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt
from typing import NamedTuple

import numpy as np

from build_tools.evidence.model.blocks import Block
from build_tools.evidence.model.network import Network
from build_tools.evidence.model.nodes import BorrowedSpread
from build_tools.evidence.model.posterior import Posterior, interval
from build_tools.evidence.model.reports import PairReport, weigh

#: Degrees of freedom of every study: sixteen people who do both sides.
DF = 15
#: Size of t that a test at p < 0.05 asks for with them.
CRITICAL = 2.131
#: Spread of the logarithm of borrowed standard errors.
BORROWED = 0.5
STUDIES = (1, 2, 3, 5, 10)
SPREADS = (0.0, 0.5, 1.0, 2.0)


class Kind(NamedTuple):
    """An outcome as its studies are like: smallest and largest standard error, and scales of the priors (log ratios)."""

    name: str
    errors: tuple[float, float]
    scale: float
    effect: float


KINDS = (Kind("growth", (0.015, 0.025), 0.025, 0.06), Kind("activation", (0.08, 0.12), 0.2, 0.6))
#: How studies report: all with their spread; one in two without (a null or a direction where no number is told).
MIXES = ("all print a spread", "half print none", "none prints one")


class Cell(NamedTuple):
    """Share of intervals that hold the truth, their median width, and mean of the middles less the truth."""

    coverage: float
    width: float
    bias: float


def simulate(kind: Kind, studies: int, spread: float, mix: str, runs: int) -> Cell:
    """Coverage for ``studies`` of a kind whose true spread is ``spread`` times the prior's scale; truths as far as is usual."""
    dice = np.random.default_rng([studies, int(10 * spread), MIXES.index(mix), len(kind.name)])
    held, widths, off = [], [], []
    for _ in range(runs):
        truth = dice.normal(0, kind.effect)
        found = _weigh(kind, studies, spread * kind.scale, mix, truth, dice)
        low, high = interval(found)
        held.append(low <= truth <= high)
        widths.append(high - low)
        off.append(found.mean - truth)
    return Cell(float(np.mean(held)), float(np.median(widths)), float(np.mean(off)))


def selected(kind: Kind, truth: float, runs: int) -> tuple[Cell, Cell]:
    """Five studies of which only those that found something print a number: what is made of these alone, and of all reports."""
    dice = np.random.default_rng(99)
    told: tuple[list[tuple[float, float, float]], ...] = ([], [])
    for _ in range(runs):
        blocks, nulls = [], []
        for n in range(5):
            y, se, printed = _study(kind, kind.scale, truth, dice)
            if abs(y) / printed > CRITICAL:
                blocks.append(_block(n, y, printed))
            else:
                nulls.append(PairReport(f"s{n}", None, 0, CRITICAL, _borrowed(se, dice)))
        if not blocks:
            continue
        network = Network(blocks, kind.scale)
        alone = network.posterior("a", "b")
        both = weigh(alone, network.tau, nulls, kind.scale, kind.effect)
        for found, of in zip((alone, both), told, strict=True):
            of.append((found.mean, *interval(found)))
    cells = []
    for of in told:
        means, low, high = np.array(of).T
        held = float(np.mean((low <= truth) & (truth <= high)))
        cells.append(Cell(held, float(np.median(high - low)), float(means.mean()) - truth))
    return cells[0], cells[1]


def _study(
    kind: Kind, tau: float, truth: float, dice: np.random.Generator
) -> tuple[float, float, float]:
    """A study's number, its standard error, and the one that it prints, estimated from its people."""
    se = dice.uniform(*kind.errors)
    y = dice.normal(truth, sqrt(se**2 + tau**2))
    return float(y), float(se), float(se * sqrt(dice.chisquare(DF) / DF))


def _block(number: int, y: float, se: float) -> Block:
    return Block(f"s{number}", ("b", "a"), np.array([y]), np.array([[se**2]]), DF)


def _borrowed(se: float, dice: np.random.Generator) -> BorrowedSpread:
    return BorrowedSpread(float(se * np.exp(dice.normal(0, BORROWED))), BORROWED)


def _weigh(
    kind: Kind, studies: int, tau: float, mix: str, truth: float, dice: np.random.Generator
) -> Posterior:
    blocks, reports = [], []
    for n in range(studies):
        y, se, printed = _study(kind, tau, truth, dice)
        bare = mix == MIXES[2] or (mix == MIXES[1] and n % 2 == (studies > 1))
        if not bare:
            blocks.append(_block(n, y, printed))
            continue
        sign = 0 if abs(y) / printed <= CRITICAL else 1 if y > 0 else -1
        # Every third report tells only what its test found, the others their number too.
        number = None if n % 3 == 2 else y
        reports.append(PairReport(f"s{n}", number, sign, CRITICAL, _borrowed(se, dice)))
    network = Network(blocks, kind.scale) if blocks else None
    return weigh(
        network.posterior("a", "b") if network else None,
        network.tau if network else None,
        reports,
        kind.scale,
        kind.effect,
    )


def table(runs: int) -> Iterator[str]:
    """The measured tables, in Markdown."""
    for kind in KINDS:
        yield f"**{kind.name}**: standard error {kind.errors[0]:g} to {kind.errors[1]:g}, prior {kind.scale:g}; {runs} runs a cell"
        yield ""
        yield "| reports | true spread / prior | " + " | ".join(f"k = {k}" for k in STUDIES) + " |"
        yield "| --- | --- |" + " --- |" * len(STUDIES)
        for mix in MIXES:
            for spread in SPREADS:
                cells = [simulate(kind, k, spread, mix, runs) for k in STUDIES]
                told = " | ".join(f"{100 * cell.coverage:.1f}" for cell in cells)
                yield f"| {mix} | {spread:g} | {told} |"
        yield ""
    yield "Selection by significance: five studies, those that found nothing print no number; true spread as the prior's scale"
    yield ""
    yield "| outcome | truth | bias, significant alone | with the nulls | coverage, significant alone | with the nulls |"
    yield "| --- | --- | --- | --- | --- | --- |"
    for kind in KINDS:
        for truth in (0.0, kind.effect / 2):
            alone, both = selected(kind, truth, runs)
            yield (
                f"| {kind.name} | {truth:g} | {alone.bias:+.3f} | {both.bias:+.3f} | "
                f"{100 * alone.coverage:.0f} | {100 * both.coverage:.0f} |"
            )


def report(runs: int) -> None:
    """Print the tables as they come."""
    for line in table(runs):
        print(line, flush=True)
