"""Sentences composed from an answer: direction, size with interval, certainty, studies. Nobody writes these by hand.

The subject is always the outcome ("Growth of ...", "Activity of ..."), so that
activation in one session can never read as growth, and the certainty is carried
by the verb (is, is probably, may be) as GRADE words it.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Literal, NamedTuple

from ...catalog.entries import Test
from ...english import counted, listed, lower_first, upper_first
from ..certainty.body import Level
from ..claims.conclusions import Question, Shape
from ..claims.verdict import Directions, RatioInterval
from ..threshold import above, below, leaves_out, within
from .amounts import TIMES_FROM, amount, percent
from .amounts import people as counted_people
from .names import Names


class _Words(NamedTuple):
    noun: str
    more: str
    less: str
    with_: str
    larger: str
    smaller: str


_AT_THE_END = " at the end"
_OUTCOMES = {
    "growth": _Words(
        "growth", "greater", "smaller", "with", f"larger{_AT_THE_END}", f"smaller{_AT_THE_END}"
    ),
    "activation": _Words("activity", "higher", "lower", "in", "more", "less"),
    "strength": _Words(
        "strength gain",
        "greater",
        "smaller",
        "with",
        f"stronger{_AT_THE_END}",
        f"weaker{_AT_THE_END}",
    ),
    "length": _Words("length", "greater", "smaller", "in", "longer", "shorter"),
    "architecture": _Words("change in architecture", "greater", "smaller", "with", "more", "less"),
}
#: How many studies' own ways of doing an exercise a sentence tells.
_TOLD = 2
#: Two sides that do not differ by an amount that matters.
_ALIKE = "about the same"
_VERBS: dict[Level, str] = {
    "high": "is",
    "moderate": "is probably",
    "low": "may be",
    "very low": "is",
}


@dataclass(frozen=True)
class Behind:
    """What a sentence says of the studies behind an answer."""

    support: str
    """On whom it rests: ``1 study of 20 people``."""
    printed: str | None = None
    """The paper's own numbers, where nothing was pooled."""
    spread_printed: bool = False
    """Whether they come with their spread, in a unit that makes no ratio."""
    tests: frozenset[Test] = frozenset()
    """What stands behind the direction."""
    strength_test: str | None = None
    """For strength: the one test that all studies made."""
    untested: tuple[tuple[Literal["more", "less", "neither"], Test], ...] = ()
    """Direction and test of each further study of which no test of the pair was read."""
    together: tuple[str, ...] = ()
    """Other parts that the same number covers."""
    jointly: bool = False
    """Whether one number covers all the parts that the sentence names."""
    as_tested: tuple[tuple[tuple[str, str], ...], ...] = ()
    """For each study: what was done -> how it differs from the catalog's exercise."""
    phase: str | None = None
    """The one phase of the repetition, or moment of the signal, that all numbers are of."""


#: What stands behind a direction of which no test of the two sides was read. What was not read may still have been done.
_UNTESTED: dict[Test, str] = {
    "within": "but each was only compared with its own start",
    "ranking": "in a ranking; no test of this pair was read",
    "omnibus": "after one test over all exercises; no test of this pair was read",
    "none": "but no test of the difference was read",
}


def shape(estimate: RatioInterval | None, directions: Directions, margin: float) -> Shape:
    """What the numbers look like: the estimate decides where there is one, else the stated directions."""
    if estimate:
        if within(estimate.low, estimate.high, 1 / margin, margin):
            return "alike"
        return (
            "more" if above(estimate.low, 1) else "less" if below(estimate.high, 1) else "unclear"
        )
    found = [
        kind
        for kind, n in (
            ("more", directions.more),
            ("less", directions.less),
            ("none found", directions.neither),
            ("split", directions.mixed),
        )
        if n
    ]
    return "untested" if not found else found[0] if len(found) == 1 else "split"  # type: ignore[return-value]


