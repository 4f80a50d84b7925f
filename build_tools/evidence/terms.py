"""The engine's own words: what is asked, what was found, and everything that a sentence on it may tell.

Plain data without rules, so that the model, the rating, the words and the pages mean the same by the same name.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import Literal

from ..catalog.entries import Test

#: What studies found. ``found``: the 95% interval leaves out no difference. ``hinted``: the answer leans there.
#: ``alike``: the whole interval lies inside the margin. ``unclear``: none of these. ``not studied``: nothing can be weighed.
EvidenceFinding = Literal["found", "hinted", "unclear", "alike", "not studied"]
#: The side of a question that came out ahead: ``more`` is the first.
Side = Literal["more", "less"]
#: What was measured for the part asked for: the part itself, several parts in one number, or the muscle as one.
Measured = Literal["part", "together", "whole"]
#: How an answer came about: from studies of this very contrast, through other exercises, or both.
Path = Literal["direct", "indirect", "direct and indirect"]
#: GRADE's levels of certainty, from the lowest.
Level = Literal["very low", "low", "moderate", "high"]
LEVELS: tuple[Level, ...] = ("very low", "low", "moderate", "high")
#: What a claim's author says of the first against the second.
Claimed = Literal["more", "less", "similar"]


@dataclass(frozen=True)
class Question:
    """What is asked: first against second, for one part and one outcome.

    ``first`` and ``second`` are exercises or versions of them; when ``within`` names an exercise they
    are parts compared within it.
    """

    first: str
    second: str
    part: str
    outcome: str
    relative_to: str | None = None
    within: str | None = None


@dataclass(frozen=True)
class RatioInterval:
    """A ratio with its 95% interval; raises ``ValueError`` unless 0 < low <= ratio <= high < inf."""

    ratio: float
    low: float
    high: float

    def __post_init__(self) -> None:
        if not 0 < self.low <= self.ratio <= self.high < inf:
            raise ValueError(
                f"an estimate needs 0 < low <= ratio <= high, not {self.low:g}, {self.ratio:g}, {self.high:g}"
            )


@dataclass(frozen=True)
class Directions:
    """How many independent samples say what of a contrast, of those that give no number for it."""

    more: int = 0
    less: int = 0
    neither: int = 0
    mixed: int = 0
    """Samples whose own measurements point different ways."""

    @property
    def total(self) -> int:
        """How many samples said anything."""
        return self.more + self.less + self.neither + self.mixed

    def __str__(self) -> str:
        mixed = f", {self.mixed} different ways" if self.mixed else ""
        return f"{self.more} more, {self.less} less, {self.neither} no difference{mixed}"


@dataclass(frozen=True)
class Gains:
    """What people gained with either side, as growth factors (after over before): 1.18 is 18% more."""

    first: float
    second: float
    pooled: bool = False
    """Whether they stand for several studies: the second is then their mean, and the first that mean times the ratio."""


@dataclass(frozen=True)
class Answer:
    """Everything that a sentence on one question may tell, for one part or for several parts with the same answer."""

    question: Question
    parts: tuple[str, ...]
    finding: EvidenceFinding
    side: Side | None
    """Which side is ahead; for ``hinted`` the one it leans to, for ``unclear`` and ``alike`` None."""
    level: Level | None
    """Certainty; None only where nothing was studied."""
    measured: Measured = "part"
    estimate: RatioInterval | None = None
    """First to second, over all studies there could be; None where no number says how much."""
    sized: bool = True
    """Whether any study printed a number that ``estimate`` rests on; else its interval is all that "no difference" leaves open."""
    borrowed: bool = False
    """Whether the interval rests on a spread that no paper behind it prints, borrowed from other studies."""
    trivial: bool = False
    """For ``found``: whether the interval's near end lies within the margin, so that the difference may be too small to matter."""
    gains: Gains | None = None
    """For growth and strength, where changes of both sides are known."""
    printed: str | None = None
    """The one study's own numbers for both sides, as printed: ``14% against 9%``."""
    difference: str | None = None
    """The one study's own printed difference, with interval and unit: ``difference 3.2 mm, 95% interval 0.4 to 6.0``."""
    p: str | None = None
    """The one study's own test of the two: ``p = 0.03``, ``p < 0.05``."""
    studies: int = 0
    people: int = 0
    groups: int | None = None
    """Over how many groups the people spread, when the sizes of those that count were not read."""
    weeks: tuple[float, float] | None = None
    """Shortest and longest training behind it; None for a single session."""
    path: Path | None = None
    directions: Directions = Directions()
    """What further samples state, without a number."""
    tests: frozenset[Test] = frozenset()
    """What stands behind the direction; none of them in TESTED means that no test of the two was read."""
    own_test: bool = False
    """Whether a study behind it shows this side clearly by its own test or interval; what is open is then other studies."""
    conflict: bool = False
    """Whether studies point opposite ways, each with a test or an interval that leaves out no difference."""
    untested: tuple[tuple[Literal["more", "less", "neither"], Test], ...] = ()
    """Direction and test of each further study of which no test of the pair was read."""
    aside: tuple[tuple[Literal["more", "less", "neither"], str], ...] = ()
    """Direction and measure (``thickness``, ``several parts as one``) of each further study whose test of the pair cannot be weighed
    with the others, because it measured something else."""
    strength_test: str | None = None
    """For strength: the one test that all studies made."""
    together: tuple[str, ...] = ()
    """Other parts that the same number covers."""
    as_tested: tuple[tuple[tuple[str, str], ...], ...] = ()
    """For each study: what was done -> how it differs from the catalog's exercise."""
    phase: str | None = None
    """The one phase of the repetition, or moment of the signal, that all numbers are of."""
