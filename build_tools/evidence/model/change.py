"""What would change an answer: how likely one more study does, and how many people settle it.

The answer is taken as a normal distribution of its mean and standard deviation. A further study of the same
question then has an expected result, and what it leaves is known before anybody runs it (conditional power for
meta-analysis: Roloff et al. 2013, doi:10.1002/sim.5524).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, sqrt

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from ..terms import EvidenceFinding, Side
from .finding import LEANING, classify

_Z = float(ndtri(0.975))
_LEANING_Z = float(ndtri(LEANING))
#: A decisive study settles the question, one way or the other, in this share of cases. Convention.
POWER = 0.8
#: No larger study is asked for.
MOST_PEOPLE = 2000


@dataclass(frozen=True)
class FurtherStudy:
    """What would be concluded if one more study of ``people`` people found ``ratio``."""

    people: int
    ratio: float
    finding: EvidenceFinding
    side: Side | None


@dataclass(frozen=True)
class Outlook:
    """What would change an answer."""

    chance: float
    """That another study of the same size changes the finding, 0 to 1."""
    same: int
    """People of such a study."""
    people: int | None
    """Fewest people with whom one more study would settle it in 8 of 10 cases; ``None`` when no study of 2,000 would."""
    more: int | None
    """Fewest further studies of ``same`` people that would settle it so; ``None`` when not even 20 would."""
    studies: tuple[FurtherStudy, ...]
    """A small table: the same size and four times as many, finding nothing, the margin, and what is found today."""


@dataclass(frozen=True)
class OutlookBasis:
    """An answer as a normal distribution, and what one more study of it would be like. Log ratios throughout."""

    mean: float
    sd: float
    spread: float
    """Between studies, to expect."""
    unit: float
    """Standard error of a study times the root of its people."""
    margin: float
    """Log ratio within which two count as alike."""

    def after(self, people: int) -> tuple[float, float]:
        """Standard deviation of where the mean will then be, and of the answer around it."""
        new = self.unit**2 / people + self.spread**2
        return self.sd**2 / sqrt(self.sd**2 + new), self.sd * sqrt(new / (self.sd**2 + new))

    def updated(self, people: int, y: float) -> tuple[float, float]:
        """Mean and standard deviation after a study of so many people found ``y``."""
        new = self.unit**2 / people + self.spread**2
        weight = self.sd**2 / (self.sd**2 + new)
        return self.mean + weight * (y - self.mean), self.sd * sqrt(new / (self.sd**2 + new))

    def now(self) -> tuple[EvidenceFinding, Side | None]:
        """What it amounts to."""
        return _of_normal(self.mean, self.sd, self.margin)

    def chances(self, people: int) -> dict[tuple[EvidenceFinding, Side | None], float]:
        """EvidenceFinding after one more study -> its chance."""
        moved, left = self.after(people)
        found = _Z * left
        leaning = min(found, max(self.margin, _LEANING_Z * left))
        alike = max(0.0, min(self.margin - found, leaning))

        def between(low: float, high: float) -> float:
            return float(ndtr((high - self.mean) / moved) - ndtr((low - self.mean) / moved))

        chances: dict[tuple[EvidenceFinding, Side | None], float] = {
            ("found", "more"): 1 - float(ndtr((found - self.mean) / moved)),
            ("found", "less"): float(ndtr((-found - self.mean) / moved)),
            ("hinted", "more"): between(leaning, found),
            ("hinted", "less"): between(-found, -leaning),
            ("alike", None): between(-alike, alike),
        }
        chances["unclear", None] = max(0.0, 1 - sum(chances.values()))
        return chances


def outlook(
    basis: OutlookBasis, same: int, now: tuple[EvidenceFinding, Side | None] | None = None
) -> Outlook:
    """What would change an answer that rests on studies of about ``same`` people each.

    ``now`` is its finding, which a normal distribution need not give where it is close; left out, the one that it gives.
    """
    return Outlook(
        chance=1 - basis.chances(same)[now or basis.now()],
        same=same,
        people=_first(_PEOPLE, basis, basis.unit**2 / _PEOPLE + basis.spread**2),
        more=_first(_STUDIES, basis, (basis.unit**2 / same + basis.spread**2) / _STUDIES),
        studies=tuple(_table(basis, same)),
    )


#: Sizes of a further study that are tried.
_PEOPLE = np.array([*range(10, 50, 5), *range(50, 200, 10), *range(200, MOST_PEOPLE + 1, 100)])


#: Numbers of further studies that are tried.
_STUDIES = np.arange(1, 21)


def _first(tried: NDArray[np.int_], basis: OutlookBasis, new: NDArray[np.float64]) -> int | None:
    """The first of what is ``tried`` that settles the question often enough; ``new`` is the variance of what each will show."""
    both = basis.sd**2 + new
    moved, left = basis.sd**2 / np.sqrt(both), basis.sd * np.sqrt(new / both)
    found = _Z * left
    alike = np.maximum(0.0, basis.margin - found)
    settled = (
        1
        - (ndtr((found - basis.mean) / moved) - ndtr((-found - basis.mean) / moved))
        + (ndtr((alike - basis.mean) / moved) - ndtr((-alike - basis.mean) / moved))
    )
    enough = np.flatnonzero(settled >= POWER)
    return int(tried[enough[0]]) if len(enough) else None


def _table(basis: OutlookBasis, same: int) -> list[FurtherStudy]:
    way = 1 if basis.mean >= 0 else -1
    results = (-way * basis.margin, 0.0, way * basis.margin, basis.mean)
    return [
        FurtherStudy(people, exp(y), *_of_normal(*basis.updated(people, y), basis.margin))
        for people in (same, 4 * same)
        for y in dict.fromkeys(results)
    ]


def _of_normal(mean: float, sd: float, margin: float) -> tuple[EvidenceFinding, Side | None]:
    return classify(*(float(ndtr((x - mean) / sd)) for x in (-margin, 0.0, margin)))
