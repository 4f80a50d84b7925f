"""Title, owner, licence, cautions and conventions (``handbook.yaml``)."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, StringConstraints, ValidationInfo, field_validator, model_validator

from .base import Basis, Entry, Interval, Line, MeasureId, Name, Outcome, Quantity, Unfit


class Owner(Entry):
    """Who publishes the handbook."""

    name: Name = Field(description="Person, studio or organisation.")
    url: (
        Annotated[str, StringConstraints(pattern=r"^https?://[^\s<>\"'\\]+$", max_length=300)]
        | None
    ) = Field(None, description="Where they can be found.")


class Convention(Basis):
    """A number that a method leaves open, fixed here for the whole handbook."""

    value: Quantity = Field(description="The number, in `unit`.")
    unit: Line | None = Field(None, description="Its unit; left out for a ratio or a share.")
    means: Line = Field(description="What it decides, in plain words.")
    reckoned: Line | None = Field(
        None,
        description="How the number follows from what is cited, when it does not stand there.",
    )
    range: Interval | None = Field(
        None, description="Values over which the conclusions are tried, lowest and highest."
    )


class Scale(Convention):
    """A convention that says how far something spreads on the scale of log ratios, so that it lies above 0."""

    value: float = Field(ge=0.001, le=10, description="The number, a log ratio above 0.")


class LogRatio(Convention):
    """A convention on the scale of log ratios, of either sign."""

    value: float = Field(ge=-10, le=10, description="The number, a log ratio.")


class Margin(Convention):
    """A ratio of two sizes, the larger first, that parts alike from unlike or ordinary from large."""

    value: float = Field(ge=1.001, le=1000, description="The ratio, above 1.")


class Exponent(Convention):
    """A power that turns one dimension of growth into another."""

    value: float = Field(ge=0.1, le=10, description="The exponent.")


class Limit(Convention):
    """A size beyond which a number is a slip."""

    value: float = Field(ge=1.001, le=1_000_000, description="The size, above 1.")


class Percent(Convention):
    """A share of a whole."""

    value: float = Field(ge=0.01, le=100, description="The share, per cent.")


class Months(Convention):
    """A length of time."""

    value: float = Field(ge=1, le=1200, description="Months.")


class Count(Convention):
    """How many of something."""

    value: float = Field(ge=0, le=1000, description="How many.")


#: What two numbers of the same people can be.
CorrelationKind = Literal["before_after", "arms", "parts", "sites"]


class Correlation(Basis):
    """How alike two numbers of the same people are taken to be, for one outcome and, where named, some of its measures."""

    outcome: Outcome = Field(description="The outcome it holds for.")
    measures: list[MeasureId] = Field(
        default=[], description="The measures it holds for; left out for all others of the outcome."
    )
    value: Annotated[float, Field(ge=0, le=1)] = Field(description="The correlation that is used.")
    range: Annotated[
        list[Annotated[float, Field(ge=0, le=1)]], Field(min_length=2, max_length=2)
    ] = Field(description="Correlations over which the conclusions are tried, lowest and highest.")
    observed: Line | None = Field(
        None,
        description="What was seen in people's own data: values, how many, of how many data sets.",
    )


#: Kind of correlation -> outcomes that each need one for all measures. What is measured once has no before and after.
CORRELATED: dict[CorrelationKind, tuple[Outcome, ...]] = {
    "before_after": ("growth", "strength"),
    **dict.fromkeys(("arms", "parts", "sites"), ("growth", "activation", "strength")),
}


class Correlations(Entry):
    """How alike two numbers of the same people are taken to be. Printed values and people's own data come first wherever there are any."""

    before_after: list[Correlation] = Field(description="Before and after training.")
    arms: list[Correlation] = Field(
        description="Two exercises done by the same people: their changes, or their levels of activity."
    )
    parts: list[Correlation] = Field(description="Two parts of a muscle in one exercise.")
    sites: list[Correlation] = Field(
        description="The contrast of two exercises at two sites, or by two measures, of the same people."
    )

    @model_validator(mode="after")
    def _complete(self) -> Correlations:
        for kind, outcomes in CORRELATED.items():
            found = [c.outcome for c in getattr(self, kind) if not c.measures]
            for outcome in outcomes:
                if found.count(outcome) != 1:
                    raise Unfit(
                        f"`{kind}:` has {found.count(outcome)} correlations for {outcome} without `measures:`",
                        "give exactly one; those for some measures name them",
                        kind,
                    )
        return self

    def of(self, kind: CorrelationKind, outcome: str, measure: str) -> Correlation:
        """The one that holds for a measure."""
        fitting: list[Correlation] = [c for c in getattr(self, kind) if c.outcome == outcome]
        return next((c for c in fitting if measure in c.measures), None) or next(
            c for c in fitting if not c.measures
        )


