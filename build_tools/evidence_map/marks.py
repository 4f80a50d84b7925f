"""The mark of one exercise on one part: the best kind of evidence, and every statement that stands behind it.

The first of these that holds gives the mark. Growth and activation are never mixed, and no count or score is made:

1. growth: more than with another exercise;
2. growth measured on the part itself, and not shown to be more;
3. activation: more than in another exercise;
4. growth measured only with other parts or on the whole muscle, and not shown to be more;
5. activation measured, and not shown to be more;
6. long while the load is near its peak, by the model;
7. commonly taught, and untested here.

What sets two parts of one exercise apart, or two versions of it, ranks no exercises and gives no mark.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ..evidence.terms import LEVELS, EvidenceFinding, Measured

MarkKind = Literal["growth", "activation", "length", "taught"]
#: What was found of the part: more, leaning to more, more of something wider than the part, or measured and not shown to be more.
Fill = Literal["found", "hinted", "wider", "no more"]
_STUDIED: tuple[MarkKind, ...] = ("growth", "activation")
_FILLS: tuple[Fill, ...] = ("found", "hinted", "wider", "no more")


#: Versions of one exercise (ranges, holds), or two parts in one exercise.
Aside = Literal["versions", "parts"]


@dataclass(frozen=True)
class Mark:
    """What is drawn in one cell. Equal marks look the same on every page."""

    kind: MarkKind
    fill: Fill | None = None
    """Only of growth and activation."""

    @property
    def more(self) -> bool:
        """Whether something puts the exercise ahead on the part."""
        return self.fill != "no more"


#: Every mark there is, as the legend has them: by kind, then by what was found.
LEGEND: tuple[Mark, ...] = (
    *(Mark(kind, fill) for kind in _STUDIED for fill in _FILLS),
    Mark("length"),
    Mark("taught"),
)


@dataclass(frozen=True)
class Reason:
    """One statement behind a mark, from the side of its exercise."""

    mark: Mark
    sentence: str
    """Composed; for lengths empty, as the share says it."""
    address: str
    """From the top of the site."""
    against: str | None = None
    """The exercise that it is compared with; None for a length."""
    finding: EvidenceFinding | None = None
    certainty: str | None = None
    measured: Measured = "part"
    behind: bool = False
    """Whether the exercise came out behind."""
    studies: int = 0
    people: int = 0

    @property
    def rank(self) -> tuple[int, ...]:
        """Its place among the reasons of a cell, best first: the rule of this module, then what was found, how certain it is, how many people."""
        wide = self.measured != "part"
        places = {
            ("growth", True): 1,
            ("growth", False): 4 if wide else 2,
            ("activation", True): 3,
            ("activation", False): 5,
            ("length", True): 6,
            ("taught", True): 7,
        }
        place = places[self.mark.kind, self.mark.more]
        level = LEVELS.index(self.certainty) if self.certainty in LEVELS else -1
        return place, LEGEND.index(self.mark), int(wide), -level, -self.people


@dataclass(frozen=True)
class Cell:
    """One exercise and one part."""

    exercise: str
    part: str
    counts: Literal["direct", "indirect"] | None
    """How a set of the exercise counts for the part."""
    reasons: tuple[Reason, ...] = ()
    """Best first."""
    length: int | None = None
    """How long the part is while it is asked most, per cent of its own range to the nearest ten; None where no model says."""
    aside: Aside | None = None
    """What studies compared in it that sets it apart from no other exercise."""

    @property
    def mark(self) -> Mark | None:
        """What is drawn; None where nothing is known."""
        return self.reasons[0].mark if self.reasons else None

    @property
    def tested(self) -> bool:
        """Whether any study measured growth or activation of it."""
        return any(reason.mark.kind in ("growth", "activation") for reason in self.reasons)
