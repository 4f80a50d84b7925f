"""The ratio axis of an interval plot: logarithmic, with plain words at its marks."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import median_low

from ...evidence.wording.amounts import amount

#: Axes from narrow to wide, each by its marks; the outer marks are its ends. Left and right mirror each other.
_MARKS = [
    (0.95, 0.98, 1, 1.02, 1.05),
    (0.9, 0.95, 1, 1.05, 1.1),
    (0.8, 0.9, 1, 1.1, 1.25),
    (2 / 3, 0.8, 1, 1.25, 1.5),
    (0.5, 0.75, 1, 1.5, 2),
    (1 / 3, 0.5, 1, 2, 3),
    (0.25, 0.5, 1, 2, 4),
    (0.2, 0.5, 1, 2, 5),
    (0.125, 0.5, 1, 2, 8),
    (0.0625, 0.25, 1, 4, 16),
]
_WORDS = {
    1: "alike",
    0.5: "half",
    1 / 3: "a third",
    0.25: "a quarter",
    0.2: "a fifth",
    0.125: "an eighth",
    0.0625: "a sixteenth",
    2: "twice",
    3: "3 times",
    4: "4 times",
    5: "5 times",
    8: "8 times",
    16: "16 times",
}
#: How far an axis may widen to show whole intervals, as a multiple of the farthest estimate or of the usual end.
_ROOM = 3
#: Share of the width left free at either end, so that markers are not cut.
_EDGE = 0.02


@dataclass(frozen=True)
class Tick:
    """One mark: where it stands (share of the width, 0 to 1), its words, and how they are anchored."""

    at: float
    words: str
    anchor: str
    minor: bool
    """Whether its words give way on narrow screens."""


@dataclass(frozen=True)
class PlotAxis:
    """A log-scaled ratio axis between two ratios."""

    low: float
    high: float
    marks: tuple[float, ...]

    def place(self, ratio: float) -> float:
        """Share of the width at which a ratio stands, clamped to the ends of the axis."""
        within = min(max(ratio, self.low), self.high)
        share = math.log(within / self.low) / math.log(self.high / self.low)
        return _EDGE + (1 - 2 * _EDGE) * share

    def ticks(self) -> list[Tick]:
        """The marks in words."""
        anchors = {self.marks[0]: "start", self.marks[-1]: "end"}
        return [
            Tick(
                self.place(m),
                _WORDS.get(m) or amount(m),
                anchors.get(m, "middle"),
                m not in anchors and m != 1,
            )
            for m in self.marks
        ]


def fitting(estimates: list[float], ends: list[float]) -> PlotAxis:
    """The narrowest axis that holds every estimate and, within reason, every end of an interval (all ratios > 0)."""
    inner = max((abs(math.log(r)) for r in estimates), default=0)
    far = [abs(math.log(r)) for r in ends] or [inner]
    # One very wide interval must not press all others together: it is cut, with an arrow.
    wanted = max(inner, min(max(far), _ROOM * max(inner, median_low(far))))
    marks = next((m for m in _MARKS if _reach(m) >= wanted - 1e-9), _MARKS[-1])
    return PlotAxis(marks[0], marks[-1], marks)


def _reach(marks: tuple[float, ...]) -> float:
    return min(-math.log(marks[0]), math.log(marks[-1]))
