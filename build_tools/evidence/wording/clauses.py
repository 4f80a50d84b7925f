"""What is compared, as the pieces of a sentence: ``the crate curl grows the long head more than the cable curl``.

Each outcome has words of its own, so that activity in one session never reads as growth.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import NamedTuple

from ...english import lower_first
from ..terms import Question
from .names import Names, joined, without


class Words(NamedTuple):
    """How one outcome is spoken of."""

    noun: str
    one: str
    """What one exercise does: ``grows``."""
    many: str
    """What several do, and what one may do: ``grow``."""
    more: str
    less: str
    with_: str
    """How an exercise follows the noun: growth ``with`` it, activity ``in`` it."""
    larger: str
    """How a ratio above 1 reads: ``6% larger at the end``."""
    smaller: str
    alike: str = "alike"
    quantity: str = ""
    """What a share is a share of, where that is not plain: a difference of 6% ``in size``."""


#: What a ratio of two parts compares, whatever their sizes: their changes.
_OWN_START = ", each from its start"
WORDS = {
    "growth": Words(
        "growth",
        "grows",
        "grow",
        "more",
        "less",
        "with",
        "larger at the end",
        "smaller at the end",
        quantity=" in size",
    ),
    "activation": Words("activity", "works", "work", "harder", "less hard", "in", "more", "less"),
    "strength": Words(
        "strengthening",
        "strengthens",
        "strengthen",
        "more",
        "less",
        "with",
        "stronger at the end",
        "weaker at the end",
        quantity=" in strength",
    ),
    "length": Words(
        "length",
        "trains",
        "train",
        "at greater length",
        "at smaller length",
        "in",
        "longer",
        "shorter",
        "at about the same length",
    ),
    "architecture": Words(
        "change in fibre arrangement",
        "rearranges the fibres of",
        "rearrange the fibres of",
        "more",
        "less",
        "with",
        "more",
        "less",
    ),
}
_TEST_WORDS = WORDS["strength"]._replace(noun="progress", one="raises", many="raise")


@dataclass(frozen=True)
class Compared:
    """Two sides as they are named in a sentence: two exercises for one part, or two parts within one exercise."""

    words: Words
    first: str
    second: str
    part: str = ""
    """What is measured, when exercises are compared."""
    within: str | None = None
    """The exercise, when parts are compared."""
    of: str = "of"
    """What joins noun and part: growth ``of`` a muscle, progress ``in`` a test."""

    @property
    def turned(self) -> Compared:
        """The same with its sides swapped."""
        return replace(self, first=self.second, second=self.first)

    @property
    def subject(self) -> str:
        """``growth of the long head``; within an exercise ``growth with the crate curl``."""
        if self.within:
            return f"{self.words.noun} {self.words.with_} {self.within}"
        return f"{self.words.noun} {self.of} {self.part}"

    @property
    def whose(self) -> str:
        """The first side after an amount: ``with the crate curl``, ``for the long head``."""
        return f"for {self.first}" if self.within else f"{self.words.with_} {self.first}"

    @property
    def of_first(self) -> str:
        """The first side after an amount, where both were just named: ``with the first``."""
        return "for the first" if self.within else f"{self.words.with_} the first"

    @property
    def other(self) -> str:
        """The second side after an amount."""
        return self.turned.whose

    @property
    def quantity(self) -> str:
        """What a share is a share of: a difference of 6% ``in size``."""
        return "" if self.within else self.words.quantity

    @property
    def larger(self) -> str:
        """What follows an amount above 1: ``larger at the end``."""
        return self._ratio(self.words.larger)

    @property
    def smaller(self) -> str:
        """What follows an amount below 1."""
        return self._ratio(self.words.smaller)

    @property
    def after(self) -> str:
        """What a ratio needs said after it: two parts are compared by what they changed, not by their sizes."""
        return _OWN_START if self.within and self.words.larger.endswith(" at the end") else ""

    def _ratio(self, word: str) -> str:
        if self.after:
            return "more" if word == self.words.larger else "less"
        return word

    def slots(self) -> dict[str, str]:
        """The pieces that the phrases of ``table`` are filled with."""
        words, first, second = self.words, self.first, self.second
        noun, with_ = words.noun, words.with_
        both = f"{first} and {second}"
        if self.within:
            both, second = joined([first, second]), without(second, first)
            return {
                "exercise": self.within,
                "grows": words.one,
                "grow": words.many,
                "part": first,
                "more": words.more,
                "other": second,
                "both": self.within,
                "both_grow": words.one,
                "parts": both,
                "alike": words.alike,
                "more_of": f"{noun} of {first} than of {second} {with_} {self.within}",
                "between": f"{noun} between {both} {with_} {self.within}",
                "leaned": f"{self.subject} leaned towards {first} rather than {second}",
                "alike_of": f"{noun} of {both} alike {with_} {self.within}",
                "pair_of": f"{noun} of {both} {with_} {self.within}",
            }
        return {
            "exercise": first,
            "grows": words.one,
            "grow": words.many,
            "part": self.part,
            "more": words.more,
            "other": second,
            "both": both,
            "both_grow": words.many,
            "parts": self.part,
            "alike": words.alike,
            "more_of": f"{self.subject} {with_} {first} than {with_} {second}",
            "between": f"{self.subject} between {both}",
            "leaned": f"{self.subject} leaned towards {first} rather than {second}",
            "alike_of": f"{self.subject} alike {with_} {both}",
            "pair_of": f"{self.subject} {with_} {both}",
        }


def contrast(
    names: Names, question: Question, parts: tuple[str, ...], strength_test: str | None = None
) -> Compared:
    """The two sides of a question in words; of strength the test, since a whole lift is no part's strength."""
    words = WORDS[question.outcome]
    if question.within:
        return Compared(
            words,
            names.parts(parts),
            names.part(question.second),
            within=names.exercise(question.within),
        )
    first, second = names.exercise(question.first), names.exercise(question.second)
    if strength_test:
        return Compared(_TEST_WORDS, first, second, tested(strength_test), of="in")
    part = names.parts(parts)
    if question.relative_to:
        part += f", relative to {names.part(question.relative_to)},"
    return Compared(words, first, second, part)


def tested(strength_test: str) -> str:
    """A strength test inside a sentence, without what follows a comma: ``the one-repetition maximum of the squat``."""
    told = lower_first(re.split("[,;]", strength_test, maxsplit=1)[0])
    return told if told.startswith("the ") else f"the {told}"
