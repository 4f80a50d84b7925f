"""What the engine concludes, as plain data for whatever renders or writes it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ...catalog.entries import Test
from ...catalog.finding import Finding
from ..certainty.rating import Certainty
from ..model.change import Outlook
from ..model.slope import LengthSlope
from ..studies.contrasts import Cover, Direction
from ..terms import (
    Directions,
    EvidenceFinding,
    Gains,
    Measured,
    Path,
    Question,
    RatioInterval,
    Side,
)
from ..wording.names import Names
from ..wording.sentences import ComposedAnswer


@dataclass(frozen=True)
class Row:
    """What one sample of people shows on a question."""

    study: str
    results: tuple[int, ...]
    """Indices of the study's results it rests on; several measurements of one sample are combined."""
    people: int
    read: str
    estimate: RatioInterval | None
    """Its own ratio with its own t interval; ``None`` when it prints no spread."""
    direction: Direction | None
    stated: bool
    """Whether the paper states the direction; else it is read off two numbers and not counted."""
    how: str
    """How the spread was had, or why there is none."""
    texts: tuple[str, ...]
    """The numbers as the paper gives them, one for each result."""
    notes: tuple[str, ...] = ()
    """What makes it less than a direct answer: an arm that differs, a joint measurement, a phase."""
    differs: bool = False
    """An arm differs from the catalog's exercise."""
    cover: Cover = "alone"
    printed: str | None = None
    """The two numbers of its only contrast, when it has just one."""
    spread_printed: bool = False
    """Whether the paper prints a spread of its only contrast, in a unit that makes no ratio."""
    mixed: bool = False
    """Whether its own measurements point different ways."""
    groups: int | None = None
    """Over how many groups its people spread, when the sizes of those that count were not read."""
    tests: tuple[Test, ...] = ()
    """What stands behind its direction, each kind once."""
    as_tested: tuple[tuple[str, str], ...] = ()
    """What was done -> how it differs from the catalog's exercise."""
    together: tuple[str, ...] = ()
    """The other parts that the same number covers."""
    phases: tuple[str | None, ...] = ()
    """Phase of the repetition, or moment of the signal, of each number; ``None`` where none is told."""
    strength_tests: tuple[str, ...] = ()
    """For strength: what was tested."""
    dimension: str | None = None
    """What its numbers are of growth: thickness, area, volume; several, one of them."""
    weighed: bool = False
    """Whether the answer rests on it; else it is only listed."""
    ratio: float | None = None
    """Its number without a spread; drawn hollow."""
    gains: Gains | None = None
    """What its people gained with either side, where it tells both."""
    p: str | None = None
    """Its own test of the two, of its only contrast."""
    difference: str | None = None
    """The difference that it prints itself, of its only contrast."""
    weeks: float | None = None


@dataclass(frozen=True)
class Modelled:
    """Two mean lengths that a model gives, first against second, each a share (0-1) of the muscle's own range."""

    first: float = 0.0
    second: float = 0.0
    missing: str = ""
    """Why there are none; the shares then mean nothing."""


@dataclass(frozen=True)
class Comparison:
    """The answer to one question."""

    question: Question
    finding: EvidenceFinding
    side: Side | None
    """Which side is ahead, or leans ahead."""
    rows: tuple[Row, ...]
    certainty: Certainty | None
    """``None`` when nothing in the catalog bears on the question, and for a model: GRADE rates studies."""
    sentence: str
    """Composed; empty where nothing was studied, as only a claim then says what is taught."""
    estimate: RatioInterval | None = None
    """The average over studies like these; ``None`` where no number says how much."""
    measured: Measured = "part"
    dimension: str | None = None
    """What is weighed of growth: thickness, area, volume."""
    sized: bool = True
    """Whether any study prints a number that the estimate rests on; else its interval is all that "no difference" leaves open."""
    borrowed: bool = False
    """Whether it rests on a spread that no paper behind it prints."""
    more: float | None = None
    """Chance that the first is ahead at all, 0 to 1."""
    matters: float | None = None
    """Chance that the likelier side is ahead by at least the margin."""
    path: Path | None = None
    directions: Directions = Directions()
    """Samples that weigh by a stated direction alone."""
    conflict: bool = False
    """Whether samples point opposite ways, each by a test or an interval that leaves out no difference."""
    studies: int = 0
    people: int = 0
    gains: Gains | None = None
    weeks: tuple[float, float] | None = None
    sensitive: str | None = None
    """What changes over the stated range of correlations and priors, in one sentence; ``None`` when nothing does."""
    outlook: Outlook | None = None
    """What one more study would change."""
    modelled: Modelled | None = None
    """What a model says; only of lengths, which no study is asked for."""


@dataclass(frozen=True)
class Ranked:
    """One exercise of a component."""

    exercise: str
    against_reference: RatioInterval | None
    """``None`` for the reference itself."""


@dataclass(frozen=True)
class NetworkOrder:
    """Exercises that studies connect, for one part and one outcome, by their ratio to the reference."""

    reference: str
    """The exercise with the most samples; the others are shown against it."""
    order: tuple[Ranked, ...]
    samples: int
    people: int
    measured: Measured
    dimension: str | None
    """What is weighed of growth: thickness, area, volume."""


@dataclass(frozen=True)
class PartEvidence:
    """Everything known on one part and one outcome (and one ratio, if ``relative_to``)."""

    part: str
    outcome: str
    relative_to: str | None
    components: tuple[NetworkOrder, ...]
    comparisons: tuple[Comparison, ...]
    """Every pair that a study compares or a component connects, in a stable order."""


#: What studies found of a claim, as its author makes it. ``opposite``: they found the reverse.
ClaimFinding = Literal["found", "hinted", "unclear", "alike", "opposite", "not studied"]


@dataclass(frozen=True)
class Conclusion:
    """What the numbers say on one claim."""

    claim_id: str
    """``<exercise>/<number>``, numbered from 1 in the order of the file."""
    exercise: str
    index: int
    outcome: str
    parts: tuple[str, ...]
    basis: Literal["cited", "common practice"]
    finding: ClaimFinding
    reason: str
    """Why this finding, in one sentence for each part."""
    certainty: Certainty | None
    """The lowest over its parts; ``None`` when untested, and for lengths, which a model gives."""
    told: tuple[ComposedAnswer, ...]
    """One for each run of parts with the same answer; a last one without a sentence has what holds for all."""
    comparisons: tuple[Comparison, ...] = ()
    """One for each part of the claim."""

    @property
    def sentence(self) -> str:
        """All of it as one text."""
        return " ".join(text for one in self.told for text in (one.sentence, *one.remarks) if text)


@dataclass(frozen=True)
class KindsCompared:
    """Activation and growth of one pair and part, both measured: whether they agree."""

    question: Question
    agree: bool | None
    """``None`` where one of them shows no clear side."""
    sentence: str


@dataclass
class Conclusions:
    """Conclusions of a whole catalog."""

    names: Names
    claims: dict[str, list[Conclusion]] = field(default_factory=dict)
    fields: dict[tuple[str, str, str | None], PartEvidence] = field(default_factory=dict)
    kinds: list[KindsCompared] = field(default_factory=list)
    """Every pair and part on which both activation and growth were measured."""
    slopes: dict[str, LengthSlope] = field(default_factory=dict)
    """Muscle -> what length under load seems to add to its growth."""
    findings: list[Finding] = field(default_factory=list)
    """What the numbers make of the catalog: contradicted claims, numbers that cannot be weighed."""

    def of(self, exercise: str) -> list[Conclusion]:
        """The conclusions of an exercise, in the order of its claims."""
        return self.claims.get(exercise, [])
