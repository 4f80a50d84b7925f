"""Two exercises side by side: every statement on the pair under a short heading, and the answer in a few lines. Nothing is weighed anew.

Headings use the words of the marks (see ``evidence_map.marks``): found is told flatly, hinted leans, and what was measured wider than a
part says so. The statement itself stands one step below, with all it holds back.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from ..english import upper_first
from ..evidence.terms import LEVELS, Measured
from ..evidence.wording.names import Names
from ..evidence_map.marks import LEGEND, Fill, Mark
from ..evidence_map.preferences import Preference

Pair = tuple[str, str]
#: Places of what has no mark: strength, and studies that told of both without a test that was read.
_STRENGTH, _UNREAD = len(LEGEND), len(LEGEND) + 1
_END = re.compile(r"(?<=[.!?]) (?=[A-Z])")
#: What is said of a studied outcome: ahead for certain, leaning, measured wider, and what was compared.
_MORE = {
    "growth": ("grew more", "leans to more growth", "more growth", "growth"),
    "activation": (
        "more active in one session",
        "leans to more active in one session",
        "more active in one session",
        "activity in one session",
    ),
}
#: How a measurement that is wider than the part is told.
_WIDE: dict[Measured, str] = {
    "part": "",
    "together": ", measured with other parts",
    "whole": ", of the whole muscle",
}


@dataclass(frozen=True)
class PairStatement:
    """One statement on two exercises."""

    told: Preference
    mark: Mark | None
    """From the side that is ahead; None of strength, and where no test was read."""
    heading: str
    brief: str
    """The heading without the exercises, for where they are named beside it."""
    lead: str
    """The heading with none but the exercise that is ahead, for where no other two are spoken of."""

    @property
    def rank(self) -> int:
        """Its place: growth first, activation apart, then length and teaching, strength, and what no test was read of."""
        if self.mark:
            return LEGEND.index(self.mark)
        return _UNREAD if self.told.finding == "not studied" else _STRENGTH


@dataclass(frozen=True)
class AnswerLine:
    """What studies found of some parts at once."""

    mark: Mark
    sentence: str
    brief: str
    """Without the exercise that came out behind, for where no other two are spoken of."""


def pairs(names: Names, told: Iterable[Preference]) -> Mapping[Pair, list[PairStatement]]:
    """Statements by pair of ids, in order of the alphabet; each list by rank, then by part."""
    found: dict[Pair, list[PairStatement]] = {}
    for one in told:
        first, second = sorted((one.first, one.second))
        found.setdefault((first, second), []).append(_statement(names, one))
    return {
        pair: sorted(found[pair], key=lambda s: (s.rank, s.told.part)) for pair in sorted(found)
    }


def answer(names: Names, statements: Iterable[PairStatement]) -> list[AnswerLine]:
    """What was found of two exercises in a few lines: growth if any study measured it and what activation leans to, else all activation.

    A part of which only the whole muscle was measured is left out, and a muscle as a whole where a part of it was measured.
    """
    told = [s for s in statements if s.mark and s.mark.fill and s.told.measured != "whole"]
    grown = any(s.mark and s.mark.kind == "growth" for s in told)
    kept = [s for s in told if s.mark and (s.mark.kind == "growth" or s.mark.more or not grown)]
    parts = {(s.told.kind, s.told.part.partition("/")[0]) for s in kept if "/" in s.told.part}
    kept = [s for s in kept if "/" in s.told.part or (s.told.kind, s.told.part) not in parts]
    return list(_lines(names, kept))


def first_sentences(text: str) -> str:
    """A statement without its remarks: its first sentence, and how far to lean on it where that follows."""
    first, *rest = _END.split(text)
    kept = [one for one in rest if one.startswith(("Do not lean", "Another study"))]
    return " ".join([first, *kept])


def _lines(names: Names, kept: list[PairStatement]) -> Iterator[AnswerLine]:
    def alike(one: PairStatement) -> tuple[int, str]:
        return one.rank, one.heading

    for _, group in groupby(sorted(kept, key=alike), key=alike):
        some = list(group)
        level = _levels({s.told.certainty for s in some if s.told.certainty})
        assert some[0].mark
        parts = names.parts([s.told.part for s in some])
        told = f": {parts}{level}."
        yield AnswerLine(some[0].mark, some[0].heading + told, some[0].lead + told)


def _levels(found: set[str]) -> str:
    """`` (certainty very low)``, or the lowest and the highest."""
    known = [level for level in LEVELS if level in found]
    if not known:
        return ""
    words = known[0] if len(known) == 1 else f"{known[0]} to {known[-1]}"
    return f" (certainty {words})"


def _statement(names: Names, told: Preference) -> PairStatement:
    first, second = names.exercise(told.first), names.exercise(told.second)
    unread = ": no test of the two was read" if told.finding == "not studied" else ""
    match told.kind:
        case "growth" | "activation":
            return _studied(told, told.kind, first, second, unread)
        case "strength":
            return _made(told, None, f"strength, {first} and {second}{unread}")
        case "length":
            way = "longer in {} than in {}" if told.ahead else "about as long in {} as in {}"
            return _made(told, Mark("length"), f"by the model, {way.format(first, second)}")
    return _made(told, Mark("taught"), told.sentence.removesuffix("."))


def _studied(
    told: Preference, kind: Literal["growth", "activation"], first: str, second: str, unread: str
) -> PairStatement:
    more, leans, wider, outcome = _MORE[kind]
    wide = _WIDE[told.measured]
    if unread:
        return _made(told, None, f"{outcome} with {first} and {second}{unread}")
    if told.ahead:
        certain = told.finding == "found"
        fill: Fill = "wider" if wide else "found" if certain else "hinted"
        words = leans if not certain else wider if wide else more
        lead = f"{words} with {first}"
        heading = f"{lead} than with {second}"
    elif told.finding == "alike":
        fill, words = "no more", f"{outcome} about alike"
        lead, heading = words, f"{words} with {first} and {second}"
    else:
        fill, words = "no more", f"no clear difference in {outcome}"
        lead, heading = words, f"{words} between {first} and {second}"
    return _made(told, Mark(kind, fill), heading + wide, words + wide, lead + wide)


def _made(told: Preference, mark: Mark | None, *headings: str) -> PairStatement:
    """From one heading for all places, or from one for each."""
    heading, brief, lead = map(upper_first, headings if len(headings) > 1 else headings * 3)
    return PairStatement(told, mark, heading, brief, lead)
