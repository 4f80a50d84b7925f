"""What the certainty rules read and what they say: a body of evidence, steps, caps and the rules themselves."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property
from operator import attrgetter
from typing import Literal

from ...catalog.entries import Allocation
from ..terms import EvidenceFinding, Level, Measured, RatioInterval

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
    """One independent sample of people behind an answer."""

    study: str
    """Reference key."""
    design: str
    """Id of the design, as in the catalog's vocabulary."""
    allocation: Allocation
    """How people, limbs or the order of exercises came to the arms."""
    n: int
    """People."""
    outcome: str
    """The outcome that was measured."""
    read: Read
    """What was read where the numbers stand."""
    risk_of_bias: Risk | None = None
    """As appraised by the authors; ``None`` when not appraised."""
    differs: bool = False
    """True when an arm differs from the catalog's exercise."""
    measured_as: Measured = "part"
    """What was measured for the part asked for."""
    clear: Literal[-1, 0, 1] = 0
    """The side that it shows clearly, by its interval or its own test: 1 the first, -1 the second, 0 neither."""
    spread: Literal["printed", "bounded", "significant", "unknown"] = "printed"
    """Whether its own spread is known; ``bounded`` when a number and a bound on p give its widest, ``significant`` when only
    a test is told that left out no difference."""

    def __post_init__(self) -> None:
        if self.n <= 0:
            raise ValueError(f"{self.study}: a sample needs people, not n = {self.n}")


@dataclass(frozen=True)
class Incoherence:
    """Direct against indirect evidence for this one comparison: p of the difference, and their ratio."""

    p: float
    ratio: float

    def mirrored(self) -> Incoherence:
        """The same from the other side."""
        return Incoherence(self.p, 1 / self.ratio)


@dataclass(frozen=True)
class EvidenceBody:
    """All that is known on one contrast and one outcome, as far as the rules ask for it."""

    outcome: str
    """The outcome asked for: growth, activation, ..."""
    samples: tuple[RatedSample, ...]
    """Those that the answer rests on (for a network: those that carry it)."""
    margin: float
    """Ratio (above 1) within which two amounts count as alike."""
    large: float
    """Ratio from which a difference is large."""
    usual: float
    """How far two exercises usually lie apart, as a standard deviation of the log ratio."""
    estimate: RatioInterval | None = None
    """The answer; ``None`` when no number says how much."""
    known: RatioInterval | None = None
    """The answer from samples with a spread of their own alone, or the widest that numbers with a bound on p allow;
    ``None`` when there are neither."""
    side: Literal[-1, 1] = 1
    """The side on which the answer's middle lies."""
    heterogeneity_p: float | None = None
    """p of the test whether studies differ more than chance gives."""
    spread: float | None = None
    """Between studies, as a standard deviation of the log ratio, to expect."""
    direct_share: float = 1.0
    """Share of the answer's weight that comes from studies comparing the two directly; 0 when none does."""
    incoherence: Incoherence | None = None
    findings: tuple[EvidenceFinding, ...] = ()
    """The findings over the stated range of correlations, the answer's own first."""

    def __post_init__(self) -> None:
        if not self.samples:
            raise ValueError("without a sample there is no certainty; nothing was studied")
        if not self.margin > 1 or not 0 <= self.direct_share <= 1:
            raise ValueError(
                f"needs a margin above 1 and a direct share of 0 to 1, not {self.margin:g} and {self.direct_share:g}"
            )

    @cached_property
    def people(self) -> int:
        """People in all samples."""
        return sum(sample.n for sample in self.samples)

    @cached_property
    def _kinds(self) -> list[tuple[RatedSample, int]]:
        """Samples that the rules cannot tell apart, by one of them, with all their people."""
        found: dict[object, tuple[RatedSample, int]] = {}
        for sample in self.samples:
            kind = _KIND(sample)
            found[kind] = sample, sample.n + (found[kind][1] if kind in found else 0)
        return list(found.values())

    def share(self, holds: Callable[[RatedSample], bool]) -> float:
        """Share of the people, 0 to 1, in samples of which ``holds`` is true, whatever their study and size."""
        return sum(n for sample, n in self._kinds if holds(sample)) / self.people


#: All that the rules ask of a sample, but its people.
_KIND = attrgetter(
    "design",
    "allocation",
    "outcome",
    "read",
    "risk_of_bias",
    "differs",
    "measured_as",
    "clear",
    "spread",
)


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
