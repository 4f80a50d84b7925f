"""What a study file may contain."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from .base import Entry, Id, Interval, Key, Line, PartRef, Positive


class People(Entry):
    """Who took part."""

    n: Annotated[int, Field(gt=0)] = Field(description="Number of people analysed, or enrolled if only that is known.")
    women: Annotated[int, Field(ge=0)] | None = Field(None, description="How many of them are women.")
    others: Annotated[int, Field(gt=0)] | None = Field(None, description="How many of them are in no arm here: other groups, dropouts.")
    age: Line | None = Field(None, description="As reported, e.g. 22.4 (SD 3.1) years.")
    trained: bool | None = Field(None, description="Whether they had trained with weights before.")
    note: Line | None = Field(None, description="Anything else that limits to whom it applies.")


class Arm(Entry):
    """One condition of a study: an exercise of the catalog, or a control."""

    exercise: Id | None = Field(None, description="Exercise id; leave out for a control or an exercise not in the catalog.")
    called: Line = Field(description="What the paper calls it, in our own short words.")
    differs: Line | None = Field(None, description="How the arm differs from the catalog's exercise, e.g. lowering phase only.")
    n: Annotated[int, Field(gt=0)] | None = Field(None, description="Number of people in this arm.")


class Spread(Entry):
    """A number with at most one statement of its spread, in the unit of the number."""

    sd: Annotated[float, Field(ge=0)] | None = Field(None, description="Standard deviation between people.")
    se: Annotated[float, Field(ge=0)] | None = Field(None, description="Standard error.")
    ci95: Interval | None = Field(None, description="95% confidence interval: [lower, upper].")


class Moment(Spread):
    """A mean at one time."""

    mean: float = Field(description="The mean, in the result's unit.")


class Value(Spread):
    """What one arm showed. Exactly one kind of number; its spread beside it."""

    mean: float | None = Field(None, description="A level, in the result's unit.")
    median: float | None = Field(None, description="A level, in the result's unit, when the paper gives medians.")
    quartiles: Interval | None = Field(None, description="First and third quartile, beside a median.")
    change: float | None = Field(None, description="After minus before, in the result's unit.")
    change_percent: float | None = Field(None, description="After minus before, in per cent of before.")
    pre: Moment | None = Field(None, description="Before training; together with `post`.")
    post: Moment | None = Field(None, description="After training; together with `pre`.")
    n: Annotated[int, Field(gt=0)] | None = Field(None, description="Number of people behind it, if not all of the arm.")

    @model_validator(mode="after")
    def _one_kind(self) -> Value:
        kinds = [k for k in ("mean", "median", "change", "change_percent") if getattr(self, k) is not None]
        if self.pre is None and self.post is None and len(kinds) != 1:
            raise ValueError("give exactly one of `mean`, `median`, `change`, `change_percent`, or both `pre` and `post`")
        if (self.pre is None) != (self.post is None):
            raise ValueError("`pre` and `post` go together")
        if sum(x is not None for x in (self.sd, self.se, self.ci95)) > 1:
            raise ValueError("give one of `sd`, `se`, `ci95`, as the paper does")
        return self


class Difference(Spread):
    """A reported difference, ``of`` minus ``against``, in ``unit``."""

    value: float = Field(description="`of` minus `against`.")
    unit: Line = Field(description="Its unit.")


class Ratio(Entry):
    """A reported ratio, ``of`` divided by ``against``."""

    value: Positive = Field(description="`of` divided by `against`.")
    ci95: Interval | None = Field(None, description="95% confidence interval: [lower, upper].")


class Standardised(Entry):
    """A reported standardised mean difference."""

    kind: Literal["Cohen d", "Hedges g", "not named"] = Field(description="Which one, as the paper names it.")
    value: float = Field(description="`of` minus `against`, in standard deviations.")
    ci95: Interval | None = Field(None, description="95% confidence interval: [lower, upper].")


class Contrast(Entry):
    """What the paper says of one arm against another (or of two parts within an arm)."""

    of: Id = Field(description="Id of one arm.")
    against: Id = Field(description="Id of the arm it is compared with.")
    of_part: PartRef | None = Field(None, description="When two parts are compared: the first part.")
    against_part: PartRef | None = Field(None, description="When two parts are compared: the second part.")
    favours: Literal["of", "against", "neither"] | None = Field(
        None, description="The direction the paper reports; `neither` when it reports no difference.")
    p: Annotated[float, Field(gt=0, le=1)] | None = Field(None, description="Exact p value.")
    p_below: Annotated[float, Field(gt=0, le=1)] | None = Field(None, description="Bound, when p is reported as < x.")
    p_above: Annotated[float, Field(gt=0, le=1)] | None = Field(None, description="Bound, when p is reported as > x.")
    t: float | None = Field(None, description="t statistic, positive when `of` is larger.")
    difference: Difference | None = Field(None, description="A reported difference.")
    ratio: Ratio | None = Field(None, description="A reported ratio.")
    standardised: Standardised | None = Field(None, description="A reported standardised mean difference.")
    note: Line | None = Field(None, description="What else the paper says of this contrast.")


class Result(Entry):
    """One measurement: parts, measure, place in the paper, arm values and reported contrasts."""

    parts: list[PartRef] = Field(min_length=1, description="What the one measurement covers, together.")
    relative_to: PartRef | None = Field(None, description="When the measure is a ratio to another part.")
    site: Line | None = Field(None, description="Where along the muscle, or which phase of the repetition.")
    measure: Id = Field(description="Id from vocabulary.yaml; it decides the outcome.")
    unit: Line = Field(description="Unit of the values, e.g. %, cm3, % MVIC.")
    at: Line = Field(description="Where it stands: abstract, Table 2, p. 5.")
    values: dict[Id, Value] = Field(default={}, description="Arm id -> what it showed.")
    contrasts: list[Contrast] = Field(default=[], description="What the paper says of one arm against another.")
    note: Line | None = Field(None, description="What else a reader of the number should know.")

    @model_validator(mode="after")
    def _something(self) -> Result:
        if not self.values and not self.contrasts:
            raise ValueError("give `values:` or `contrasts:`; a result without either says nothing")
        return self


class Appraisal(Entry):
    """Risk of bias, judged by whoever read the full text."""

    judgement: Literal["low", "some", "high"] = Field(description="Overall judgement.")
    because: Line = Field(description="What it rests on, e.g. allocation, dropouts, who measured.")


class Study(Entry):
    """What was read of one publication with numbers (``studies/<key>.yaml``, key as in references.bib)."""

    design: Id = Field(description="Id from vocabulary.yaml.")
    same_people: bool = Field(description="True when the same people (or their two limbs) did every arm.")
    people: People = Field(description="Who took part, as far as it is reported.")
    weeks: Positive | None = Field(None, description="Length of training in weeks; left out for a single session.")
    same_sample_as: Key | None = Field(None, description="Study whose people these are too, surely or probably; they are counted once.")
    risk_of_bias: Appraisal | None = Field(None, description="Left out when nobody has appraised it.")
    arms: dict[Id, Arm] = Field(min_length=1, description="The conditions that were compared, by id.")
    results: list[Result] = Field(min_length=1, description="Its measurements, one for each muscle or part.")
    says: Line = Field(description="What it found, in one sentence of our own.")
    limits: Line | None = Field(None, description="What it cannot tell, in one sentence of our own.")
