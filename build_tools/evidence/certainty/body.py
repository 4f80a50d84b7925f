"""What the certainty rules read and what they say: a body of evidence, steps, caps and the rules themselves."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from ..claims.verdict import Directions, RatioInterval, Verdict

Level = Literal["very low", "low", "moderate", "high"]
LEVELS: tuple[Level, ...] = ("very low", "low", "moderate", "high")

Domain = Literal[
    "start",
    "risk of bias",
    "inconsistency",
    "indirectness",
    "imprecision",
    "publication bias",
    "cap",
    "authored",
]
Risk = Literal["low", "some", "high"]
Read = Literal["full text", "abstract", "part of abstract", "record", "memory"]

#: Share of the people that counts as "most of them" for the start and for what was read. Convention:
#: one small study of another kind neither lowers nor lifts a whole body.
MOST = 0.75
#: Share of the people from which a weakness touches the whole answer. Convention.
HALF = 0.5


@dataclass(frozen=True)
class RatedSample:
    """One independent sample of people behind the number, or behind the stated directions if there is none."""

    study: str
    """Reference key."""
    design: str
    """Id of the design, as in the catalog's vocabulary."""
    n: int
    """People."""
    measured: str
    """The outcome that was measured, which may not be the one asked for."""
    read: Read
    """What was read where the numbers stand."""
    paired: bool
    """True when the same people (or their two limbs) did both sides."""
    correlation: float = 0.0
    """Within-person correlation used for a paired sample; 0 when none is known, which asks for the most people."""
    risk_of_bias: Risk | None = None
    """As appraised by the authors; ``None`` when not appraised."""
    differs: bool = False
    """True when an arm differs from the catalog's exercise."""
    jointly: bool = False
    """True when the part was measured together with other parts."""
    whole_muscle: bool = False
    """True when the whole muscle was measured instead of the part."""

    def __post_init__(self) -> None:
        if self.n <= 0 or not -1 <= self.correlation < 1:
            raise ValueError(
                f"{self.study}: a sample needs people and a correlation below 1, not n = {self.n}, r = {self.correlation:g}"
            )


@dataclass(frozen=True)
class Incoherence:
    """Direct against indirect evidence for this one comparison: p of the difference, and their ratio."""

    p: float
    ratio: float


@dataclass(frozen=True)
class EvidenceBody:
    """All that is known on one contrast and one outcome, as far as the rules ask for it."""

    outcome: str
    """The outcome asked for: growth, activation, ..."""
    samples: tuple[RatedSample, ...]
    """Those behind the estimate (for a network: those that carry it); without an estimate, those behind the directions."""
    margin: float
    """Ratio (above 1) within which two amounts count as alike."""
    estimate: RatioInterval | None = None
    common: RatioInterval | None = None
    """The same under a common-effect model, which leaves the spread between studies out."""
    directions: Directions = Directions()
    """Stated by samples without a usable spread: beside the estimate, or all there is."""
    i2: float | None = None
    """I², in per cent."""
    tau2: float | None = None
    q_p: float | None = None
    """p of the test for heterogeneity."""
    prediction: tuple[float, float] | None = None
    """95% prediction interval, ratio scale."""
    direct_share: float = 1.0
    """Share of the estimate's weight that comes from studies comparing the two directly; 0 when none does."""
    incoherence: Incoherence | None = None
    verdicts: tuple[Verdict, ...] = ()
    """The verdicts over the stated range of within-person correlations."""

    def __post_init__(self) -> None:
        if not self.samples or (self.estimate is None and not self.directions.total):
            raise ValueError(
                "without an estimate or a stated direction there is no certainty; the verdict is untested"
            )
        if not self.margin > 1 or not 0 <= self.direct_share <= 1:
            raise ValueError(
                f"needs a margin above 1 and a direct share of 0 to 1, not {self.margin:g} and {self.direct_share:g}"
            )

    @property
    def voices(self) -> int:
        """Independent samples that say anything: those behind the estimate and those that only state a direction."""
        return (len(self.samples) if self.estimate else 0) + self.directions.total

    @cached_property
    def people(self) -> int:
        """People in all samples."""
        return sum(sample.n for sample in self.samples)

    def share(self, holds: Callable[[RatedSample], bool]) -> float:
        """Share of the people, 0 to 1, in samples of which ``holds`` is true."""
        return sum(sample.n for sample in self.samples if holds(sample)) / self.people


@dataclass(frozen=True)
class CertaintyRule:
    """A rule as the Methods page lists it."""

    id: str
    domain: Domain
    says: str
    source: str


@dataclass(frozen=True)
class RatingStep:
    """What one rule found: levels changed (0 when it is only said) and one plain sentence."""

    rule: str
    domain: Domain
    change: int
    reason: str


@dataclass(frozen=True)
class Cap:
    """A limit that no other strength of the evidence lifts."""

    rule: str
    at_most: Level
    reason: str


def charged_once(steps: Iterable[RatingStep], rule: str) -> tuple[RatingStep, ...]:
    """Signs of one cause: the weightiest is charged (the first of equals), the others are said by ``rule`` at no charge."""
    found = list(steps)
    worst = min(found, key=lambda step: step.change, default=None)
    return tuple(
        _waived(step, rule) if step.change and step is not worst else step for step in found
    )


def _waived(step: RatingStep, rule: str) -> RatingStep:
    return RatingStep(
        rule,
        step.domain,
        0,
        f"{step.reason.removesuffix('.')}; a sign of the same cause, so not charged again.",
    )
