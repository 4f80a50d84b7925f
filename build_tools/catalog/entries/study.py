"""What a study file may contain."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from .base import (
    DesignId,
    Entry,
    ExerciseId,
    Headcount,
    Id,
    Line,
    MeasureId,
    PartRef,
    Positive,
    Probability,
    ProbabilityBound,
    Quantity,
    QuestionId,
    ReferenceKey,
    StudyKey,
    Unfit,
    Unit,
    VersionId,
)
from .numbers import Difference, Ratio, Standardised, Value


class People(Entry):
    """Who took part."""

    n: Headcount = Field(
        description="Number of people analysed, or enrolled if only that is known."
    )
    women: Annotated[int, Field(ge=0, le=1_000_000)] | None = Field(
        None, description="How many of them are women."
    )
    others: Headcount | None = Field(
        None, description="How many of them are in no arm here: other groups, dropouts."
    )
    age: Line | None = Field(None, description="As reported, e.g. 22.4 (SD 3.1) years.")
    trained: bool | None = Field(None, description="Whether they had trained with weights before.")
    note: Line | None = Field(None, description="Anything else that limits to whom it applies.")


#: How people, limbs or the order of exercises came to the arms.
Allocation = Literal["random", "counterbalanced", "self-chosen", "not stated"]
#: What stands behind a stated direction. Only the first two tested the two sides against each other.
Test = Literal["between", "interaction", "within", "omnibus", "ranking", "none", "not reported"]
TESTED: tuple[Test, ...] = ("between", "interaction")


class Arm(Entry):
    """One condition of a study: an exercise of the catalog, a version of it, or a control."""

    exercise: ExerciseId | None = Field(
        None, description="Exercise id; leave out for a control or an exercise not in the catalog."
    )
    version: VersionId | None = Field(
        None,
        description="Id from vocabulary.yaml: the exercise over another range, hold, stance or tempo, "
        "where that sets this arm apart. Never averaged into the exercise.",
    )
    called: Line = Field(
        description="What the paper calls it, in our own short words.",
        examples=["seated curl, full range", "no training"],
    )
    differs: Line | None = Field(
        None,
        description="How the arm differs from the catalog's exercise, e.g. lowering phase only.",
    )
    forbidden_by: Line | None = Field(
        None,
        description="The cue of our exercise, word for word, that forbids what this arm did. "
        "The arm then says nothing of our exercise.",
    )
    n: Headcount | None = Field(None, description="Number of people in this arm.")

    @model_validator(mode="after")
    def _of_an_exercise(self) -> Arm:
        if self.exercise is None and (self.version or self.forbidden_by):
            raise Unfit(
                f"`{'version' if self.version else 'forbidden_by'}:` speaks of a catalog exercise, and this arm has none",
                "give `exercise:`, or leave it out",
                "version" if self.version else "forbidden_by",
            )
        return self

    @property
    def treatment(self) -> str | None:
        """What is compared: the exercise, or ``exercise@version``; ``None`` for a control or a movement that our cues forbid."""
        if self.exercise is None or self.forbidden_by:
            return None
        return f"{self.exercise}@{self.version}" if self.version else self.exercise


class Contrast(Entry):
    """What the paper says of one arm against another (or of two parts within an arm)."""

    of: Id = Field(description="Id of one arm.")
    against: Id = Field(description="Id of the arm it is compared with.")
    of_part: PartRef | None = Field(
        None, description="When two parts are compared: the first part."
    )
    against_part: PartRef | None = Field(
        None, description="When two parts are compared: the second part."
    )
    test: Test = Field(
        description="What stands behind the direction: `between` (the two sides against each other), `interaction` (arm by "
        "time), `within` (each against its own start), `omnibus` (all arms at once), `ranking`, `none` (no "
        "test is mentioned), `not reported` (the paper is silent on this pair)."
    )
    favours: Literal["of", "against", "neither"] | None = Field(
        None,
        description="The direction the paper prints; `neither` when it says that there was no difference.",
    )
    p: Probability | None = Field(None, description="Exact p value.")
    p_below: ProbabilityBound | None = Field(None, description="Bound, when p is reported as < x.")
    p_above: ProbabilityBound | None = Field(None, description="Bound, when p is reported as > x.")
    t: Quantity | None = Field(None, description="t statistic, positive when `of` is larger.")
    difference: Difference | None = Field(None, description="A reported difference.")
    ratio: Ratio | None = Field(None, description="A reported ratio.")
    standardised: Standardised | None = Field(
        None, description="A reported standardised mean difference."
    )
    note: Line | None = Field(None, description="What else the paper says of this contrast.")

    @model_validator(mode="after")
    def _silence(self) -> Contrast:
        if self.test == "not reported" and (
            self.favours or self.p or self.p_below or self.p_above or self.t
        ):
            raise Unfit(
                "`test: not reported` says that the paper is silent on this pair, yet a direction or p is given",
                "leave out `favours`, p and t, or name the test",
                "test",
            )
        return self

    @property
    def tested(self) -> bool:
        """Whether the two sides were tested against each other."""
        return self.test in TESTED


class Site(Entry):
    """Where along the muscle it was measured."""

    said: Line | None = Field(
        None, description="In the paper's sense, in our words: middle level, over L3."
    )
    percent: Annotated[float, Field(ge=0, le=100)] | None = Field(
        None, description="Share of the way along the limb or muscle, per cent."
    )
    end: Literal["proximal", "distal"] | None = Field(
        None,
        alias="from",
        description="The end from which `percent` counts: proximal is nearer the trunk.",
    )

    @model_validator(mode="after")
    def _somewhere(self) -> Site:
        if (self.percent is None) != (self.end is None):
            raise Unfit(
                "this site has one of `percent:` and `from:`",
                "give both (30 per cent from the hip is not 30 per cent from the knee), or neither",
            )
        if self.said is None and self.percent is None:
            raise Unfit("this site says nothing", "give `said:`, or `percent:` and `from:`")
        return self

    def __str__(self) -> str:
        place = (
            f"{self.percent:g}% of the way, from the {self.end} end"
            if self.percent is not None
            else None
        )
        return ", ".join(filter(None, (self.said, place)))


class Via(Entry):
    """Where a number of this study was read, when not in the study: a review's data, an open data set."""

    key: ReferenceKey = Field(
        description="Reference key of the publication that carries the number."
    )
    file: Line = Field(description="File, table or supplement of it.")
    rows: Line | None = Field(
        None, description="Rows or lines, so that the next reader finds the number."
    )

    def __str__(self) -> str:
        return f"second-hand, {self.file}" + (f", rows {self.rows}" if self.rows else "")