def answer(
    names: Names,
    question: Question,
    parts: tuple[str, ...],
    found: Shape,
    level: Level,
    behind: Behind,
    estimate: RatioInterval | None = None,
    directions: Directions | None = None,
    degree: str = "",
) -> str:
    """The sentence on a question, for one part or for several parts with the same answer, and what a reader must know of the test.

    ``degree`` is the size in a word.
    """
    told = [
        _answer(names, question, parts, found, level, behind, estimate, directions, degree),
        *_remarks(names, parts, behind),
    ]
    if estimate and directions and directions.total:
        told.append(
            _sentence(f"beside it, without a spread, {_split(names, question, directions)}")
        )
    return " ".join(
        told
        + [
            _untested(names, question, found, *kind, n)
            for kind, n in Counter(behind.untested).items()
        ]
    )


def _untested(
    names: Names,
    question: Question,
    found: Shape,
    direction: Literal["more", "less", "neither"],
    test: Test,
    studies: int,
) -> str:
    """``1 further study found no difference, after one test over all exercises; no test of this pair was read.``"""
    who = counted(studies, "further study", "further studies")
    one = studies == 1
    if direction == "neither":
        told = "found no difference"
    elif found in ("more", "less"):
        told = f"{'points' if one else 'point'} {'the same way' if direction == found else 'the other way'}"
    else:
        name = names.part if question.within else names.exercise
        told = f"{'points' if one else 'point'} to {name(question.first if direction == 'more' else question.second)}"
    return f"{who.capitalize()} {told}, {_UNTESTED.get(test, _UNTESTED['none'])}."


def _answer(
    names: Names,
    question: Question,
    parts: tuple[str, ...],
    found: Shape,
    level: Level,
    behind: Behind,
    estimate: RatioInterval | None,
    directions: Directions | None,
    degree: str,
) -> str:
    figures, support, test = (
        f" ({behind.printed})" if behind.printed else "",
        behind.support,
        behind.strength_test,
    )
    if found == "unclear":
        told = _size(names, question, estimate, turned=True)
        return _sentence(
            f"no clear difference in {_topic(names, question, parts, test)}: {told}, from {support}"
        )
    if found == "none found":
        return _sentence(
            f"no difference in {_topic(names, question, parts, test)} was reported in {support}{figures}; "
            "that does not show that they are alike"
        )
    if found == "split":
        assert directions
        return _sentence(
            f"reports differ on {_topic(names, question, parts, test)}: {_split(names, question, directions)}"
        )
    lead, subject, rest = _contrast(names, question, parts, found, test)  # type: ignore[arg-type]
    if level == "very low":
        clause = f"{lead}it is very uncertain whether {subject} {_be('is', rest)} {rest}"
    else:
        verb = f"{_be(_VERBS[level], rest)} {degree}".rstrip()
        clause = f"{lead}{subject} {verb} {rest}"
    if estimate:
        return _sentence(
            f"{clause}: {_size(names, question, estimate, turned=found == 'alike')}, from {support}"
        )
    lacking = "" if behind.spread_printed else ", without the spread that an estimate needs"
    return _sentence(f"{clause}: {support} reported it{figures}{lacking}")


def read_off(
    names: Names,
    question: Question,
    parts: tuple[str, ...],
    direction: Literal["more", "less", "neither"],
    behind: Behind,
) -> str:
    """The sentence when two numbers differ, but no test of the two sides and no spread was read."""
    figures = f" ({behind.printed})" if behind.printed else ""
    untested = next(iter(behind.tests)) if len(behind.tests) == 1 else "none"
    why = _UNTESTED.get(untested, "but no test of the two against each other was read")
    if direction == "neither":
        topic = _topic(names, question, parts, behind.strength_test)
        told = (
            f"untested here: no difference in {topic} was found in {behind.support}{figures}, {why}"
        )
    else:
        lead, subject, rest = _contrast(names, question, parts, direction, behind.strength_test)
        told = f"untested here: {lead}{subject} was {rest} in {behind.support}{figures}, {why}"
    return " ".join([_sentence(told), *_remarks(names, parts, behind)])


