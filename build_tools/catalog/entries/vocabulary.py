"""The closed lists of words (``vocabulary.yaml``): what may be named, and how a reader sees it."""

from __future__ import annotations

from typing import Literal, get_args

from pydantic import Field, model_validator

from .base import (
    Basis,
    ConcernId,
    ContactPoint,
    Degrees,
    DesignId,
    Entry,
    ForwardAndUp,
    Id,
    JointId,
    Line,
    Metres,
    Name,
    Outcome,
    Stretch,
    Term,
    Unfit,
)
from .care import Concern, Wording


class Equipment(Term):
    """What an exercise can need. Benches, boxes, pulleys and machines are drawn from the position and the load."""

    drawn: (
        Literal[
            "disc", "hex", "dumbbell", "kettlebell", "plate", "ball", "roller", "slider", "belt"
        ]
        | None
    ) = Field(
        None,
        description="How figures hint at it: disc for bars with plates, hex for a frame around the person, roller for a pad that "
        "holds the ankles, belt for one that a plate hangs from.",
    )


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

    rests_on: dict[ContactPoint, Metres] = Field(
        min_length=1,
        max_length=2,
        description="One or two points that carry the body -> height of what they rest on, metres.",
    )
    fixes: Literal["foot", "shank", "thigh", "trunk", "chest"] | None = Field(
        None,
        description="The segment that keeps its direction in space; trunk is the pelvis's end of it, chest the shoulders'.",
    )
    at: Degrees = Field(
        0,
        description="Its angle in space, degrees: limbs 0 = hanging, trunk 0 = upright, foot 0 = flat; positive forward.",
    )
    faces: Literal["up", "down"] | None = Field(
        None, description="With two carrying points: which way the chest faces."
    )
    sideways: bool = Field(
        False,
        description="True for someone who lies or leans on the right side; drawn in the front view.",
    )
    angles: dict[JointId, Degrees] = Field(
        default={}, description="Joint angles that an exercise need not repeat, degrees."
    )
    other: dict[JointId, Degrees] = Field(
        default={}, description="Joint angles of a second leg that does something else, degrees."
    )
    toes: ForwardAndUp | None = Field(
        None,
        description="Where resting feet stand, unless the exercise bends the legs: toes, metres forward of "
        "what carries the body and above the floor.",
    )
    against: Literal["wall", "sled"] | None = Field(
        None, description="What the back leans against while the feet carry."
    )
    arm: Degrees | None = Field(
        None,
        description="Angle in space of upper arms that rest, degrees, unless the exercise bends the shoulder.",
    )
    care: list[ConcernId] = Field(
        default=[], description="Concerns that every exercise in this position has a caution on."
    )

    @model_validator(mode="after")
    def _fixed(self) -> Position:
        two, faces = len(self.rests_on) == 2, self.faces is not None
        # With one point someone may lie on the side too; with two, the side or the face says how the body turns.
        if (
            two
            and (self.fixes is not None or faces == self.sideways)
            or not two
            and (self.fixes is None or faces)
        ):
            raise Unfit(
                "this position does not say how the body is held",
                "with one carrying point give `fixes:`; with two give `faces:` or `sideways: true`, one of them, and no `fixes:`",
                "rests_on",
            )
        return self


class LoadPoint(Term):
    """Where a load can meet the body, and how the arms hold it."""

    angles: dict[JointId, Degrees] = Field(
        default={}, description="Joint angles of arms that hold a load there, degrees."
    )


class HandWidth(Term):
    """How far apart two hands are; the name reads after "hands"."""

    times: float = Field(
        ge=0.01,
        le=10,
        description="Distance of the hands over the width of the shoulders, for the picture.",
    )


class Stance(Term):
    """How the feet stand; the name reads after "feet"."""

    times: float = Field(
        ge=0.01,
        le=10,
        description="Distance of the feet over the width of the shoulders, for the picture.",
    )
    turned: float = Field(
        0, ge=0, le=60, description="How far the toes turn out in the picture, degrees."
    )


class Design(Term):
    """A study design. A synthesis summarises other studies and is never counted beside them."""

    synthesis: bool = Field(False, description="True for reviews and other summaries of studies.")
    trains: bool = Field(
        False,
        description="True when people train between two measurements, so that its weeks matter.",
    )
    allocates: bool = Field(
        False,
        description="True when people, limbs or an order of exercises are allocated, so that studies say how.",
    )


