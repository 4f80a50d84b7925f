"""Sentences composed from an answer: who gained more, by how much, how sure that is. Nobody writes these by hand.

The main clause is a phrase of ``table`` and names first what came out ahead; ``figures`` has its numbers,
``remarks`` what follows it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal, NamedTuple

from ...english import listed, upper_first
from ..terms import Answer, EvidenceFinding, Question, Side
from ..threshold import leaves_out
from . import figures
from .clauses import Compared, contrast
from .names import Names
from .remarks import counts, pointing, remarks
from .table import CAUTION, OTHERWISE, TableRow, filled
from .turning import mirrored, once

#: Where a sentence ends and the remarks on it begin.
_END = re.compile(r"(?<=[.]) (?=[A-Z])")


#: How a sentence begins that says what a report of no difference leaves open.
_LEFT_OPEN = re.compile(r"(It was|Together they were) too small to rule out|How large a difference")


class ComposedAnswer(NamedTuple):
    """A sentence, and the short ones that follow it."""

    sentence: str
    remarks: tuple[str, ...]


def compose_answer(names: Names, answer: Answer) -> ComposedAnswer:
    """The sentence on an answer and, after it, what a reader must know of the studies.

    Raises ``ValueError`` for a finding without a level, or a difference without a side.
    """
    sides = contrast(names, answer.question, answer.parts, answer.strength_test)
    if answer.side == "less":
        answer, sides = mirrored(answer), sides.turned
    if answer.finding == "not studied":
        told = _not_studied(answer, sides)
    elif answer.level is None:
        raise ValueError("what was found has a certainty")
    else:
        row = row_of(answer)
        told = filled(row, answer.level, _slots(answer, sides, row))
    return ComposedAnswer(told, tuple(remarks(names, answer, sides, told)))


def arranged(told: Sequence[ComposedAnswer]) -> tuple[ComposedAnswer, ...]:
    """Answers one after another; a remark that holds for all of them is made once, after the last."""
    if len(told) == 1:
        return tuple(told)
    sentences = [one.sentence for one in told]
    if all(sentence.endswith(CAUTION) for sentence in sentences):
        sentences[:-1] = [sentence.removesuffix(CAUTION) for sentence in sentences[:-1]]
    shared = tuple(r for r in told[0].remarks if all(r in other.remarks for other in told))
    each = tuple(
        ComposedAnswer(sentence, tuple(r for r in one.remarks if r not in shared))
        for sentence, one in zip(sentences, told, strict=True)
    )
    return (*each, ComposedAnswer("", shared)) if shared else each


def run_together(told: Sequence[ComposedAnswer]) -> str:
    """Answers as one text."""
    return " ".join(text for one in arranged(told) for text in (one.sentence, *one.remarks) if text)


def in_brief(told: str, drawn: bool) -> str:
    """The first sentence of an answer with its caution and what it leaves open, without its remarks.

    Where its numbers are drawn beside it, without them.
    """
    first, *rest = _END.split(told)
    if drawn:
        clause, numbers, _ = first.partition(": ")
        first = f"{clause}." if numbers else first
    kept = [text for text in rest if f" {text}" in (CAUTION, OTHERWISE) or _LEFT_OPEN.match(text)]
    return " ".join([first, *kept])


def row_of(answer: Answer) -> TableRow:
    """The row of the table that an answer falls in; raises ``ValueError`` for a difference without a side."""
    numbers = answer.estimate is not None and answer.sized
    match answer.finding:
        case "found" | "hinted":
            if answer.side is None:
                raise ValueError("a difference has a side")
            if not numbers:
                return "direction only"
            if answer.finding == "hinted":
                return _lean(answer)
            return "trivial" if answer.trivial else "found"
        case "alike":
            if answer.estimate is None:
                raise ValueError("likeness needs an interval")
            return "alike"
        case "unclear":
            said = answer.directions
            if answer.conflict or (not numbers and said.more and said.less):
                return "opposite"
            # Reports of no difference are told as such; any other mix is not clear.
            return "unclear" if numbers or said.total > said.neither else "no difference reported"
    raise ValueError("nothing was found where nothing was studied")


def _lean(answer: Answer) -> TableRow:
    """Why a difference is only leaned to: what was measured, that nobody tested it, a single study, or its interval."""
    estimate = answer.estimate
    if estimate and leaves_out(estimate.low, estimate.high, 1):
        if answer.measured != "part":
            return "not alone"
        if not answer.own_test:
            return "not tested"
    alone = answer.own_test and answer.studies == 1 and answer.path != "indirect"
    return "one study's own" if alone else "hinted"


def _slots(answer: Answer, sides: Compared, row: TableRow) -> dict[str, str]:
    said = answer.directions
    agreeing = said.more if said.total and said.more < said.total else None
    return {
        **sides.slots(),
        "who": figures.who(answer),
        "whom": figures.whom(answer, agreeing if row == "direction only" else None),
        "figures": _figures(answer, sides, row),
        "extent": _extent(answer),
        "missed": figures.missed(answer, sides) if row == "no difference reported" else "",
    }


def _figures(answer: Answer, sides: Compared, row: TableRow) -> str:
    if answer.estimate is None or (not answer.sized and row != "alike"):
        size = counts(answer, sides) if answer.directions.total else ""
    else:
        size = figures.size(answer, sides, whose=row in ("alike", "unclear", "opposite"))
        if row == "opposite":
            size = f"together {size}"
    # At very low certainty the sentence begins with its studies.
    studies_told = (
        answer.level == "very low"
        and row in ("found", "trivial", "alike", "hinted")
        and answer.path != "indirect"
    ) or bool(answer.estimate is None and size)
    told = ", ".join(filter(None, (size, figures.support(answer, studies_told))))
    return f": {told}" if told else ""


def _extent(answer: Answer) -> str:
    """How much more, where no ratio can be had: the paper's own numbers, or that there are none."""
    if answer.difference:
        printed = once(answer.printed) if answer.printed else None
        told = dict.fromkeys(filter(None, (printed, answer.difference, answer.p)))
        return f": {'; '.join(told)}"
    if answer.printed:
        return f": {once(answer.printed)}; no range is printed"
    return "; by how much is not printed"


