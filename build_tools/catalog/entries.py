"""Typed entries: what one may write in each kind of catalog file.

These models say what a file may *contain*; whether the content is sound is the
business of ``build_tools.checks``. Every field has a description, because the
JSON Schema that editors use for completion is made from these classes.

Units: angles in degrees (clinical convention, 0 = anatomical position, flexion
positive), durations in weeks, ages in years, ``change_percent`` in per cent of
the value before training, everything else in the unit its field states.
"""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints, model_validator

ID_PATTERN = r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$"
KEY_PATTERN = r"^[a-z][a-z0-9]*$"
#: No markup, no control or text-direction characters: catalog text is data wherever it lands.
PLAIN = r"[^<>\x00-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2066-\u2069\ufeff]"
#: Names also stand in titles and addresses, so they carry no Markdown or link structure either.
_NAME = r"[^<>\[\]{}*_`#|\\&\"\x00-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2066-\u2069\ufeff]"

Id = Annotated[str, StringConstraints(pattern=ID_PATTERN, max_length=64)]
Key = Annotated[str, StringConstraints(pattern=KEY_PATTERN, max_length=64)]
PartRef = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9-]*(/[a-z][a-z0-9-]*)?$", max_length=130)]
Name = Annotated[str, StringConstraints(pattern=rf"^{_NAME}{{1,80}}$", strip_whitespace=True)]
Line = Annotated[str, StringConstraints(pattern=rf"^{PLAIN}{{1,400}}$", strip_whitespace=True)]
Positive = Annotated[float, Field(gt=0)]
Interval = Annotated[list[float], Field(min_length=2, max_length=2)]
Outcome = Literal["growth", "activation", "length", "strength", "architecture"]