class Result(Entry):
    """One measurement: parts, measure, place in the paper, arm values and reported contrasts."""

    parts: list[PartRef] = Field(
        min_length=1, description="What the one measurement covers, together."
    )
    measured: Literal["part", "together", "whole"] | None = Field(
        None,
        description="`part`: one part by itself; `together`: several parts in one number; `whole`: a muscle as one.",
    )
    relative_to: PartRef | None = Field(
        None, description="When the measure is a ratio to another part."
    )
    site: Site | None = Field(None, description="Where along the muscle.")
    phase: Line | None = Field(
        None,
        description="Which phase of the repetition, or which moment of the signal.",
        examples=["raising phase"],
    )
    measure: MeasureId = Field(description="Id from vocabulary.yaml; it decides the outcome.")
    strength_test: Line | None = Field(
        None,
        description="For strength: the test, e.g. one-repetition maximum of the leg press.",
        examples=["one-repetition maximum of the leg press"],
    )
    unit: Unit | None = Field(
        None,
        description="Unit of the numbers, from those of the measure; left out when there is only a direction.",
    )
    at: Line | None = Field(
        None,
        description="Where it stands: abstract, Table 2, p. 5. Left out for a second-hand number.",
        examples=["abstract", "Table 2", "p. 5"],
    )
    via: Via | None = Field(
        None, description="Where the number was read, when not in the study itself."
    )
    doubt: Line | None = Field(
        None, description="Why the number is not believed: it is kept and shown, never weighed."
    )
    values: dict[Id, Value] = Field(default={}, description="Arm id -> what it showed.")
    contrasts: list[Contrast] = Field(
        default=[], description="What the paper says of one arm against another."
    )
    note: Line | None = Field(None, description="What else a reader of the number should know.")

    @model_validator(mode="after")
    def _something(self) -> Result:
        if not self.values and not self.contrasts:
            raise Unfit(
                "this result says nothing", "give `values:` or `contrasts:`, as the paper does"
            )
        if (self.at is None) == (self.via is None):
            raise Unfit(
                "this result does not say where it was read"
                if self.at is None
                else "this result was read in the study and second-hand",
                "give `at:` (where it stands in the study), or `via:` for a number read second-hand",
            )
        if self.unit is None and (
            self.values or any(contrast.difference for contrast in self.contrasts)
        ):
            raise Unfit(
                "this result has numbers without a unit",
                "give `unit:`, one of those of the measure in vocabulary.yaml",
            )
        return self

    @property
    def place(self) -> str:
        """Where the number was read."""
        return self.at or str(self.via)

    @property
    def where(self) -> str | None:
        """Site and phase in one phrase."""
        return ", ".join(filter(None, (str(self.site) if self.site else None, self.phase))) or None


