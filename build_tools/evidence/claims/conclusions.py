"""What the engine concludes, as plain data for whatever renders or writes it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ...catalog.entries import Test
from ...catalog.finding import Finding
from ..certainty.rating import Certainty
from ..studies.contrasts import Cover, Direction
from ..wording.names import Names
from .verdict import Directions, RatioInterval, Verdict

#: What the numbers of one question look like.
#: "read off": two numbers differ, but nobody tested the difference or printed a spread.
Shape = Literal["more", "less", "alike", "unclear", "none found", "split", "read off", "untested"]

#: How an estimate came about: from studies of this very contrast, through other exercises, or both.
Path = Literal["direct", "indirect", "direct and indirect"]


@dataclass(frozen=True)
class Question:
    """What is asked: first against second, for one part and one outcome.

    ``first`` and ``second`` are exercise ids; when ``within`` names an exercise they
    are parts compared within it.
    """

    first: str
    second: str
    part: str
    outcome: str
    relative_to: str | None = None
    within: str | None = None


@dataclass(frozen=True)
class Row:
    """What one sample of people shows on a question."""

    study: str
    results: tuple[int, ...]
    """Indices of the study's results it rests on; several measurements of one sample are combined."""
    people: int
    read: str
    estimate: RatioInterval | None
    """``None`` when no spread could be had: listed and drawn hollow, never pooled."""
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
    estimate: RatioInterval | None
    path: Path | None
    rows: tuple[Row, ...]
    directions: Directions
    """Samples that state a direction but give no usable spread."""
    certainty: Certainty | None
    """``None`` when nothing in the catalog bears on the question, and for a model: GRADE rates studies."""
    shape: Shape
    sentence: str
    """Composed; empty when untested, as only a claim then says what is taught."""
    studies: int
    people: int
    prediction: tuple[float, float] | None = None
    """Where the ratio of a new study would be expected (95 %)."""
    i2: float | None = None
    sensitive: str | None = None
    """What changes over the stated range of correlations, in one sentence; ``None`` when nothing does."""
    modelled: Modelled | None = None
    """What a model says; only of lengths, which no study is asked for."""


@dataclass(frozen=True)
class Ranked:
    """One exercise of a component, in order of its P-score."""

    exercise: str
    p_score: float
    against_reference: RatioInterval | None
    """``None`` for the reference itself."""


@dataclass(frozen=True)
class NetworkOrder:
    """Exercises that studies connect, for one part and one outcome."""

    reference: str
    """The exercise with the most samples; the others are shown against it."""
    order: tuple[Ranked, ...]
    samples: int
    people: int
    tau2: float | None
    """``None``, like ``i2``, when no contrast was measured twice and no loop closes: nothing then shows how studies differ."""
    i2: float | None
    q_between_p: float | None
    """Agreement of direct and indirect evidence over the whole component; ``None`` when there is no loop."""


@dataclass(frozen=True)
class PartEvidence:
    """Everything known on one part and one outcome (and one ratio, if ``relative_to``)."""

    part: str
    outcome: str
    relative_to: str | None
    components: tuple[NetworkOrder, ...]
    comparisons: tuple[Comparison, ...]
    """Every pair that a study compares or a component connects, in a stable order."""


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
    verdict: Verdict
    reason: str
    """Why this verdict, in one sentence for each part."""
    certainty: Certainty | None
    """The lowest over its parts; ``None`` when untested, and for lengths, which a model gives."""
    sentence: str
    comparisons: tuple[Comparison, ...] = ()
    """One for each part of the claim."""


@dataclass(frozen=True)
class Disagreement:
    """Two kinds of evidence on one pair and part that point different ways."""

    question: Question
    sentence: str


@dataclass
class Conclusions:
    """Conclusions of a whole catalog."""

    names: Names
    claims: dict[str, list[Conclusion]] = field(default_factory=dict)
    fields: dict[tuple[str, str, str | None], PartEvidence] = field(default_factory=dict)
    disagreements: list[Disagreement] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    """What the numbers make of the catalog: contradicted claims, numbers that cannot be weighed."""

    def of(self, exercise: str) -> list[Conclusion]:
        """The conclusions of an exercise, in the order of its claims."""
        return self.claims.get(exercise, [])
