"""The one plain sentence on how load and length run through the range, and the curves in words."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from ..english import upper_first
from .course import Course
from .length.length import Repetition, percent
from .load.curve import HIGH, Curve
from .load.words import load_phrase

#: Within this share of its own range from its longest in the repetition a part counts as longest: the step that lengths come in.
NEAR = 0.1
#: A part whose length changes by less than this share of its range has no longest and no shortest worth telling.
TRAVEL = 0.2

#: Per cent of the own range from which a part is long whatever the exercise: the outer third, in steps of 10 %; short likewise.
OUTER = 70

NO_VALUE = "No model value is available"
#: Instants at which a curve is told in words: share of the repetition and its name.
_TOLD = (
    (0.0, "at the start"),
    (0.25, "a quarter of the way"),
    (0.5, "halfway"),
    (0.75, "three quarters of the way"),
    (1.0, "at the end"),
)

#: Parts -> ``the semitendinosus and the semimembranosus``.
Naming = Callable[[list[str]], str]


class Told(NamedTuple):
    """What a coach reads above the plot."""

    sentence: str
    """One sentence on load and length, if need be one on where the load vanishes and one on what has no value."""
    each: list[str]
    """The lengths by part where the parts differ."""


def told(course: Course, named: Naming, joint: str) -> Told:
    """The curves in plain words. ``named`` names parts inside a sentence, ``joint`` is the course's joint inside a sentence."""
    differ = (
        by_state(course)
        if isinstance(course.load, Curve) and not _level(course.load)
        else by_words(course)
    )
    each = (
        [upper_first(f"{state}: {named(refs)}.") for state, refs in differ.items()]
        if len(differ) > 1
        else []
    )
    if isinstance(course.load, Curve):
        first = _with_load(course, course.load, named, joint, bool(each))
    else:
        first = f"{_no_load(course.load.why)}{'; the parts differ in length' if each else ''}."
        if course.known and not each:
            first += f" {upper_first(_whom(course, named))} {_runs(next(iter(differ)))}."
    return Told(" ".join(filter(None, (first, missing(course, named)))), each)


def missing(course: Course, named: Naming) -> str:
    """Which worked parts have no length; empty where all have one."""
    if not course.unknown:
        return ""
    if not course.known:
        return f"{NO_VALUE} for the length of {'this part' if len(course.unknown) == 1 else 'these parts'}."
    return f"{NO_VALUE} for the length of {named(list(course.unknown))}."


def when_hard(course: Course, ref: str) -> str:
    """Where a part stands while the load is near its peak: ``longest``, ``shortest``, ``between``, ``level``."""
    found, there = course.known[ref], course.length_when_hard(ref)
    assert there is not None
    if found.longest - found.shortest < TRAVEL:
        return "level"
    if there >= found.longest - NEAR:
        return "longest"
    return "shortest" if there <= found.shortest + NEAR else "between"


def load_told(curve: Curve, joint: str) -> str:
    """The load at five instants, as a share of its peak to 5 %; the side that the peak asks for."""
    values = curve.normalised()
    told = ", ".join(
        f"{round(max(0.0, _at(values, share)) * 20) * 5}% {name}" for share, name in _TOLD
    )
    return f"Load about the {joint}, as a share of its peak: {told}."


def length_told(found: Repetition, name: str) -> str:
    """A part's length at five instants, to 10 % of its own range."""
    told = ", ".join(f"{percent(_at(found.shares, share))}% {instant}" for share, instant in _TOLD)
    return f"Length of {name}, as a share of its own range: {told}."


def span(shares: Sequence[float]) -> str:
    """Shares of a range as published: ``80%``, ``50 to 60%``."""
    low, high = percent(min(shares)), percent(max(shares))
    return f"{low}%" if low == high else f"{low} to {high}%"