def _remarks(names: Names, parts: tuple[str, ...], behind: Behind) -> list[str]:
    """What one number covered together, and what was done otherwise than here, each in a sentence."""
    told = []
    if behind.together:
        told.append(f"One number covers {names.parts((*parts, *behind.together))} together.")
    elif len(parts) > 1 and behind.jointly:
        told.append("One number covers them together.")
    if behind.phase:
        told.append(f"Measured: {lower_first(behind.phase)}.")
    studies = Counter(study for study in behind.as_tested if study)
    for study, n in list(studies.items())[:_TOLD]:
        told.append(
            _as_tested(
                names,
                study,
                ""
                if len(behind.as_tested) == 1
                else f" in {n} of the {len(behind.as_tested)} studies",
            )
        )
    if more := sum(list(studies.values())[_TOLD:]):
        told.append(f"In {more} more, an exercise was done otherwise than here.")
    return told


def _as_tested(names: Names, study: tuple[tuple[str, str], ...], where: str) -> str:
    """``As tested: the seated row, held still for 10 s.``"""
    ways = dict.fromkeys(way.rstrip(".") for _, way in study)
    if len(study) > 1 and len(ways) == 1:
        return f"As tested{where}, both: {lower_first(next(iter(ways)))}."
    return f"As tested{where}: {'; '.join(f'{names.exercise(id)}, {lower_first(way)}'.rstrip('.') for id, way in study)}."


def taught(
    names: Names,
    question: Question,
    parts: tuple[str, ...],
    direction: Literal["more", "less", "alike"],
    common_practice: bool,
) -> str:
    """The sentence on a claim that nothing in the catalog tests."""
    told = "commonly taught, untested here" if common_practice else "cited, but untested here"
    return _sentence(f"{told}: {claimed(names, question, parts, direction)}")


def claimed(
    names: Names,
    question: Question,
    parts: tuple[str, ...],
    direction: Literal["more", "less", "alike"],
) -> str:
    """A claim as its author makes it, as a clause: ``growth of the semitendinosus is greater with the curl than ...``."""
    lead, subject, rest = _contrast(names, question, parts, direction)
    return f"{lead}{subject} {_be('is', rest)} {rest}"


def _contrast(
    names: Names,
    question: Question,
    parts: tuple[str, ...],
    direction: Literal["more", "less", "alike"],
    strength_test: str | None = None,
) -> tuple[str, str, str]:
    """The contrast around its verb: where it holds, what is compared, and how.

    ``("", "growth of the semitendinosus", "greater with the curl than with the bridge")``
    """
    words = _OUTCOMES[question.outcome]
    word = {"more": words.more, "less": words.less, "alike": _ALIKE}[direction]
    subject = _subject(names, words, parts, strength_test)
    if question.relative_to:
        subject += f" relative to {names.part(question.relative_to)}"
    if question.within:
        lead, that = (
            f"{words.with_} {names.exercise(question.within)}, ",
            f"that of {names.part(question.second)}",
        )
        return (
            (lead, f"{subject} and {that}", _ALIKE)
            if direction == "alike"
            else (lead, subject, f"{word} than {that}")
        )
    first, second = (
        f"{words.with_} {names.exercise(id)}" for id in (question.first, question.second)
    )
    return "", subject, f"{word} {first} {'as' if direction == 'alike' else 'than'} {second}"


def _subject(names: Names, words: _Words, parts: tuple[str, ...], strength_test: str | None) -> str:
    """What is compared: ``growth of the semitendinosus``; of strength the test, since a whole lift is no part's strength."""
    return (
        f"gain in the {lower_first(strength_test)}"
        if strength_test
        else f"{words.noun} of {names.parts(parts)}"
    )


def _be(verb: str, rest: str) -> str:
    """``is`` after one subject, ``are`` after two that are about the same within an exercise."""
    return verb.replace("is", "are", 1) if rest == _ALIKE and verb.startswith("is") else verb


