"""What people got from two exercises as two bars, drawn and in words.

Growth is two solid bars of what people gained, from nothing: 18% against 11%. A line across the end of the first is what it
could be, going by the 95% interval; a dashed line carries the end of the second up to it, so that a line which crosses it says
that no difference is possible. Where a paper prints only the difference, the first bar is that difference, in outline.
Activation is never drawn alike: hollow bars with round ends, the second set to 100%, of one session. A dot is one person.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from textwrap import wrap
from typing import Literal, NamedTuple

from ...english import upper_first
from ...evidence.claims.conclusions import Comparison
from ...evidence.terms import Gains, RatioInterval
from ...evidence.threshold import meets
from ...evidence.wording import figures
from ...evidence.wording.amounts import people as counted_people
from ...evidence.wording.amounts import span
from ...evidence.wording.names import Names
from ...evidence.wording.turning import printed_difference
from ..templating import render

BarLook = Literal["growth", "size", "difference", "activation"]

#: Heights in pixels: a line of a label, a bar with its gap, the dots, a line of the foot.
LINE, BAR, DOTS, FOOT = 17, 22, 14, 17
#: Most characters in a line, so that at 390 pixels no two texts of a line touch: of a label beside its amount, of the foot.
LABEL_WIDE, FOOT_WIDE = 40, 50
#: So many people are drawn as dots; of more only the number is told.
MOST_DOTS = 40
#: Pixels from dot to dot.
DOT_STEP = 8
#: Share of the width left free at the right, so that lines are not cut.
_EDGE = 0.02
#: How far beyond the longer bar an interval is drawn, as a multiple of it; what lies farther is cut, with an arrow.
_ROOM = 1.5


class Reach(NamedTuple):
    """The least and the greatest that an axis holds; nothing, 0, lies between."""

    low: float
    high: float


@dataclass(frozen=True)
class GainBar:
    """One side as drawn; ``start`` and ``end`` are shares of the width, ``top`` is pixels."""

    label: tuple[str, ...]
    """Its name, in lines."""
    amount: str
    top: int
    bar: int
    """Where the bar itself begins, pixels."""
    start: float
    end: float


@dataclass(frozen=True)
class Whisker:
    """What the first bar could be, shares of the width."""

    low: float
    high: float
    cut_low: bool
    cut_high: bool


@dataclass(frozen=True)
class GainBars:
    """Two bars ready to be drawn."""

    id: str
    """Unique on its page."""
    title: str
    says: str
    """Everything the drawing shows, in words."""
    look: BarLook
    bars: tuple[GainBar, GainBar]
    zero: float
    reference: float
    """Where the second bar ends."""
    whisker: Whisker | None
    dots: int
    dots_at: int
    foot: tuple[tuple[str, int, bool], ...]
    """Text, its height, and whether it stands at the right."""
    height: int


@dataclass(frozen=True)
class _Values:
    """What is drawn, first side first, in the unit of its look: 0.18 gained, 1.2 times the other, 0.62 cm."""

    look: BarLook
    first: float
    second: float
    low: float
    high: float
    amounts: tuple[str, str]
    line: str
    """What the line across the end of the first bar tells."""
    turned: bool
    """Whether the question's second side stands first, as it came out ahead."""


def bars(
    names: Names, comparison: Comparison, id: str, reach: Reach | None = None
) -> GainBars | None:
    """The bars of a comparison; ``None`` where only a direction is known. ``reach`` is that of all growth drawn beside it."""
    values = _values(comparison)
    if values is None:
        return None
    sides = _sides(names, comparison)[:: -1 if values.turned else 1]
    long = figures.lasting(comparison.question.outcome, comparison.weeks)
    support = ", ".join(
        filter(None, (counted_people(comparison.people) if comparison.people else "", long))
    )
    unit = _unit(values, sides[1])
    axis = _axis(values, reach)
    tops = [0]
    labels = [tuple(wrap(upper_first(side), LABEL_WIDE)) for side in sides]
    tops.append(len(labels[0]) * LINE + BAR)
    below = tops[1] + len(labels[1]) * LINE + BAR
    dots = comparison.people if comparison.people <= MOST_DOTS else 0
    foot = _foot(support, values.line, unit, below + (DOTS if dots else 0))
    start = _place(axis, 0)
    drawn = [
        GainBar(label, amount, top, top + len(label) * LINE, *sorted((start, _place(axis, value))))
        for label, amount, top, value in zip(
            labels, values.amounts, tops, (values.first, values.second), strict=True
        )
    ]
    subject = _subject(names, comparison)
    return GainBars(
        id=id,
        title=f"{subject}: {sides[0]} against {sides[1]}",
        says=". ".join(
            upper_first(text)
            for text in (
                *(
                    f"{side}: {amount}"
                    for side, amount in zip(sides, values.amounts, strict=True)
                    if amount
                ),
                unit,
                values.line,
                support,
            )
            if text
        )
        + ".",
        look=values.look,
        bars=(drawn[0], drawn[1]),
        zero=start,
        reference=_place(axis, values.second),
        whisker=Whisker(
            _place(axis, max(values.low, axis.low)),
            _place(axis, min(values.high, axis.high)),
            values.low < axis.low - 1e-9,
            values.high > axis.high + 1e-9,
        ),
        dots=dots,
        dots_at=below,
        foot=tuple(foot),
        height=foot[-1][1] + 5 if foot else below,
    )


