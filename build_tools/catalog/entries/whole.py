"""What the files that stand once in a catalog may contain."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StringConstraints, model_validator

from .base import Basis, ContactPoint, Entry, Id, Interval, Key, Line, Name, Outcome, Unfit


class Term(Entry):
    """A word of a closed list."""

    name: Name = Field(description="Name as shown.")
    note: Line | None = Field(None, description="What stands in for it, or how to tell it from others.")
    also_called: list[Name] = Field(default=[], description="Other words that authors try; a message then names this term.")


class Equipment(Term):
    """What an exercise can need. Benches, boxes, pulleys and machines are drawn from the position and the load."""

    drawn: Literal["disc", "dumbbell", "kettlebell", "plate", "ball", "roller", "slider"] | None = Field(
        None, description="How figures hint at it: disc for bars with plates, roller for a pad that holds the ankles.")


class Region(Term):
    """A region of the body that muscles are listed under, in the order of the vocabulary."""


class Joint(Term):
    """A joint and how its two directions read for a client."""

    flexed: Line = Field(description="How a client reads flexion, e.g. knees bent.")
    straight: Line = Field(description="How a client reads 0 degrees, e.g. knees straight.")
    extended: Line | None = Field(None, description="How a client reads a negative angle.")


class Position(Term):
    """How the body is placed: what carries it, and which segment keeps its direction.

    With one carrying point a segment is fixed; with two the body turns until both rest at their height. ``sideways`` positions
    are those of someone on the right side: their angle lies in the front view, positive to the person's left.
    """

    rests_on: dict[ContactPoint, float] = Field(
        min_length=1, max_length=2, description="One or two points that carry the body -> height of what they rest on, metres.")
    fixes: Literal["foot", "shank", "thigh", "trunk", "chest"] | None = Field(
        None, description="The segment that keeps its direction in space; trunk is the pelvis's end of it, chest the shoulders'.")
    at: float = Field(0, description="Its angle in space, degrees: limbs 0 = hanging, trunk 0 = upright, foot 0 = flat; positive forward.")
    faces: Literal["up", "down"] | None = Field(None, description="With two carrying points: which way the chest faces.")
    sideways: bool = Field(False, description="True for someone who lies or leans on the right side; drawn in the front view.")
    angles: dict[Id, float] = Field(default={}, description="Joint angles that an exercise need not repeat, degrees.")
    other: dict[Id, float] = Field(default={}, description="Joint angles of a second leg that does something else, degrees.")
    toes: Interval | None = Field(None, description="Where resting feet stand, unless the exercise bends the legs: toes, metres forward of "
                                                    "what carries the body and above the floor.")
    against: Literal["wall", "sled"] | None = Field(None, description="What the back leans against while the feet carry.")
    arm: float | None = Field(None, description="Angle in space of upper arms that rest, degrees, unless the exercise bends the shoulder.")

    @model_validator(mode="after")
    def _fixed(self) -> Position:
        two, faces = len(self.rests_on) == 2, self.faces is not None
        # With one point someone may lie on the side too; with two, the side or the face says how the body turns.
        if two and (self.fixes is not None or faces == self.sideways) or not two and (self.fixes is None or faces):
            raise Unfit("this position does not say how the body is held",
                        "with one carrying point give `fixes:`; with two give `faces:` or `sideways: true`, one of them, and no `fixes:`",
                        "rests_on")
        return self


class LoadPoint(Term):
    """Where a load can meet the body, and how the arms hold it."""

    angles: dict[Id, float] = Field(default={}, description="Joint angles of arms that hold a load there, degrees.")


class Design(Term):
    """A study design. A synthesis summarises other studies and is never counted beside them."""

    synthesis: bool = Field(False, description="True for reviews and other summaries of studies.")
    trains: bool = Field(False, description="True when people train between two measurements, so that its weeks matter.")


class Measure(Term):
    """A way of measuring and the one outcome it can speak for."""

    pools: bool = Field(True, description="False when its values are no ratio of amounts, so that only directions are taken from it.")
    outcome: Outcome = Field(description="The one outcome it can speak for.")


class Concern(Term):
    """Something about a client that a caution speaks of: a sore part, a condition, a situation."""


class Vocabulary(Entry):
    """Closed lists (``vocabulary.yaml``)."""

    equipment: dict[Id, Equipment] = Field(description="What an exercise can need.")
    positions: dict[Id, Position] = Field(description="How the body is placed.")
    regions: dict[Id, Region] = Field(description="Regions of the body, in the order pages list them.")
    joints: dict[Id, Joint] = Field(description="Joints, and how their angles read.")
    load_points: dict[Id, LoadPoint] = Field(description="Where a load can meet the body.")
    designs: dict[Id, Design] = Field(description="How a study can be built.")
    measures: dict[Id, Measure] = Field(description="How an outcome can be measured.")
    concerns: dict[Id, Concern] = Field(default={}, description="Who should take care; named by cautions, to find and avoid exercises.")
    proper_nouns: list[Name] = Field(default=[], description="Words of names that keep their capital inside a sentence.")


class Owner(Entry):
    """Who publishes the handbook."""

    name: Name = Field(description="Person, studio or organisation.")
    url: Annotated[str, StringConstraints(pattern=r"^https?://[^\s<>\"'\\]+$", max_length=300)] | None = Field(
        None, description="Where they can be found.")


class Convention(Basis):
    """A number that a method leaves open, fixed here for the whole handbook."""

    value: float = Field(description="The number, in `unit`.")
    unit: Line | None = Field(None, description="Its unit; left out for a ratio or a share.")
    means: Line = Field(description="What it decides, in plain words.")
    range: Interval | None = Field(None, description="Values over which the conclusions are tried, lowest and highest.")


class Conventions(Entry):
    """What methods leave open and this handbook fixes. Ratios are final sizes, activities or strengths, first to second."""

    review_interval: Convention = Field(description="Months after which an entry is due for another look.")
    margin_growth: Convention = Field(description="Ratio of final muscle sizes below which two count as alike.")
    margin_activation: Convention = Field(description="Ratio of activities below which two count as alike.")
    margin_strength: Convention = Field(description="Ratio of final strengths below which two count as alike.")
    margin_length: Convention = Field(description="Difference of mean lengths, per cent of the own range, below which two count as alike.")
    size_large_growth: Convention = Field(description="Ratio of final muscle sizes from which a difference is large.")
    size_large_activation: Convention = Field(description="Ratio of activities from which a difference is large.")
    size_large_strength: Convention = Field(description="Ratio of final strengths from which a difference is large.")
    within_person_correlation: Convention = Field(description="Correlation of two arms of the same people, with a range.")
    pre_post_correlation: Convention = Field(description="Correlation of one person's values before and after training, with a range.")
    between_measurement_correlation: Convention = Field(description="Correlation of several measurements of one sample, with a range.")
    size_impossible_growth: Convention | None = Field(None, description="Ratio of muscle sizes beyond which a number is a slip.")
    size_impossible_activation: Convention | None = Field(None, description="Ratio of activities beyond which a number is a slip.")
    size_impossible_strength: Convention | None = Field(None, description="Ratio of strengths beyond which a number is a slip.")
    size_impossible_architecture: Convention | None = Field(None, description="Ratio of other measures beyond which a number is a slip.")
    size_impossible_standardised: Convention | None = Field(None, description="Standardised difference beyond which a number is a slip.")
    exercises_per_part: Convention | None = Field(None, description="How many exercises every muscle part has, if a number is asked.")
    years_ahead: Convention | None = Field(None, description="How many years ahead a reference may be dated; 1 unless given.")

    def items(self) -> list[tuple[str, Convention]]:
        """Each convention that is given, with its key, in the order above."""
        return [(key, convention) for key in type(self).model_fields if (convention := getattr(self, key)) is not None]


class Notice(Entry):
    """The words of caution on every page a client may see."""

    short: Line = Field(description="One line, on every page a client may see.")
    long: list[Line] = Field(min_length=1, description="The cautions in full, one sentence or two each.")


class Handbook(Entry):
    """Title, owner, licence, cautions and conventions (``handbook.yaml``)."""

    title: Name = Field(description="Title of the handbook.")
    tagline: Line = Field(description="What it is for, in one sentence.")
    owner: Owner = Field(description="Who publishes it.")
    licence: Name = Field(description="Licence of the text, e.g. CC BY 4.0.")
    notice: Notice = Field(description="Words of caution.")
    conventions: Conventions = Field(description="Numbers that methods leave open, fixed for the whole handbook.")


class Moved(Entry):
    """Retired ids and their successors (``moved.yaml``)."""

    exercises: dict[Id, Id] = Field(default={}, description="Retired exercise id -> its successor.")
    muscles: dict[Id, Id] = Field(default={}, description="Retired muscle id -> its successor.")
    sources: dict[Key, Key] = Field(default={}, description="Retired reference key -> its successor.")


class Exception_(Entry):
    """One finding that is let through, with the reason (``exceptions.yaml``)."""

    rule: Id = Field(description="Id of the rule; `handbook rules` lists them.")
    file: Line = Field(description="File below the catalog folder, e.g. exercises/seated-row.yaml.")
    because: Line = Field(description="Why it is let through.")


class Exceptions(Entry):
    """All findings that are let through. One that is no longer needed is itself an error."""

    exceptions: list[Exception_] = Field(default=[], description="One line for each rule and file.")
