"""A moment over the repetition and what can be said about it: where it peaks, where it nearly vanishes, how long it stays high."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import copysign, isfinite
from typing import NamedTuple

#: Shares of the peak. Above the first the load counts as near its peak, below the second as nearly gone.
HIGH, VANISHING = 0.8, 0.1
#: Peaks of less than this (N·m) are no load at all.
NOTHING = 1e-6


class Instant(NamedTuple):
    """One instant: share of the repetition (0-1), joint angle (degrees), muscle moment asked (N·m, flexors positive)."""

    share: float
    angle: float
    moment: float


@dataclass(frozen=True)
class Summary:
    """A curve in a few numbers. Shares are of the repetition from start to end (0-1), angles clinical degrees; not rounded."""

    peak_moment: float  # N·m, flexors positive
    peak_share: float
    peak_angle: float
    vanishes: tuple[tuple[float, float], ...]  # stretches of the repetition below 10 % of the peak
    high: float  # share of the repetition above 80 % of the peak
    lowest: float  # smallest moment as a share of the peak
    changes_sign: bool  # both muscle groups are asked for more than 10 % of the peak

    @property
    def asks(self) -> str:
        """Which muscle group the peak loads: ``flexors`` or ``extensors``."""
        return "flexors" if self.peak_moment > 0 else "extensors"


@dataclass(frozen=True)
class Curve:
    """The moment that one joint's muscles must supply against the load, over one repetition (at least two samples)."""

    joint: str
    samples: tuple[Instant, ...]

    @cached_property
    def peak(self) -> float:
        """Largest size of the moment, N·m; never negative."""
        return max(abs(s.moment) for s in self.samples)

    def normalised(self) -> tuple[float, ...]:
        """Each moment as a share of the peak, positive where the muscle group of the peak is asked. All zero without load."""
        return self._shares

    def summary(self) -> Summary | None:
        """The curve in a few numbers, or None without load. Between samples the curve is taken as straight."""
        return self._summary

    @cached_property
    def _shares(self) -> tuple[float, ...]:
        peak = self.peak
        if peak < NOTHING:
            return (0.0,) * len(self.samples)
        # The first peak gives the sign, the largest the size: of two that rounding parts, neither goes beyond 1.
        top = copysign(peak, self.samples[_first_peak(self.samples)].moment)
        return tuple(s.moment / top for s in self.samples)

    @cached_property
    def _summary(self) -> Summary | None:
        if self.peak < NOTHING:
            return None
        if not all(isfinite(s.moment) for s in self.samples):
            raise ValueError(f"the moment about the {self.joint} is not finite")
        values = self.normalised()
        share, angle, peak = _top(self.samples)
        pieces = list(_pieces(self.samples, values))
        return Summary(
            peak,
            share,
            angle,
            _merged(_inside(a, b, -VANISHING, VANISHING) for a, b in pieces),
            sum(
                e - s
                for a, b in pieces
                for s, e in [_inside(a, b, HIGH, 2.0), _inside(a, b, -2.0, -HIGH)]
            ),
            0.0 if min(values) < 0 else min(values),
            min(values) < -VANISHING,
        )


def _first_peak(samples: Sequence[Instant]) -> int:
    """Where the moment is largest first; rounding does not decide which of two equal peaks that is."""
    sizes = [abs(s.moment) for s in samples]
    enough = max(sizes) * (1 - 1e-9)
    return next(i for i, size in enumerate(sizes) if size >= enough)


def _top(samples: Sequence[Instant]) -> tuple[float, float, float]:
    """Share, angle and moment of the first peak; the middle where its top is level."""
    first = last = _first_peak(samples)
    peak = samples[first].moment
    while last + 1 < len(samples) and abs(samples[last + 1].moment - peak) <= 1e-9 * abs(peak):
        last += 1
    return (
        (samples[first].share + samples[last].share) / 2,
        (samples[first].angle + samples[last].angle) / 2,
        peak,
    )


Knot = tuple[float, float]  # share of the repetition, share of the peak


def _pieces(samples: Sequence[Instant], values: Sequence[float]) -> Iterator[tuple[Knot, Knot]]:
    points = [(s.share, v) for s, v in zip(samples, values, strict=True)]
    return zip(points, points[1:], strict=False)


def _inside(a: Knot, b: Knot, low: float, high: float) -> tuple[float, float]:
    """The stretch of the straight piece a-b whose value lies in [low, high]; of no length where there is none."""
    (start, p), (end, q) = a, b
    if p == q:
        return (start, end) if low <= p <= high else (start, start)
    cuts = sorted(((low - p) / (q - p), (high - p) / (q - p)))
    first, last = max(0.0, cuts[0]), min(1.0, cuts[1])
    return (
        (start + first * (end - start), start + last * (end - start))
        if first < last
        else (start, start)
    )


def _merged(stretches: Iterator[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """Stretches that touch become one; empty ones go."""
    out: list[tuple[float, float]] = []
    for start, end in stretches:
        if end - start <= 0:
            continue
        if out and start - out[-1][1] < 1e-9:
            out[-1] = (out[-1][0], end)
        else:
            out.append((start, end))
    return tuple(out)