class Conventions(Entry):
    """What methods leave open and this handbook fixes. Ratios are final sizes, activities or strengths, first to second."""

    review_interval: Months = Field(
        description="Months after which an entry is due for another look."
    )
    margin_growth: Margin = Field(
        description="Ratio of final muscle sizes below which two count as alike."
    )
    margin_activation: Margin = Field(
        description="Ratio of activities below which two count as alike."
    )
    margin_strength: Margin = Field(
        description="Ratio of final strengths below which two count as alike."
    )
    margin_length: Percent = Field(
        description="Difference of mean lengths, per cent of the own range, below which two count as alike."
    )
    size_large_growth: Margin = Field(
        description="Ratio of final muscle sizes from which a difference is large."
    )
    size_large_activation: Margin = Field(
        description="Ratio of activities from which a difference is large."
    )
    size_large_strength: Margin = Field(
        description="Ratio of final strengths from which a difference is large."
    )
    spread_growth: Scale = Field(
        description="Scale of the half-normal prior on the standard deviation, between studies, of the log ratio of muscle sizes."
    )
    spread_activation: Scale = Field(description="The same for activities.")
    spread_strength: Scale = Field(description="The same for strengths.")
    effect_growth: Scale = Field(
        description="Standard deviation of the normal prior, around no difference, on the log ratio of muscle sizes; used only "
        "where a report gives no number."
    )
    effect_activation: Scale = Field(description="The same for activities.")
    effect_strength: Scale = Field(description="The same for strengths.")
    length_slope: LogRatio = Field(
        description="Log ratio of muscle sizes that is expected of training over a whole range of muscle length more."
    )
    length_slope_sd: Scale = Field(description="Standard deviation of that expectation, log ratio.")
    conversion_thickness: Exponent | None = Field(
        None,
        description="Exponent that turns the growth of a thickness (log ratio) into that of an area; left out, the two are never pooled.",
    )
    conversion_volume: Exponent | None = Field(
        None,
        description="Exponent that turns the growth of a volume (log ratio) into that of an area; left out, the two are never pooled.",
    )
    correlations: Correlations = Field(
        description="How alike people's numbers are taken to be where no paper says it."
    )
    size_impossible_growth: Limit | None = Field(
        None, description="Ratio of muscle sizes beyond which a number is a slip."
    )
    size_impossible_activation: Limit | None = Field(
        None, description="Ratio of activities beyond which a number is a slip."
    )
    size_impossible_strength: Limit | None = Field(
        None, description="Ratio of strengths beyond which a number is a slip."
    )
    size_impossible_architecture: Limit | None = Field(
        None, description="Ratio of other measures beyond which a number is a slip."
    )
    size_impossible_standardised: Limit | None = Field(
        None, description="Standardised difference beyond which a number is a slip."
    )
    exercises_per_part: Count | None = Field(
        None, description="How many exercises every muscle part has, if a number is asked."
    )
    years_ahead: Count | None = Field(
        None, description="How many years ahead a reference may be dated; 1 unless given."
    )

    def items(self) -> list[tuple[str, Convention]]:
        """Each convention of one number with its key, in the order above."""
        return [
            (key, found)
            for key in type(self).model_fields
            if isinstance(found := getattr(self, key), Convention)
        ]


class Notice(Entry):
    """The words of caution on every page a client may see."""

    short: Line = Field(description="One line, on every page a client may see.")
    help_at_once: list[Line] = Field(
        min_length=1,
        description="Signs that need emergency help whatever the exercise, a line each, said after `Call for emergency help if`.",
    )
    stop: list[Line] = Field(
        min_length=1,
        description="When a client stops and tells the coach, whatever the exercise, said after `Stop, and tell your coach, if`.",
    )
    long: list[Line] = Field(
        min_length=1, description="The cautions in full, one sentence or two each."
    )


COLOUR_PATTERN = r"^#[0-9a-f]{6}$"
Colour = Annotated[str, StringConstraints(pattern=COLOUR_PATTERN)]


class Accents(Entry):
    """The handbook's own colours; cue sheets, handouts and drawings follow. Quotation marks are needed: after a bare # YAML reads nothing."""

    light: Colour = Field(
        description="Links, buttons and marks on light screens and on paper.",
    )
    dark: Colour = Field(description="The same on dark screens.")
    mark: Colour | None = Field(
        None, description="The handbook's sign, seen on light and dark; mixed of both unless given."
    )

    @field_validator("light", "dark", "mark", mode="before")
    @classmethod
    def _in_quotation_marks(cls, value: Any, info: ValidationInfo) -> Any:
        if value is None:
            key = info.field_name
            raise Unfit(
                f"`{key}:` has no colour",
                f'put it in quotation marks, as YAML reads nothing after a bare #: `{key}: "#155e5b"`',
            )
        return value


class Handbook(Entry):
    """Title, owner, licence, cautions and conventions (``handbook.yaml``)."""

    title: Name = Field(description="Title of the handbook.")
    tagline: Line = Field(description="What it is for, in one sentence.")
    owner: Owner = Field(description="Who publishes it.")
    licence: Name = Field(description="Licence of the text, e.g. CC BY 4.0.")
    palette: Accents | None = Field(None, description="The handbook's own colours, if it has any.")
    notice: Notice = Field(description="Words of caution.")
    conventions: Conventions = Field(
        description="Numbers that methods leave open, fixed for the whole handbook."
    )
