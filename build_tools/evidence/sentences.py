"""Sentences composed from a contrast and what was reported on it. Nobody writes these by hand.

The subject is always the outcome ("Growth of ...", "Activity of ..."), so that
activation in one session can never read as growth.
"""

from __future__ import annotations

from typing import NamedTuple

from ..catalog.entries import Claim, Value
from ..catalog.load import Catalog
from .reported import Direction, Reported, level


class _Words(NamedTuple):
    noun: str
    more: str
    less: str
    with_: str


_OUTCOMES = {
    "growth": _Words("growth", "greater", "smaller", "with"),
    "activation": _Words("activity", "higher", "lower", "in"),
    "strength": _Words("strength gain", "greater", "smaller", "with"),
    "length": _Words("length", "greater", "smaller", "in"),
    "architecture": _Words("change in fascicles", "greater", "smaller", "with"),
}

NO_BREAK = "\u00a0"

#: What each outcome can and cannot show, said wherever it is shown.
KINDS = {
    "growth": "Muscle growth after weeks of training",
    "activation": "Activation in a single session; it does not show growth",
    "strength": "Strength after weeks of training",
    "length": "Muscle length from joint angles; it does not show growth",
    "architecture": "Change in muscle architecture; it does not show growth",
}


class Names:
    """Names of exercises and parts as they stand inside a sentence."""

    def __init__(self, catalog: Catalog) -> None:
        self._catalog = catalog
        self._proper = set(catalog.vocabulary.data.proper_nouns) if catalog.vocabulary else set()

    def exercise(self, id: str) -> str:
        """``the seated leg curl``; an unknown id stands as it is."""
        entry = self._catalog.exercises.get(id)
        return f"the {self.inside(entry.data.name)}" if entry else id

    def part(self, ref: str) -> str:
        """``the semitendinosus``; an unknown reference stands as it is."""
        part = self._catalog.part(ref)
        return f"the {self.inside(part.name)}" if part else ref

    def parts(self, refs: list[str]) -> str:
        """``the semitendinosus and the semimembranosus``."""
        return listed([self.part(ref) for ref in refs])

    def inside(self, name: str) -> str:
        """A name inside a sentence: its first letter small unless the first word is a proper noun."""
        first = name.split()[0].rstrip(",")
        return name if first in self._proper or not first[1:2].islower() else name[0].lower() + name[1:]


def listed(words: list[str]) -> str:
    """``a, b and c``."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def upper_first(text: str) -> str:
    """The text with a capital first letter."""
    return text[:1].upper() + text[1:]


def contrast(names: Names, exercise: str, claim: Claim, direction: Direction, verb: str = "was") -> str:
    """The contrast of a claim as a clause without a full stop, pointing in ``direction``."""
    words, other = _OUTCOMES[claim.outcome], claim.comparator
    subject = f"{words.noun} of {names.parts(claim.part)}"
    if claim.relative_to:
        subject += f" relative to {names.part(claim.relative_to)}"
    here = f"{words.with_} {names.exercise(exercise)}"
    if other.part:
        that = f"that of {names.part(other.part)}"
        if direction == "neither":
            return f"{here}, {subject} and {that} {'were' if verb == 'was' else 'are'} alike"
        return f"{here}, {subject} {verb} {words.more if direction == 'more' else words.less} than {that}"
    there = f"{words.with_} {names.exercise(other.exercise or '')}"
    if direction == "neither":
        return f"{subject} {verb} alike {here} and {there}"
    return f"{subject} {verb} {words.more if direction == 'more' else words.less} {here} than {there}"


def no_difference(names: Names, exercise: str, claim: Claim) -> str:
    """That no difference was reported, as a clause: absence of a difference is not likeness."""
    words, other = _OUTCOMES[claim.outcome], claim.comparator
    ratio = f" relative to {names.part(claim.relative_to)}" if claim.relative_to else ""
    if other.part:
        between = f"between {names.parts(claim.part)} and {names.part(other.part)} {words.with_} {names.exercise(exercise)}"
        return f"no clear difference in {words.noun} was reported {between}"
    between = f"between {names.exercise(exercise)} and {names.exercise(other.exercise or '')}"
    return f"no clear difference in {words.noun} of {names.parts(claim.part)}{ratio} was reported {between}"


def numbers(reported: Reported) -> str | None:
    """The two sides' numbers as the paper gives them, or its contrast's; ``None`` when it gives neither."""
    first, second = reported.first.value, reported.second.value
    if first and second:
        return f"{value(first, reported.unit)} against {value(second, reported.unit)}"
    if first or second:
        given, side = (first, "first") if first else (second, "second")
        return f"{value(given, reported.unit)} for the {side} only"  # type: ignore[arg-type]
    return _contrast_numbers(reported)


def value(given: Value, unit: str) -> str:
    """One value with its spread: ``14%``, ``61% MVIC (SD 12)``, ``40 to 44 cm3``."""
    if given.pre and given.post:
        return f"{number(given.pre.mean)} to {measured(given.post.mean, unit)}"
    spread = next((f" ({name} {number(x)})" for name, x in (("SD", given.sd), ("SE", given.se)) if x is not None), "")
    if given.ci95:
        spread = f" (95% interval {number(given.ci95[0])} to {number(given.ci95[1])})"
    if given.quartiles:
        spread = f" (quartiles {number(given.quartiles[0])} to {number(given.quartiles[1])})"
    return measured(level(given), "%" if given.change_percent is not None else unit) + spread


def measured(x: float, unit: str) -> str:
    """A number with its unit, which no line break may part: ``14%``, ``3.6 cm2``."""
    return f"{number(x)}{'' if unit.startswith('%') else NO_BREAK}{unit}"


def number(x: float) -> str:
    """A number as printed: no trailing zeros, a true minus sign."""
    return f"{x:g}".replace("-", "\u2212")


def _contrast_numbers(reported: Reported) -> str | None:
    given = reported.contrast
    if given is None:
        return None
    sign = -1 if reported.flipped else 1
    if given.difference:
        return f"difference {measured(sign * given.difference.value, given.difference.unit)}"
    if given.ratio:
        return f"ratio {number(given.ratio.value if sign > 0 else round(1 / given.ratio.value, 3))}"
    if given.standardised:
        kind = "standardised difference" if given.standardised.kind == "not named" else given.standardised.kind
        return f"{kind} {number(sign * given.standardised.value)}"
    return None


def p_value(reported: Reported) -> str | None:
    """``p = 0.037``, ``p < 0.001``, ``p > 0.05``; ``None`` when none is given."""
    given = reported.contrast
    if given is None:
        return None
    for sign, p in (("=", given.p), ("<", given.p_below), (">", given.p_above)):
        if p is not None:
            return f"p {sign} {p:g}"
    return None


def counted(n: int, one: str, many: str | None = None) -> str:
    """``1 study``, ``2 studies``."""
    return f"{n} {one if n == 1 else many or one + 's'}"