def _not_studied(answer: Answer, sides: Compared) -> str:
    """Numbers or directions that nobody tested, or that there is nothing."""
    slots = sides.slots()
    if answer.printed and answer.studies:
        told = f"{figures.whom(answer)} printed {once(answer.printed)} for {slots['pair_of']}"
        return f"{upper_first(told)}; no test of the two was read."
    if answer.untested:
        return f"{upper_first(slots['between'])} is untested here: {pointing(answer, sides)}."
    return f"No study here compared {slots['between']}."


def taught(
    names: Names,
    question: Question,
    parts: tuple[str, ...],
    direction: Literal["more", "less", "alike"],
    common_practice: bool,
) -> str:
    """The sentence on a claim that nothing in the catalog tests."""
    told = "commonly taught, untested here" if common_practice else "cited, but untested here"
    return f"{upper_first(told)}: {claimed(names, question, parts, direction)}."


def claimed(
    names: Names,
    question: Question,
    parts: tuple[str, ...],
    direction: Literal["more", "less", "alike"],
) -> str:
    """A claim as its author makes it, as a clause: ``the seated leg curl grows the semitendinosus more than the Nordic curl``."""
    sides = contrast(names, question, parts)
    slots = sides.slots()
    if direction == "alike":
        return "{both} {both_grow} {parts} {alike}".format(**slots)
    more = sides.words.more if direction == "more" else sides.words.less
    return "{exercise} {grows} {part} {how} than {other}".format(**slots, how=more)


def sides(names: Names, question: Question) -> tuple[str, str]:
    """Both sides after ``more``: ``with the crate curl``; of two parts ``for the long head``."""
    compared = contrast(names, question, (question.part,))
    return compared.whose, compared.other


def taught_in_brief(
    names: Names, question: Question, direction: Literal["more", "less", "alike"]
) -> str:
    """A claim in a few words, where its part is plain: ``more growth with the crate curl than with the cable curl``."""
    sides = contrast(names, question, (question.part,))
    if direction == "less":
        sides = sides.turned
    noun, with_ = sides.words.noun, sides.words.with_
    if sides.within:
        told = f"more {noun} of {sides.first} than of {sides.second} {with_} {sides.within}"
        alike = f"{noun} of {sides.first} and {sides.second} alike {with_} {sides.within}"
    else:
        told = f"more {noun} {with_} {sides.first} than {with_} {sides.second}"
        alike = f"{noun} alike {with_} {sides.first} and {sides.second}"
    return alike if direction == "alike" else told


def describe_kinds(
    names: Names,
    part: str,
    first: str,
    second: str,
    found: Sequence[tuple[str, EvidenceFinding, Side | None]],
) -> str:
    """Whether kinds of evidence on one pair and part agree; each is an outcome, what was found, and the side ahead.

    ``For the long head, activation and growth agree: both favour the crate curl.``
    """
    names_of: dict[Side, str] = {"more": names.exercise(first), "less": names.exercise(second)}
    kinds = listed([outcome for outcome, _, _ in found])
    sides = {side for _, finding, side in found if finding == "found"}
    findings = {finding for _, finding, _ in found}
    leaning = {side for _, _, side in found}
    clauses = [_kind(outcome, finding, side, names_of) for outcome, finding, side in found]
    if findings == {"found"} and len(sides) == 1:
        which = "both" if len(found) == 2 else "all"
        told = f"{kinds} agree: {which} favour {names_of[sides.pop() or 'more']}"
    elif len(sides) > 1:
        told = f"{kinds} point opposite ways: {', '.join(clauses)}; one does not outweigh the other"
    elif leaning in ({"more"}, {"less"}):
        ahead = names_of["more" if "more" in leaning else "less"]
        told = f"{kinds} point the same way, to {ahead}, but not all clearly"
    elif findings == {"alike"}:
        told = f"{kinds} agree: alike with {names_of['more']} and {names_of['less']}"
    elif findings == {"unclear"}:
        either = kinds.replace(" and ", " or ")
        told = f"no clear difference in {either} between {names_of['more']} and {names_of['less']}"
    else:
        told = ("; " if "hinted" in findings else ", ").join(clauses)
    return f"For {names.part(part)}, {told}."


def _kind(
    outcome: str, finding: EvidenceFinding, side: Side | None, names_of: dict[Side, str]
) -> str:
    """``activation favoured the crate curl``."""
    match finding:
        case "found":
            assert side
            return f"{outcome} favoured {names_of[side]}"
        case "hinted":
            assert side
            return f"{outcome} leaned towards {names_of[side]}, not clearly"
        case "alike":
            return f"{outcome} was alike"
        case "unclear":
            return f"{outcome} did not clearly differ"
    return f"{outcome} was not compared"