class Entry(BaseModel):
    """Common settings: nothing unknown, nothing converted, nothing changed later."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, allow_inf_nan=False)


class Citation(Entry):
    """A reference and the place in it where the fact stands."""

    key: Key = Field(description="Key of the reference in references.bib.")
    at: Line | None = Field(None, description="Where in it: abstract, Table 2, p. 830, section 3.1.")


class Basis(Entry):
    """What a statement rests on: citations, or a common-practice reason. Exactly one of the two."""

    cites: list[Citation] = Field(default=[], description="Where it is shown: reference key and place.")
    common_practice: Line | None = Field(None, description="Why coaches hold it, when no study is cited.")


class Fact(Basis):
    """One sentence of anatomy or method with its basis."""

    say: Line = Field(description="The fact in one plain sentence.")


# --- muscles -----------------------------------------------------------------


class Part(Entry):
    """An anatomically named part of a muscle or muscle group."""

    name: Name = Field(description="Name in English after Terminologia Anatomica.")
    everyday: Name = Field(description="What a client would call it.")
    latin: Name | None = Field(None, description="Latin term of Terminologia Anatomica.")
    also_called: list[Name] = Field(default=[], description="Other names people search for.")
    crosses: list[Id] = Field(min_length=1, description="Joints it crosses (ids from vocabulary.yaml).")
    does: Line = Field(description="What it does at those joints, in plain words.")
    lengthened_by: Line = Field(description="Which joint positions lengthen it, in plain words.")
    facts: list[Fact] = Field(min_length=1, description="Anatomy worth knowing, each with its basis.")


class Muscle(Entry):
    """A muscle group and its parts (``muscles/<id>.yaml``)."""

    name: Name = Field(description="Name of the muscle or muscle group in English.")
    everyday: Name = Field(description="What a client would call it.")
    also_called: list[Name] = Field(default=[], description="Other names people search for.")
    summary: Line = Field(description="What a coach should know first, in one or two sentences.")
    parts: dict[Id, Part] = Field(min_length=1, description="Its parts by id; claims name them as muscle/part.")
    facts: list[Fact] = Field(default=[], description="Anatomy of the whole group, each fact with its basis.")
    reviewed: date = Field(description="Day of the last look at the whole entry, year-month-day.")


# --- exercises ---------------------------------------------------------------


class Load(Entry):
    """What resists the movement and where it acts."""

    kind: Literal["free-weight", "cable", "band", "machine", "body-weight"] = Field(description="What resists.")
    at: Id | None = Field(None, description="Where the load meets the body: ankle, hand, back, hips.")


class Movement(Entry):
    """Joint angles at the start and the end, and what fixes the body in space."""

    position: Id = Field(description="Body position (id from vocabulary.yaml).")
    start: dict[Id, float] = Field(alias="from", min_length=1, description="Joint angles at the start, degrees.")
    end: dict[Id, float] = Field(alias="to", min_length=1, description="Joint angles at the end, degrees.")
    load: Load = Field(description="What resists, and where it acts.")


class Comparator(Entry):
    """What the claim compares with: another exercise, or another part in the same exercise."""

    exercise: Id | None = Field(None, description="The other exercise, same part.")
    part: PartRef | None = Field(None, description="The other part, same exercise.")

    @model_validator(mode="after")
    def _one(self) -> Comparator:
        if (self.exercise is None) == (self.part is None):
            raise ValueError("give either `exercise:` or `part:`, one of the two")
        return self


class Claim(Basis):
    """A contrast for one part (or a list of parts) and one outcome. The verdict is never written here."""

    part: list[PartRef] = Field(min_length=1, description="Parts it speaks of: muscle or muscle/part.")
    outcome: Literal["growth", "activation", "length", "strength"] = Field(description="What it speaks of.")
    relative_to: PartRef | None = Field(None, description="When the claim is about the ratio to another part.")
    more_than: Comparator | None = Field(None, description="The part gets more here than there.")
    less_than: Comparator | None = Field(None, description="The part gets less here than there.")
    similar_to: Comparator | None = Field(None, description="The difference is too small to matter.")
    because: Line = Field(description="Why it would be so.")
    disputed: Line | None = Field(None, description="Why the claim stands although numbers point the other way.")

    @model_validator(mode="after")
    def _one_direction(self) -> Claim:
        if sum(c is not None for c in (self.more_than, self.less_than, self.similar_to)) != 1:
            raise ValueError("give exactly one of `more_than:`, `less_than:`, `similar_to:`")
        return self

    @property
    def direction(self) -> Literal["more_than", "less_than", "similar_to"]:
        """Which of the three directions the author claims."""
        return "more_than" if self.more_than else "less_than" if self.less_than else "similar_to"

    @property
    def comparator(self) -> Comparator:
        """The other side of the contrast."""
        return self.more_than or self.less_than or self.similar_to  # type: ignore[return-value]


class Cue(Basis):
    """One instruction to a client, in the imperative."""

    do: Line = Field(description="One idea, imperative, plain words, at most about 15 words.")
    why: Line | None = Field(None, description="A reason a client understands.")


class Cues(Entry):
    """Form cues in the order a client needs them."""

    set_up: list[Cue] = Field(min_length=1, description="Before the first repetition.")
    move: list[Cue] = Field(min_length=1, description="During the repetition.")
    check: list[Cue] = Field(min_length=1, description="How the client can tell that it is right.")


class Fault(Basis):
    """What a coach sees, and the cue that mends it."""

    see: Line = Field(description="What a coach sees.")
    say: Line = Field(description="The cue that mends it, imperative, plain words.")


class Caution(Basis):
    """Who should take care, what to do instead, when to stop and whom to ask."""

    who: Line = Field(description="Who should take care.")
    instead: Line = Field(description="What to do instead.")
    stop_if: Line = Field(description="When to stop at once.")
    ask: Line = Field(description="Whom to ask (a licensed professional).")


class Exercise(Entry):
    """One movement with one equipment and one posture (``exercises/<id>.yaml``)."""

    name: Name = Field(description="Name as coaches say it, unique in the catalog.")
    also_called: list[Name] = Field(default=[], description="Other names people search for.")
    equipment: list[Id] = Field(min_length=1, description="Ids from vocabulary.yaml; `none` for body weight alone.")
    main_lift: bool = Field(False, description="A main compound lift that accessories are built around.")
    sides: Literal["both", "one"] = Field("both", description="Both sides at once, or one side at a time.")
    set_credit: dict[PartRef, Literal["direct", "indirect"]] = Field(
        min_length=1, description="Muscle or muscle/part -> how one set counts for it in the week.")
    movement: Movement = Field(description="Posture, joint angles and load.")
    emphasis: list[Claim] = Field(default=[], description="What it favours, as contrasts with another exercise or part.")
    cues: Cues = Field(description="How to coach it, in the order a client needs it.")
    faults: list[Fault] = Field(min_length=1, description="What goes wrong, and the cue that mends it.")
    cautions: list[Caution] = Field(min_length=1, description="Who should take care, and what to do instead.")
    swaps: list[Id] = Field(default=[], description="Same job with other equipment or posture.")
    reviewed: date = Field(description="Day of the last look at the whole entry, year-month-day.")


# --- studies -----------------------------------------------------------------


class People(Entry):
    """Who took part."""

    n: Annotated[int, Field(gt=0)] = Field(description="Number of people analysed, or enrolled if only that is known.")
    women: Annotated[int, Field(ge=0)] | None = Field(None, description="How many of them are women.")
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


class Study(Entry):
    """What was read of one publication with numbers (``studies/<key>.yaml``, key as in references.bib)."""

    design: Id = Field(description="Id from vocabulary.yaml.")
    same_people: bool = Field(description="True when the same people (or their two limbs) did every arm.")
    people: People = Field(description="Who took part, as far as it is reported.")
    weeks: Positive | None = Field(None, description="Length of training in weeks; left out for a single session.")
    same_sample_as: Key | None = Field(None, description="Study whose people these are too, surely or probably; they are counted once.")
    arms: dict[Id, Arm] = Field(min_length=1, description="The conditions that were compared, by id.")
    results: list[Result] = Field(min_length=1, description="Its measurements, one for each muscle or part.")
    says: Line = Field(description="What it found, in one sentence of our own.")
    limits: Line | None = Field(None, description="What it cannot tell, in one sentence of our own.")


# --- whole-catalog files -----------------------------------------------------


class Term(Entry):
    """A word of a closed list."""

    name: Name = Field(description="Name as shown.")
    note: Line | None = Field(None, description="What stands in for it, or how to tell it from others.")


class Joint(Term):
    """A joint and how its two directions read for a client."""

    flexed: Line = Field(description="How a client reads flexion, e.g. knees bent.")
    straight: Line = Field(description="How a client reads 0 degrees, e.g. knees straight.")
    extended: Line | None = Field(None, description="How a client reads a negative angle.")


class Design(Term):
    """A study design. A synthesis summarises other studies and is never counted beside them."""

    synthesis: bool = Field(False, description="True for reviews and other summaries of studies.")


class Measure(Term):
    """A way of measuring and the one outcome it can speak for."""

    outcome: Outcome = Field(description="The one outcome it can speak for.")


class Vocabulary(Entry):
    """Closed lists (``vocabulary.yaml``)."""

    equipment: dict[Id, Term] = Field(description="What an exercise can need.")
    positions: dict[Id, Term] = Field(description="How the body is placed.")
    joints: dict[Id, Joint] = Field(description="Joints, and how their angles read.")
    load_points: dict[Id, Term] = Field(description="Where a load can meet the body.")
    designs: dict[Id, Design] = Field(description="How a study can be built.")
    measures: dict[Id, Measure] = Field(description="How an outcome can be measured.")
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
    conventions: dict[Id, Convention] = Field(default={}, description="Numbers that methods leave open, fixed for the whole handbook.")


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