def by_state(course: Course) -> dict[str, list[str]]:
    """How long the parts are while the load is near its peak -> the parts."""
    found: dict[str, list[str]] = {}
    for ref in course.known:
        found.setdefault(when_hard(course, ref), []).append(ref)
    if len(found) < 2:
        return found
    shares = {
        state: [course.length_when_hard(ref) or 0.0 for ref in refs]
        for state, refs in found.items()
    }
    return {
        f"{_STATE[state]}{_here(state, shares[state])}, at {span(shares[state])} of "
        f"{'its' if len(refs) == 1 else 'their'} own range": refs
        for state, refs in found.items()
    }


def by_words(course: Course) -> dict[str, list[str]]:
    """How the length runs over the whole repetition -> the parts."""
    found: dict[str, list[str]] = {}
    for ref, repetition in course.known.items():
        found.setdefault(repetition.words, []).append(ref)
    return found


def _level(load: Curve) -> bool:
    summary = load.summary()
    return summary is not None and summary.lowest >= HIGH


def _with_load(course: Course, load: Curve, named: Naming, joint: str, differ: bool) -> str:
    phrase = load_phrase(load.summary(), joint, course.called)
    if _level(load):
        while_ = (
            "; the parts differ in length"
            if differ
            else (
                f", while {_whom(course, named)} {_runs(next(iter(by_words(course))))}"
                if course.known
                else ""
            )
        )
        return f"The load about the {joint} is {phrase}{while_}."
    head, comma, tail = phrase.partition(",")  # what vanishes comes in a sentence of its own
    there = (
        "; the parts differ in length there"
        if differ
        else _there(course, named)
        if course.known
        else ""
    )
    return f"{upper_first(head)}{there}." + (
        f" {upper_first(_rest(tail.strip()))}." if comma else ""
    )


def _rest(tail: str) -> str:
    """``with almost none near the top`` and ``and changes from one side ...`` as sentences of their own."""
    if tail.startswith("with almost none "):
        return f"almost no load {tail.removeprefix('with almost none ')}"
    return f"the load {tail.removeprefix('and ')}"


def _there(course: Course, named: Naming) -> str:
    """``, where the muscle is longest (80% of its own range)``."""
    state = next(iter(by_state(course)))
    shares = [course.length_when_hard(ref) or 0.0 for ref in course.known]
    share = (
        span(shares)
        + " of its own range"
        + (", depending on the part" if " to " in span(shares) else "")
    )
    return f", {'while' if state == 'level' else 'where'} {_whom(course, named)} {_VERB[state]}{_here(state, shares)} ({share})"


def _here(state: str, shares: Sequence[float]) -> str:
    """Keeps ``longest`` from being read as long: the longest of a repetition may be short for the muscle."""
    if (
        state == "longest"
        and percent(min(shares)) < OUTER
        or state == "shortest"
        and percent(max(shares)) > 100 - OUTER
    ):
        return " for this exercise"
    return ""


def _whom(course: Course, named: Naming) -> str:
    """Whom a statement on all known parts speaks of, singular."""
    if len(course.known) == len(course.worked):
        return "the muscle"
    if len(course.known) == 1:
        return named(list(course.known))
    limits = ["it asks for"] * (len(course.told) < len(course.worked)) + ["the model knows"] * bool(
        course.unknown
    )
    return f"each part that {' and '.join(limits)}"


def _runs(words: str) -> str:
    return f"goes {words}" if words.startswith("from ") else f"is {words}"


def _no_load(why: str) -> str:
    return f"The load {why}" if why.startswith("depends") else f"The load is not known: {why}"


def _at(values: Sequence[float], share: float) -> float:
    return values[round(share * (len(values) - 1))]


_STATE = {
    "longest": "longest",
    "shortest": "shortest",
    "between": "in between",
    "level": "hardly changing",
}
_VERB = {
    "longest": "is longest",
    "shortest": "is shortest",
    "between": "is between its longest and its shortest",
    "level": "hardly changes its length",
}
