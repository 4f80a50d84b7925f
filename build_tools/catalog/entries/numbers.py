"""A number of a study as it was printed: a level, a change or a difference, with at most one spread."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from .base import Entry, Headcount, Interval, NotNegative, Positive, Quantity, Unfit, Unit


class Spread(Entry):
    """A number with at most one statement of its spread, in the unit of the number."""

    sd: NotNegative | None = Field(None, description="Standard deviation between people.")
    se: NotNegative | None = Field(None, description="Standard error.")
    ci95: Interval | None = Field(None, description="95% confidence interval: [lower, upper].")


class Moment(Spread):
    """A mean at one time."""

    mean: Quantity = Field(description="The mean, in the result's unit.")


class Value(Spread):
    """What one arm showed: one level, or a change in any of the ways it was printed. The spread beside it belongs to that."""

    mean: Quantity | None = Field(None, description="A level, in the result's unit.")
    median: Quantity | None = Field(
        None, description="A level, in the result's unit, when the paper gives medians."
    )
    quartiles: Interval | None = Field(
        None, description="First and third quartile, beside a median."
    )
    change: Quantity | None = Field(None, description="After minus before, in the result's unit.")
    change_percent: Quantity | None = Field(
        None, description="After minus before, in per cent of before."
    )
    pre: Moment | None = Field(
        None, description="Before training; beside `post`, `change` or `change_percent`."
    )
    post: Moment | None = Field(None, description="After training; together with `pre`.")
    correlation: Annotated[float, Field(ge=-1, lt=1)] | None = Field(
        None,
        description="Correlation of people's values before and after, when it is printed or reckoned from people's own data.",
    )
    n: Headcount | None = Field(
        None, description="Quantity of people behind it, if not all of the arm."
    )

    @model_validator(mode="after")
    def _one_kind(self) -> Value:
        levels = [k for k in ("mean", "median") if getattr(self, k) is not None]
        changes = [k for k in ("change", "change_percent") if getattr(self, k) is not None]
        moments = self.pre is not None or self.post is not None
        if len(levels) + len(changes) + (moments and not changes) != 1:
            raise Unfit(
                "this arm has no number"
                if not (levels or changes)
                else "this arm has numbers of two kinds",
                "give one level (`mean` or `median`), or a change: `change`, `change_percent`, or both `pre` and `post`; "
                "`pre` and `post` may stand beside a change",
            )
        if (
            self.post is not None
            and self.pre is None
            or self.pre is not None
            and self.post is None
            and not changes
        ):
            raise Unfit(
                f"`{'pre' if self.post is None else 'post'}` stands alone",
                "give `pre` and `post` together; `pre` alone may stand beside a change",
                "pre" if self.post is None else "post",
            )
        if self.correlation is not None and self.post is None:
            raise Unfit(
                "`correlation` is that of `pre` and `post`, which are not there",
                "give both, or leave it out",
                "correlation",
            )
        if not levels and not changes and (self.sd, self.se, self.ci95) != (None, None, None):
            raise Unfit(
                "this spread is that of a change, which is not there",
                "give `change` or `change_percent`, or write the spread inside `pre` and `post`",
            )
        if sum(x is not None for x in (self.sd, self.se, self.ci95)) > 1:
            raise Unfit(
                "this number has more than one spread",
                "keep one of `sd`, `se`, `ci95`, as the paper does",
            )
        return self


class Difference(Spread):
    """A reported difference, ``of`` minus ``against``, in ``unit``."""

    value: Quantity = Field(description="`of` minus `against`.")
    unit: Unit = Field(description="Its unit, from those of the measure.")
    start: Positive | None = Field(
        None,
        description="Mean before training over both arms, in the same unit, for the ratio of changes.",
    )


class Ratio(Entry):
    """A reported ratio, ``of`` divided by ``against``."""

    value: Positive = Field(description="`of` divided by `against`.")
    ci95: Interval | None = Field(None, description="95% confidence interval: [lower, upper].")


class Standardised(Entry):
    """A reported standardised mean difference."""

    kind: Literal["Cohen d", "Hedges g", "not named"] = Field(
        description="Which one, as the paper names it."
    )
    value: Quantity = Field(description="`of` minus `against`, in standard deviations.")
    ci95: Interval | None = Field(None, description="95% confidence interval: [lower, upper].")
