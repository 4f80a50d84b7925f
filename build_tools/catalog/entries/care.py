"""What a caution can speak of, what stands once for all cautions that do, and the words they must or may not say."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, model_validator

from .base import Basis, Entry, Line, PositionId, Term, Unfit

#: The fields of a caution that its client reads.
Place = Literal["who", "instead", "stop_if", "afterwards", "ask"]


class CareLine(Basis):
    """One line that stands on every page with a caution on its concern, so that no caution repeats it."""

    say: Line = Field(description="The line, in a client's words.")


class Wording(Entry):
    """Words that some cautions must say, or may not say. Words are beginnings of words, in any case: `operat` finds operated."""

    said: list[Line] = Field(
        default=[],
        description="Only for cautions that say one of these; left out, for all of them.",
    )
    where: Place = Field("who", description="The field in which `said` is looked for.")
    positions: list[PositionId] = Field(
        default=[],
        description="Only for exercises in one of these positions; left out, for all of them.",
    )
    places: list[Place] = Field(
        alias="in", min_length=1, description="The fields that are looked at."
    )
    one_of: list[Line] = Field(default=[], description="At least one of these must be said there.")
    none_of: list[Line] = Field(default=[], description="None of these may be said there.")
    because: Line = Field(description="Why, and what to write.")

    @model_validator(mode="after")
    def _asks(self) -> Wording:
        if bool(self.one_of) == bool(self.none_of):
            raise Unfit(
                "this demand names no words"
                if not self.one_of
                else "this demand asks for words and forbids some",
                "give `one_of:` or `none_of:`, and not both",
            )
        return self


class Concern(Term):
    """Something about a client that a caution speaks of: a sore part, a condition, a situation."""

    spoken_of: list[Line] = Field(
        default=[],
        description="Beginnings of words: a caution whose `who` says one of them names the concern.",
    )
    before: CareLine | None = Field(
        None, description="Who waits for a professional's go-ahead, whatever the exercise."
    )
    help_at_once: list[CareLine] = Field(
        default=[],
        description="Signs that need emergency help at once, a line each, said after `Call for emergency help if`.",
    )
    afterwards: CareLine | None = Field(
        None, description="What shows in the hours and days after, and whom to tell."
    )
    wording: list[Wording] = Field(
        default=[], description="Words that cautions on it must or may not say."
    )