def size(estimate: RatioInterval | None, words: _Words, whose: str = "") -> str:
    """The estimate with its interval: ``6% larger at the end (95% interval 3% to 10%)``.

    ``whose`` says which of the two is larger, where the sentence has not said so.
    """
    assert estimate is not None
    word = words.larger if estimate.ratio >= 1 else words.smaller
    told = f"{percent(estimate.ratio)} {word}{whose}" if estimate.ratio != 1 else "no difference"
    # "458% more" is no way to speak; changes of size never get there.
    many = estimate.ratio >= TIMES_FROM and not words.larger.endswith(_AT_THE_END)
    if many:
        told = f"{amount(estimate.ratio)}{whose}"
    if estimate.bounded:
        return f"{told} (only a bound on p is printed, so no interval)"
    if leaves_out(estimate.low, estimate.high, 1):
        if many:
            return f"{told} (95% interval {amount(estimate.low)} to {amount(estimate.high)})"
        near, far = (
            (estimate.low, estimate.high) if estimate.ratio > 1 else (estimate.high, estimate.low)
        )
        return f"{told} (95% interval {percent(near)} to {percent(far)})"
    lower, upper = (
        f"{percent(estimate.low)} {words.smaller.split()[0]}",
        f"{percent(estimate.high)} {words.larger.split()[0]}",
    )
    return f"{told} (95% interval {lower} to {upper})"


def _size(names: Names, question: Question, estimate: RatioInterval | None, turned: bool) -> str:
    """The size in its sentence; ``turned`` when that has not yet said which of the two is larger."""
    words = _OUTCOMES[question.outcome]
    if not question.within:
        return size(
            estimate, words, f" {words.with_} {names.exercise(question.first)}" if turned else ""
        )
    whose = f" for {names.part(question.first)}" if turned else ""
    if words.larger.endswith(_AT_THE_END):
        # Of two parts, one ends larger than the other whatever was trained: their changes are compared.
        words = words._replace(
            larger=words.larger.removesuffix(_AT_THE_END),
            smaller=words.smaller.removesuffix(_AT_THE_END),
        )
        whose += ", each part against its own start"
    return size(estimate, words, whose)


def support(studies: int, people: int, indirect: bool = False, groups: int | None = None) -> str:
    """``1 study of 20 people``; ``of 36 people in 3 groups``; indirect evidence says that it comes through other exercises."""
    who = f"{counted(studies, 'study', 'studies')} of {counted_people(people)}" + (
        f" in {groups} groups" if groups else ""
    )
    return f"{who} that connect them through other exercises" if indirect else who


def disagreement(
    names: Names, part: str, first: str, second: str, told: list[tuple[str, Shape]]
) -> str:
    """That two kinds of evidence point different ways on a pair and part."""
    words = [(_OUTCOMES[outcome], found) for outcome, found in told]
    ways = [f"{w.noun} is {w.more if found == 'more' else w.less}" for w, found in words]
    return _sentence(
        f"for {names.part(part)}, the kinds of evidence point different ways: {listed(ways)} with {names.exercise(first)} "
        f"than with {names.exercise(second)}; one does not outweigh the other"
    )


def _topic(
    names: Names, question: Question, parts: tuple[str, ...], strength_test: str | None = None
) -> str:
    words = _OUTCOMES[question.outcome]
    if question.within:
        between = f"between {names.parts(parts)} and {names.part(question.second)}"
        return f"{words.noun} {between} {words.with_} {names.exercise(question.within)}"
    ratio = f" relative to {names.part(question.relative_to)}" if question.relative_to else ""
    subject = _subject(names, words, parts, strength_test)
    return f"{subject}{ratio} between {names.exercise(question.first)} and {names.exercise(question.second)}"


def _split(names: Names, question: Question, directions: Directions) -> str:
    first, second = (
        (names.part(question.first), names.part(question.second))
        if question.within
        else (names.exercise(question.first), names.exercise(question.second))
    )
    told = (
        (directions.more, f"found more for {first}"),
        (directions.less, f"found more for {second}"),
        (directions.neither, "found no difference"),
        (directions.mixed, "found different answers in different measurements"),
    )
    return ", ".join(f"{counted(n, 'study', 'studies')} {said}" for n, said in told if n)


def _sentence(text: str) -> str:
    return f"{upper_first(text)}."