#: What an appraisal finds out. ``not stated`` says that what was read is silent, which never counts as yes.
Found = Literal["yes", "partly", "no", "not stated"]


class AppraisalAnswer(Entry):
    """What was found out on one signalling question of the vocabulary."""

    answer: Found = Field(
        description="yes, partly or no, as the paper says it; `not stated` when what was read is silent."
    )
    because: Line | None = Field(
        None, description="What it rests on, in our words; left out when it is not stated."
    )
    at: Line = Field(description="Where it was read, or looked for: abstract, methods, p. 3.")

    @model_validator(mode="after")
    def _reason(self) -> AppraisalAnswer:
        if self.answer != "not stated" and self.because is None:
            raise Unfit(
                f"this answer, {self.answer}, has no reason",
                "give `because:`, or write `answer: not stated` when what was read is silent",
            )
        return self


class OutcomeLeftOut(Entry):
    """An outcome of the abstract that is not entered, and why."""

    what: Line = Field(description="The outcome, in a few words.", examples=["muscle soreness"])
    because: Line = Field(description="Why it is not entered.")


class Study(Entry):
    """What was read of one publication with numbers (``studies/<key>.yaml``, key as in references.bib)."""

    design: DesignId = Field(description="Id from vocabulary.yaml.")
    allocation: Allocation | None = Field(
        None, description="How people, limbs or the order of exercises came to the arms."
    )
    same_people: bool = Field(
        description="True when the same people (or their two limbs) did every arm."
    )
    people: People = Field(description="Who took part, as far as it is reported.")
    weeks: Positive | None = Field(
        None, description="Length of training in weeks; left out for a single session."
    )
    same_sample_as: StudyKey | None = Field(
        None,
        description="Study whose people these are too, surely or probably; they are counted once.",
    )
    appraisal: dict[QuestionId, AppraisalAnswer] | None = Field(
        None,
        description="Signalling question of vocabulary.yaml -> what was found; the risk of bias is computed from it. Left out when "
        "nobody has appraised the study.",
    )
    arms: dict[Id, Arm] = Field(
        min_length=1, description="The conditions that were compared, by id."
    )
    results: list[Result] = Field(
        min_length=1, description="Its measurements, one for each muscle or part."
    )
    left_out: list[OutcomeLeftOut] | None = Field(
        None,
        description="Each outcome of the abstract that is not entered, and why; [] when all are.",
    )
    says: Line = Field(description="What it found, in one sentence of our own.")
    limits: Line | None = Field(
        None, description="What it cannot tell, in one sentence of our own."
    )