#: What the number of a measure of growth is. Numbers of two dimensions are not ratios of the same thing.
Dimension = Literal["thickness", "area", "volume", "mass", "girth"]


class Measure(Term):
    """A way of measuring and the one outcome it can speak for."""

    pools: bool = Field(
        True,
        description="False when its values are no ratio of amounts, so that only directions are taken from it.",
    )
    outcome: Outcome = Field(description="The one outcome it can speak for.")
    units: list[Line] = Field(default=[], description="Units that its numbers can have.")
    dimension: Dimension | None = Field(
        None,
        description="For growth: what the number is, for a muscle that grows by a tenth in area grows otherwise in "
        "thickness and in volume.",
    )

    @model_validator(mode="after")
    def _dimensioned(self) -> Measure:
        if self.outcome == "growth" and self.dimension is None:
            raise Unfit(
                "a measure of growth does not say what its number is",
                f"give `dimension:` one of {', '.join(get_args(Dimension))}; numbers of two dimensions are never taken for one",
            )
        if self.outcome != "growth" and self.dimension is not None:
            raise Unfit(
                "`dimension:` is that of a measure of growth",
                "leave it out for any other outcome",
                "dimension",
            )
        return self


class Version(Entry):
    """A way of doing an exercise: over a stated range, hold, stance or tempo."""

    name: Name = Field(
        description="How it reads after the exercise's name and a comma, e.g. over the lower half."
    )
    range: Stretch | None = Field(
        None,
        description="Shares of the repetition's path that it keeps to, [from, to]: 0 is the start of the exercise, 1 its end. Only "
        "where that is so for every exercise that has this version; else it stands with the exercise, in `version_ranges`.",
    )


class AppraisalQuestion(Basis):
    """A signalling question by which studies of some designs are appraised; its source is the instrument or guidance it follows."""

    asks: Line = Field(
        description="The question, so put that yes speaks for the study, e.g. Did chance decide ...?"
    )
    designs: list[DesignId] = Field(min_length=1, description="The designs that it is asked of.")
    decides: bool = Field(
        False, description="True when a no by itself makes the risk of bias high."
    )


class Vocabulary(Entry):
    """Closed lists (``vocabulary.yaml``)."""

    equipment: dict[Id, Equipment] = Field(description="What an exercise can need.")
    positions: dict[Id, Position] = Field(description="How the body is placed.")
    regions: dict[Id, Region] = Field(
        description="Regions of the body, in the order pages list them."
    )
    joints: dict[Id, Joint] = Field(description="Joints, and how their angles read.")
    load_points: dict[Id, LoadPoint] = Field(description="Where a load can meet the body.")
    grips: dict[Id, Term] = Field(
        default={}, description="Which way palms face; the note says what the thumbs do."
    )
    hand_widths: dict[Id, HandWidth] = Field(default={}, description="How far apart hands are.")
    stances: dict[Id, Stance] = Field(default={}, description="How feet stand.")
    designs: dict[Id, Design] = Field(description="How a study can be built.")
    measures: dict[Id, Measure] = Field(description="How an outcome can be measured.")
    appraisal_questions: dict[Id, AppraisalQuestion] = Field(
        default={}, description="What is asked of a study, by design, to tell its risk of bias."
    )
    versions: dict[Id, Version] = Field(
        default={}, description="Ways of doing an exercise that studies set apart."
    )
    concerns: dict[Id, Concern] = Field(
        default={},
        description="Who should take care; named by cautions, to find and avoid exercises.",
    )
    caution_wording: list[Wording] = Field(
        default=[],
        description="Words that every caution must or may not say, whatever its concerns.",
    )
    client_words: dict[Name, Line] = Field(
        default={},
        description="Words of the trade that a client does not read -> what to write instead.",
    )
    proper_nouns: list[Name] = Field(
        default=[], description="Words of names that keep their capital inside a sentence."
    )
    same_words: list[list[Name]] = Field(
        default=[],
        description="Groups of single words that people type for one another: dumbbell and db, pain and sore.",
    )

    def asked_of(self, design: str) -> dict[str, AppraisalQuestion]:
        """The signalling questions of a design, by id."""
        return {
            id: question
            for id, question in self.appraisal_questions.items()
            if design in question.designs
        }
