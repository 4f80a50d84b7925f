"""An answer with its sides swapped, so that a sentence can name first what came out ahead."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Literal, NamedTuple

from ..terms import Answer, Directions, Gains, RatioInterval, Side

_OPPOSITE: dict[Side, Side] = {"more": "less", "less": "more"}
_MINUS = "\u2212"
_NUMBER = rf"{_MINUS}?\d+(?:\.\d+)?"
#: ``difference 3.2 mm, 95% interval 0.4 to 6``; ``Cohen d 0.4``: a number that changes its sign when the sides change places.
_SIGNED = re.compile(
    rf"^(?P<kind>difference|standardised difference|Cohen d|Hedges g) (?P<value>{_NUMBER})(?P<unit>[^,]*)"
    rf"(?:, 95% interval (?P<low>{_NUMBER}) to (?P<high>{_NUMBER}))?(?P<rest>.*)$"
)
#: ``61% MVIC against 40% MVIC``, ``3.1 to 3.6 cm2 against 3 to 3.2 cm2``.
_PAIR = re.compile(
    rf"^(?P<first>{_NUMBER}(?: to {_NUMBER})?%?)(?P<unit>.*) against (?P<second>{_NUMBER}(?: to {_NUMBER})?%?)(?P<unit2>.*)$"
)
_RATIO = re.compile(r"^ratio (\d+(?:\.\d+)?)$")


def mirrored(answer: Answer) -> Answer:
    """The numbers of an answer from its second side's point of view; the question stays as it is."""
    estimate, gains, said = answer.estimate, answer.gains, answer.directions
    return replace(
        answer,
        side=_OPPOSITE[answer.side] if answer.side else None,
        estimate=RatioInterval(1 / estimate.ratio, 1 / estimate.high, 1 / estimate.low)
        if estimate
        else None,
        gains=Gains(gains.second, gains.first, gains.pooled) if gains else None,
        printed=_swapped(answer.printed) if answer.printed else None,
        difference=_negated(answer.difference) if answer.difference else None,
        directions=Directions(said.less, said.more, said.neither, said.mixed),
        untested=tuple((_turned(way), test) for way, test in answer.untested),
        aside=tuple((_turned(way), measure) for way, measure in answer.aside),
    )


def _turned(way: Literal["more", "less", "neither"]) -> Literal["more", "less", "neither"]:
    return way if way == "neither" else _OPPOSITE[way]


class PrintedDifference(NamedTuple):
    """A difference as a paper prints it, with its 95% interval, as numbers."""

    value: float
    unit: str
    """With raised figures: cm\u00b2."""
    low: float
    high: float


def printed_difference(text: str, turned: bool) -> PrintedDifference | None:
    """The numbers of ``difference 3.2 mm, 95% interval 0.4 to 6``, from the second side's point of view if ``turned``.

    ``None`` for a text without an interval, and for a difference that has no unit.
    """
    found = _SIGNED.match(_negated(text) if turned else text)
    if not found or found["kind"] != "difference" or not found["low"]:
        return None
    value, low, high = (float(found[of].replace(_MINUS, "-")) for of in ("value", "low", "high"))
    return PrintedDifference(value, found["unit"].strip(), low, high)


def once(printed: str) -> str:
    """Two numbers with their unit once, other text as it is: ``61% MVIC against 40% MVIC`` -> ``61% against 40% MVIC``."""
    found = _PAIR.match(printed)
    if not found or found["unit"] not in ("", found["unit2"]):
        return printed
    return f"{found['first']} against {found['second']}{found['unit2']}"


def _swapped(printed: str) -> str:
    """``14% against 9%`` -> ``9% against 14%``; a unit that stands once stays last: ``61 against 40 mV``."""
    found = _PAIR.match(once(printed))
    if found and not found["unit"]:
        return f"{found['second']} against {found['first']}{found['unit2']}"
    first, against, second = printed.partition(" against ")
    return f"{second}{against}{first}" if against else _negated(printed)


def _negated(text: str) -> str:
    """A difference or ratio the other way round; other text as it is."""
    if ratio := _RATIO.match(text):
        return f"ratio {1 / float(ratio[1]):.3g}"
    found = _SIGNED.match(text)
    if not found:
        return text
    told = f"{found['kind']} {_minus(found['value'])}{found['unit']}"
    if found["low"]:
        told += f", 95% interval {_minus(found['high'])} to {_minus(found['low'])}"
    return told + found["rest"]


def _minus(number: str) -> str:
    if number.startswith(_MINUS):
        return number[1:]
    return number if float(number) == 0 else _MINUS + number
