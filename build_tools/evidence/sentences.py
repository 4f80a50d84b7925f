"""Sentences composed from an answer: direction, size with interval, certainty, studies. Nobody writes these by hand.

The subject is always the outcome ("Growth of ...", "Activity of ..."), so that
activation in one session can never read as growth, and the certainty is carried
by the verb (is, is probably, may be) as GRADE words it.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from .amounts import people as counted_people
from .amounts import percent
from .certainty_rules.body import Level
from .model import Question, Shape
from .names import Names, counted, listed, upper_first
from .verdict import Directions, Estimate


class _Words(NamedTuple):
    noun: str
    more: str
    less: str
    with_: str
    larger: str
    smaller: str


_AT_THE_END = " at the end"
_OUTCOMES = {
    "growth": _Words("growth", "greater", "smaller", "with", f"larger{_AT_THE_END}", f"smaller{_AT_THE_END}"),
    "activation": _Words("activity", "higher", "lower", "in", "more", "less"),
    "strength": _Words("strength gain", "greater", "smaller", "with", f"stronger{_AT_THE_END}", f"weaker{_AT_THE_END}"),
    "length": _Words("length", "greater", "smaller", "in", "longer", "shorter"),
    "architecture": _Words("change in architecture", "greater", "smaller", "with", "more", "less"),
}
#: Two sides that do not differ by an amount that matters.
_ALIKE = "about the same"
_VERBS: dict[Level, str] = {"high": "is", "moderate": "is probably", "low": "may be", "very low": "is"}


def shape(estimate: Estimate | None, directions: Directions, margin: float) -> Shape:
    """What the numbers look like: the estimate decides where there is one, else the stated directions."""
    if estimate:
        if estimate.low >= 1 / margin and estimate.high <= margin:
            return "alike"
        return "more" if estimate.low > 1 else "less" if estimate.high < 1 else "unclear"
    found = [kind for kind, n in (("more", directions.more), ("less", directions.less), ("none found", directions.neither),
                               ("split", directions.mixed)) if n]
    return "untested" if not found else found[0] if len(found) == 1 else "split"  # type: ignore[return-value]


def answer(names: Names, question: Question, parts: tuple[str, ...], found: Shape, level: Level, support: str,
           estimate: Estimate | None = None, directions: Directions | None = None, printed: str | None = None, degree: str = "") -> str:
    """The sentence on a question, for one part or for several parts with the same answer.

    ``support`` says on whom it rests ("1 study of 20 people"); ``printed`` are the
    paper's own numbers where nothing was pooled, and ``degree`` is the size in a word.
    """
    figures = f" ({printed})" if printed else ""
    if found == "unclear":
        told = _size(names, question, estimate, turned=True)
        return _sentence(f"no clear difference in {_topic(names, question, parts)}: {told}, from {support}")
    if found == "none found":
        return _sentence(f"no difference in {_topic(names, question, parts)} was reported in {support}{figures}; "
                         "that does not show that they are alike")
    if found == "split":
        assert directions
        return _sentence(f"reports differ on {_topic(names, question, parts)}: {_split(names, question, directions)}")
    lead, subject, rest = _contrast(names, question, parts, found)  # type: ignore[arg-type]
    if level == "very low":
        clause = f"{lead}it is very uncertain whether {subject} {_be('is', rest)} {rest}"
    else:
        verb = f"{_be(_VERBS[level], rest)} {degree}".rstrip()
        clause = f"{lead}{subject} {verb} {rest}"
    if estimate:
        return _sentence(f"{clause}: {_size(names, question, estimate, turned=found == 'alike')}, from {support}")
    return _sentence(f"{clause}: {support} reported it{figures}, without the spread that an estimate needs")


def read_off(names: Names, question: Question, parts: tuple[str, ...], direction: Literal["more", "less"], support: str,
             printed: str | None) -> str:
    """The sentence when two numbers differ, but nobody tested the difference or printed a spread."""
    lead, subject, rest = _contrast(names, question, parts, direction)
    figures = f" ({printed})" if printed else ""
    return _sentence(f"untested here: {lead}{subject} was {rest} in {support}{figures}, but the difference was not tested")


def taught(names: Names, question: Question, parts: tuple[str, ...], direction: Literal["more", "less", "alike"],
           common_practice: bool) -> str:
    """The sentence on a claim that nothing in the catalog tests."""
    told = "commonly taught, untested here" if common_practice else "cited, but untested here"
    return _sentence(f"{told}: {claimed(names, question, parts, direction)}")


def claimed(names: Names, question: Question, parts: tuple[str, ...], direction: Literal["more", "less", "alike"]) -> str:
    """A claim as its author makes it, as a clause: ``growth of the semitendinosus is greater with the curl than ...``."""
    lead, subject, rest = _contrast(names, question, parts, direction)
    return f"{lead}{subject} {_be('is', rest)} {rest}"


def _contrast(names: Names, question: Question, parts: tuple[str, ...],
              direction: Literal["more", "less", "alike"]) -> tuple[str, str, str]:
    """The contrast around its verb: where it holds, what is compared, and how.

    ``("", "growth of the semitendinosus", "greater with the curl than with the bridge")``
    """
    words = _OUTCOMES[question.outcome]
    word = {"more": words.more, "less": words.less, "alike": _ALIKE}[direction]
    subject = f"{words.noun} of {names.parts(parts)}"
    if question.relative_to:
        subject += f" relative to {names.part(question.relative_to)}"
    if question.within:
        lead, that = f"{words.with_} {names.exercise(question.within)}, ", f"that of {names.part(question.second)}"
        return (lead, f"{subject} and {that}", _ALIKE) if direction == "alike" else (lead, subject, f"{word} than {that}")
    first, second = (f"{words.with_} {names.exercise(id)}" for id in (question.first, question.second))
    return "", subject, f"{word} {first} {'as' if direction == 'alike' else 'than'} {second}"


def _be(verb: str, rest: str) -> str:
    """``is`` after one subject, ``are`` after two that are about the same within an exercise."""
    return verb.replace("is", "are", 1) if rest == _ALIKE and verb.startswith("is") else verb


def size(estimate: Estimate | None, words: _Words, whose: str = "") -> str:
    """The estimate with its interval: ``6% larger at the end (95% interval 3% to 10%)``.

    ``whose`` says which of the two is larger, where the sentence has not said so.
    """
    assert estimate is not None
    word = words.larger if estimate.ratio >= 1 else words.smaller
    told = f"{percent(estimate.ratio)} {word}{whose}" if estimate.ratio != 1 else "no difference"
    if (estimate.low - 1) * (estimate.high - 1) > 0:
        near, far = (estimate.low, estimate.high) if estimate.ratio > 1 else (estimate.high, estimate.low)
        return f"{told} (95% interval {percent(near)} to {percent(far)})"
    lower, upper = f"{percent(estimate.low)} {words.smaller.split()[0]}", f"{percent(estimate.high)} {words.larger.split()[0]}"
    return f"{told} (95% interval {lower} to {upper})"


def _size(names: Names, question: Question, estimate: Estimate | None, turned: bool) -> str:
    """The size in its sentence; ``turned`` when that has not yet said which of the two is larger."""
    words = _OUTCOMES[question.outcome]
    if not question.within:
        return size(estimate, words, f" {words.with_} {names.exercise(question.first)}" if turned else "")
    whose = f" for {names.part(question.first)}" if turned else ""
    if words.larger.endswith(_AT_THE_END):
        # Of two parts, one ends larger than the other whatever was trained: their changes are compared.
        words = words._replace(larger=words.larger.removesuffix(_AT_THE_END), smaller=words.smaller.removesuffix(_AT_THE_END))
        whose += ", each part against its own start"
    return size(estimate, words, whose)


def support(studies: int, people: int, indirect: bool = False) -> str:
    """``1 study of 20 people``; indirect evidence says that it comes through other exercises."""
    who = f"{counted(studies, 'study', 'studies')} of {counted_people(people)}"
    return f"{who} that connect them through other exercises" if indirect else who


def disagreement(names: Names, part: str, first: str, second: str, told: list[tuple[str, Shape]]) -> str:
    """That two kinds of evidence point different ways on a pair and part."""
    words = [(_OUTCOMES[outcome], found) for outcome, found in told]
    ways = [f"{w.noun} is {w.more if found == 'more' else w.less}" for w, found in words]
    return _sentence(f"for {names.part(part)}, the kinds of evidence point different ways: {listed(ways)} with {names.exercise(first)} "
                     f"than with {names.exercise(second)}; one does not outweigh the other")


def _topic(names: Names, question: Question, parts: tuple[str, ...]) -> str:
    words = _OUTCOMES[question.outcome]
    if question.within:
        between = f"between {names.parts(parts)} and {names.part(question.second)}"
        return f"{words.noun} {between} {words.with_} {names.exercise(question.within)}"
    ratio = f" relative to {names.part(question.relative_to)}" if question.relative_to else ""
    return f"{words.noun} of {names.parts(parts)}{ratio} between {names.exercise(question.first)} and {names.exercise(question.second)}"


def _split(names: Names, question: Question, directions: Directions) -> str:
    first, second = ((names.part(question.first), names.part(question.second)) if question.within
                     else (names.exercise(question.first), names.exercise(question.second)))
    told = ((directions.more, f"found more for {first}"), (directions.less, f"found more for {second}"),
            (directions.neither, "found no difference"), (directions.mixed, "found different answers in different measurements"))
    return ", ".join(f"{counted(n, 'study', 'studies')} {said}" for n, said in told if n)


def _sentence(text: str) -> str:
    return f"{upper_first(text)}."
