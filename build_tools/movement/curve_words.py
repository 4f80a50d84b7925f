"""The one plain sentence on how load and length run through the range, and the curves in words."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from .course import Course
from .length import Repetition, percent
from .load_curve import Curve
from .load_words import load_phrase

#: Within this share of its own range from its longest in the repetition a part counts as longest: the step that lengths come in.
NEAR = 0.1
#: A part whose length changes by less than this share of its range has no longest and no shortest worth telling.
TRAVEL = 0.2

NO_VALUE = "No model value is available"
#: Instants at which a curve is told in words: share of the repetition and its name.
_TOLD = ((0.0, "at the start"), (0.25, "a quarter of the way"), (0.5, "halfway"), (0.75, "three quarters of the way"), (1.0, "at the end"))

#: Parts -> ``the semitendinosus and the semimembranosus``.
Naming = Callable[[list[str]], str]


def sentence(course: Course, named: Naming, joint: str) -> str:
    """What a coach reads above the plot: one sentence on load and length, and one on what has no value.

    ``named`` names parts inside a sentence, ``joint`` is the course's joint inside a sentence.
    """
    if isinstance(course.load, Curve):
        first = _with_load(course, course.load, named, joint)
    else:
        first = " ".join(filter(None, (f"{_no_load(course.load.why)}.", _alone(course, named))))
    return " ".join(filter(None, (first, missing(course, named))))


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
    told = ", ".join(f"{round(max(0.0, _at(values, share)) * 20) * 5}% {name}" for share, name in _TOLD)
    return f"Load about the {joint}, as a share of its peak: {told}."


def length_told(found: Repetition, name: str) -> str:
    """A part's length at five instants, to 10 % of its own range."""
    told = ", ".join(f"{percent(_at(found.shares, share))}% {instant}" for share, instant in _TOLD)
    return f"Length of {name}, as a share of its own range: {told}."


def span(shares: Sequence[float]) -> str:
    """Shares of a range as published: ``80%``, ``50 to 60%``."""
    low, high = percent(min(shares)), percent(max(shares))
    return f"{low}%" if low == high else f"{low} to {high}%"


def _with_load(course: Course, load: Curve, named: Naming, joint: str) -> str:
    summary = load.summary()
    phrase = load_phrase(summary, joint, course.called)
    if summary is None or not course.known:
        return f"{_upper_first(phrase)}."
    if phrase == "about the same throughout":
        return f"The load about the {joint} is {phrase}{_meanwhile(course, named)}."
    head, comma, tail = phrase.partition(",")  # what vanishes comes in a sentence of its own
    told = f"{_upper_first(head)}, {_there(course, named)}."
    return f"{told} {_upper_first(_rest(tail.strip()))}." if comma else told


def _rest(tail: str) -> str:
    """``with almost none near the top`` and ``and changes from one side ...`` as sentences."""
    return f"there is {tail.removeprefix('with ')}" if tail.startswith("with ") else f"the load {tail.removeprefix('and ')}"


def _there(course: Course, named: Naming) -> str:
    """``where the muscle is longest (80% of its own range)``."""
    states = {ref: when_hard(course, ref) for ref in course.known}
    shares = [course.length_when_hard(ref) or 0.0 for ref in course.known]
    if len(set(states.values())) == 1:
        share = span(shares) + " of its own range" + (", depending on the part" if " to " in span(shares) else "")
        return f"{_STATE[next(iter(states.values()))].format(_whom(course, named))} ({share})"
    told = [f"{_SHORT[state]}: {named([ref for ref in states if states[ref] == state])}" for state in dict.fromkeys(states.values())]
    return f"where the parts differ ({'; '.join(told)})"


def _meanwhile(course: Course, named: Naming) -> str:
    told = {found.words for found in course.known.values()}
    return f", while {_whom(course, named)} {_runs(told.pop())}" if len(told) == 1 else f", while the parts differ: {_each(course, named)}"


def _alone(course: Course, named: Naming) -> str:
    """The length by itself, where the load is not known."""
    if not course.known:
        return ""
    told = {found.words for found in course.known.values()}
    if len(told) == 1:
        return f"{_upper_first(_whom(course, named))} {_runs(told.pop())}."
    return f"The parts differ in length: {_each(course, named)}."


def _each(course: Course, named: Naming) -> str:
    by_words: dict[str, list[str]] = {}
    for ref, found in course.known.items():
        by_words.setdefault(found.words, []).append(ref)
    return "; ".join(f"{named(refs)}, {words}" for words, refs in by_words.items())


def _whom(course: Course, named: Naming) -> str:
    """Whom a statement on all known parts speaks of, singular."""
    if len(course.known) == len(course.worked):
        return "the muscle"
    if len(course.known) == 1:
        return named(list(course.known))
    limits = ["it asks for"] * (len(course.told) < len(course.worked)) + ["the model knows"] * bool(course.unknown)
    return f"each part that {' and '.join(limits)}"


def _runs(words: str) -> str:
    return f"goes {words}" if words.startswith("from ") else f"is {words}"


def _no_load(why: str) -> str:
    return f"The load {why}" if why.startswith("depends") else f"The load is not known: {why}"


def _at(values: Sequence[float], share: float) -> float:
    return values[round(share * (len(values) - 1))]


def _upper_first(text: str) -> str:
    return text[:1].upper() + text[1:]


_STATE = {"longest": "where {} is longest", "shortest": "where {} is shortest",
          "between": "where {} is between its longest and its shortest", "level": "while {} hardly changes its length"}
_SHORT = {"longest": "longest", "shortest": "shortest", "between": "in between", "level": "hardly changing"}