def common_reach(comparisons: Iterable[Comparison]) -> Reach | None:
    """What one axis must hold so that the gains of several comparisons can be set beside each other."""
    axes = [
        _own_axis(values)
        for values in map(_values, comparisons)
        if values and values.look == "growth"
    ]
    return Reach(min(a.low for a in axes), max(a.high for a in axes)) if axes else None


def svg(drawn: GainBars) -> str:
    """The bars as inline SVG, as wide as their place on the page."""
    return render("gain_bars.svg.jinja", bars=drawn, step=DOT_STEP)


def _values(comparison: Comparison) -> _Values | None:
    turned = comparison.side == "less"
    estimate, gains = comparison.estimate, comparison.gains
    if estimate and comparison.sized:
        if turned:
            estimate = RatioInterval(1 / estimate.ratio, 1 / estimate.high, 1 / estimate.low)
            gains = Gains(gains.second, gains.first, gains.pooled) if gains else None
        if comparison.question.outcome == "activation":
            return _ratio("activation", estimate, turned)
        if gains and figures.fits(gains, estimate):
            told = figures.gains_told(gains, estimate)
            low, high = (gains.second * end - 1 for end in (estimate.low, estimate.high))
            return _Values(
                "growth",
                gains.first - 1,
                gains.second - 1,
                low,
                high,
                (told.first, told.second),
                f"{told.first} could be {told.could}",
                turned,
            )
        return _ratio("size", estimate, turned)
    weighed = [row for row in comparison.rows if row.weighed]
    printed = weighed[0].difference if len(weighed) == 1 else None
    found = printed_difference(printed, turned) if printed else None
    if found is None:
        return None
    value, unit, low, high = found
    more = f"{abs(value):g} {unit} {'more' if value > 0 else 'less'}"
    return _Values(
        "difference",
        value,
        0,
        low,
        high,
        (more, ""),
        f"could be {_signed(low, unit)} to {_signed(high, unit)}",
        turned,
    )


def _ratio(look: BarLook, estimate: RatioInterval, turned: bool) -> _Values:
    return _Values(
        look,
        estimate.ratio,
        1,
        estimate.low,
        estimate.high,
        (_share(estimate.ratio), "100%"),
        f"could be {span(estimate.low, estimate.high).removeprefix('from ')}",
        turned,
    )


def _share(ratio: float) -> str:
    """``112%``; far from alike in times."""
    if ratio >= 3:
        return f"{ratio:.2g} times"
    near = not meets(ratio, 1) and abs(ratio - 1) < 0.01
    return f"{100 * ratio:.1f}%" if near else f"{100 * ratio:.0f}%"


def _signed(value: float, unit: str) -> str:
    """``4.6 cm2 less``."""
    return f"{abs(value):g} {unit} {'less' if value < 0 else 'more'}"


def _unit(values: _Values, second: str) -> str:
    match values.look:
        case "growth":
            return ""
        case "size":
            return "sizes at the end"
        case "difference":
            return "only the difference is printed"
    return "activity"


def _sides(names: Names, comparison: Comparison) -> Sequence[str]:
    asked = comparison.question
    of = names.part if asked.within else names.exercise
    return [of(side).removeprefix("the ") for side in (asked.first, asked.second)]


def _subject(names: Names, comparison: Comparison) -> str:
    asked = comparison.question
    what = (
        "Activity in one session" if asked.outcome == "activation" else upper_first(asked.outcome)
    )
    if asked.within:
        return f"{what} with {names.exercise(asked.within)}"
    return f"{what} of {names.part(asked.part)}"


def _own_axis(values: _Values) -> Reach:
    top = max(values.first, values.second, 0.0)
    bottom = min(values.first, values.second, 0.0)
    wide = max(top, -bottom)
    room = max(_ROOM * wide, 0.05) if values.look != "activation" else wide * 1.6
    low = min(bottom, max(values.low, -room))
    if values.look == "difference":
        # Both gains are unknown: nothing stands at the left edge.
        low = min(low, -0.3 * max(top, min(values.high, top + room)))
    return Reach(low, max(top, min(values.high, top + room)))


def _axis(values: _Values, reach: Reach | None) -> Reach:
    own = _own_axis(values)
    if reach is None or values.look != "growth":
        return own
    return Reach(min(own.low, reach.low), max(own.high, reach.high))


def _place(axis: Reach, value: float) -> float:
    return (1 - _EDGE) * (value - axis.low) / (axis.high - axis.low)


def _foot(support: str, line: str, unit: str, top: int) -> list[tuple[str, int, bool]]:
    """Who and how long at the left, what the line tells at the right, one below the other where they do not fit."""
    left = ", ".join(filter(None, (support, unit)))
    right = f"Line: {line}"
    if len(left) + len(right) <= FOOT_WIDE:
        return [(upper_first(left), top + 13, False), (right, top + 13, True)]
    rows = [*wrap(upper_first(left), FOOT_WIDE), *wrap(right, FOOT_WIDE)]
    return [(text, top + 13 + n * FOOT, False) for n, text in enumerate(rows)]
