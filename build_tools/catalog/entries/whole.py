"""What the files that stand once in a catalog may contain."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StringConstraints, model_validator

from .base import Basis, ContactPoint, Entry, Id, Interval, Key, Line, Name, Outcome, Term, Unfit
from .care import Concern, Wording


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
    care: list[Id] = Field(default=[], description="Concerns that every exercise in this position has a caution on.")

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
    allocates: bool = Field(False, description="True when people, limbs or an order of exercises are allocated, so that studies say how.")


class Measure(Term):
    """A way of measuring and the one outcome it can speak for."""

    pools: bool = Field(True, description="False when its values are no ratio of amounts, so that only directions are taken from it.")
    outcome: Outcome = Field(description="The one outcome it can speak for.")
    units: list[Line] = Field(default=[], description="Units that its numbers can have.")


class Version(Entry):
    """A way of doing an exercise: over a stated range, hold, stance or tempo."""

    name: Name = Field(description="How it reads after the exercise's name and a comma, e.g. over the lower half.")


class Vocabulary(Entry):
    """Closed lists (``vocabulary.yaml``)."""

    equipment: dict[Id, Equipment] = Field(description="What an exercise can need.")
    positions: dict[Id, Position] = Field(description="How the body is placed.")
    regions: dict[Id, Region] = Field(description="Regions of the body, in the order pages list them.")
    joints: dict[Id, Joint] = Field(description="Joints, and how their angles read.")
    load_points: dict[Id, LoadPoint] = Field(description="Where a load can meet the body.")
    designs: dict[Id, Design] = Field(description="How a study can be built.")
    measures: dict[Id, Measure] = Field(description="How an outcome can be measured.")
    versions: dict[Id, Version] = Field(default={}, description="Ways of doing an exercise that studies set apart.")
    concerns: dict[Id, Concern] = Field(default={}, description="Who should take care; named by cautions, to find and avoid exercises.")
    caution_wording: list[Wording] = Field(default=[], description="Words that every caution must or may not say, whatever its concerns.")
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


#: What two numbers of the same people can be.
CorrelationKind = Literal["before_after", "arms", "parts", "sites"]


class Correlation(Basis):
    """How alike two numbers of the same people are taken to be, for one outcome and, where named, some of its measures."""

    outcome: Outcome = Field(description="The outcome it holds for.")
    measures: list[Id] = Field(default=[], description="The measures it holds for; left out for all others of the outcome.")
    value: Annotated[float, Field(ge=0, le=1)] = Field(description="The correlation that is used.")
    range: Annotated[list[Annotated[float, Field(ge=0, le=1)]], Field(min_length=2, max_length=2)] = Field(
        description="Correlations over which the conclusions are tried, lowest and highest.")
    observed: Line | None = Field(None, description="What was seen in people's own data: values, how many, of how many data sets.")


#: Kind of correlation -> outcomes that each need one for all measures. What is measured once has no before and after.
CORRELATED: dict[CorrelationKind, tuple[Outcome, ...]] = {
    "before_after": ("growth", "strength"), **dict.fromkeys(("arms", "parts", "sites"), ("growth", "activation", "strength"))}


class Correlations(Entry):
    """How alike two numbers of the same people are taken to be. Printed values and people's own data come first wherever there are any."""

    before_after: list[Correlation] = Field(description="Before and after training.")
    arms: list[Correlation] = Field(description="Two exercises done by the same people: their changes, or their levels of activity.")
    parts: list[Correlation] = Field(description="Two parts of a muscle in one exercise.")
    sites: list[Correlation] = Field(description="The contrast of two exercises at two sites, or by two measures, of the same people.")

    @model_validator(mode="after")
    def _complete(self) -> Correlations:
        for kind, outcomes in CORRELATED.items():
            found = [c.outcome for c in getattr(self, kind) if not c.measures]
            for outcome in outcomes:
                if found.count(outcome) != 1:
                    raise ValueError(f"`{kind}:` needs exactly one correlation for {outcome} without `measures:`")
        return self

    def of(self, kind: CorrelationKind, outcome: str, measure: str) -> Correlation:
        """The one that holds for a measure."""
        fitting = [c for c in getattr(self, kind) if c.outcome == outcome]
        return next((c for c in fitting if measure in c.measures), None) or next(c for c in fitting if not c.measures)


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
    correlations: Correlations = Field(description="How alike people's numbers are taken to be where no paper says it.")
    size_impossible_growth: Convention | None = Field(None, description="Ratio of muscle sizes beyond which a number is a slip.")
    size_impossible_activation: Convention | None = Field(None, description="Ratio of activities beyond which a number is a slip.")
    size_impossible_strength: Convention | None = Field(None, description="Ratio of strengths beyond which a number is a slip.")
    size_impossible_architecture: Convention | None = Field(None, description="Ratio of other measures beyond which a number is a slip.")
    size_impossible_standardised: Convention | None = Field(None, description="Standardised difference beyond which a number is a slip.")
    exercises_per_part: Convention | None = Field(None, description="How many exercises every muscle part has, if a number is asked.")
    years_ahead: Convention | None = Field(None, description="How many years ahead a reference may be dated; 1 unless given.")

    def items(self) -> list[tuple[str, Convention]]:
        """Each convention of one number with its key, in the order above."""
        return [(key, found) for key in type(self).model_fields if isinstance(found := getattr(self, key), Convention)]


class Notice(Entry):
    """The words of caution on every page a client may see."""

    short: Line = Field(description="One line, on every page a client may see.")
    help_at_once: Line = Field(description="Signs that need emergency help whatever the exercise, said after `Call for emergency help if`.")
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
