"""What an exercise file may contain."""

from __future__ import annotations

from datetime import date
from typing import Literal

from pydantic import Field, model_validator

from .base import (
    Basis,
    Citation,
    ConcernId,
    ContactPoint,
    Degrees,
    Entry,
    EquipmentId,
    ExerciseId,
    ForwardAndUp,
    HandWidthId,
    JointId,
    Line,
    LoadPointId,
    Metres,
    Name,
    NotNegative,
    PartRef,
    PositionId,
    StanceId,
    Stretch,
    Unfit,
    VersionId,
)


class Anchor(Entry):
    """Where a cable or band leaves its pulley or post, seen from where the body rests."""

    x: Metres = Field(
        description="Metres forward of the point that carries the body, negative is behind; in the front view to the left."
    )
    left: Metres | None = Field(
        None,
        description="Metres to the person's left, negative to the right; for the front view and from above.",
    )
    height: Literal["low", "mid", "high"] | Metres = Field(
        description="low 0.15 m, mid 1.0 m, high 2.1 m, or metres above the floor."
    )


class MachineCurve(Basis):
    """How a machine loads one joint over the repetition, where somebody measured it."""

    joint: JointId = Field(description="The joint that was measured (id from vocabulary.yaml).")
    asks: Literal["flexors", "extensors"] = Field(
        description="Which muscles of the joint the machine loads."
    )
    moments: list[NotNegative] = Field(
        min_length=2,
        description="The moment at evenly spaced instants from start to end, in any one unit: only its shape is used.",
    )


class Load(Entry):
    """What resists the movement and where it acts."""

    kind: Literal["free-weight", "cable", "band", "machine", "body-weight"] = Field(
        description="What resists."
    )
    at: LoadPointId | None = Field(
        None, description="Where the load meets the body: ankle, hand, back, hips."
    )
    anchor: Anchor | Literal["other-hand"] | None = Field(
        None,
        alias="from",
        description="Pulley of a cable or post of a band; `other-hand` for a band held between the hands.",
    )
    height: float | None = Field(
        None,
        ge=0,
        le=10,
        description="Height of the hands at their lowest where something sets it, metres "
        "(0.225: a bar with full plates on the floor).",
    )
    curve: MachineCurve | None = Field(
        None, description="A machine's own load over the repetition, with its source."
    )

    @model_validator(mode="after")
    def _curve_of_a_machine(self) -> Load:
        if self.curve is not None and self.kind != "machine":
            raise Unfit(
                f"`curve:` is for a machine, and this load is `{self.kind}`",
                "remove `curve:`; other loads are reckoned from the posture",
                "curve",
            )
        return self


class OtherLimb(Entry):
    """The second limb (in the front view and from above the right one), where it acts otherwise: its angles, or where its toes stay."""

    start: dict[JointId, Degrees] | None = Field(
        None, alias="from", description="Its joint angles at the start, degrees."
    )
    end: dict[JointId, Degrees] | None = Field(
        None, alias="to", description="Its joint angles at the end, degrees."
    )
    toes: ForwardAndUp | None = Field(
        None,
        description="Where its toes stay: metres forward of the carrying ankle, metres above the floor.",
    )
    pitch: Degrees | None = Field(
        None,
        description="Angle of the foot whose toes stay, degrees; negative lifts the heel. Flat unless given.",
    )

    @model_validator(mode="after")
    def _one_way(self) -> OtherLimb:
        angles, place = (self.start, self.end), (self.toes, self.pitch)
        if not (
            None not in angles
            and place == (None, None)
            or angles == (None, None)
            and self.toes is not None
        ):
            raise Unfit(
                "the second limb does not say how it acts, in one way",
                "give either both `from:` and `to:`, or `toes:` (and `pitch:`)",
            )
        return self


class Movement(Entry):
    """Joint angles at the start and the end, and what fixes the body in space. Joints left out follow the position, else 0.

    Angles are clinical degrees: 0 is the anatomical position (standing straight, arms at the sides), flexion is positive.
    The shoulder is measured against the trunk: an arm that hangs beside a trunk leaning forward 40 degrees is at 40.
    """

    position: PositionId = Field(description="Body position (id from vocabulary.yaml).")
    tilt: Degrees | None = Field(
        None,
        description="Angle in space of the segment that the position fixes, in place of the position's own.",
    )
    support: dict[ContactPoint, Metres] = Field(
        default={}, description="Heights in place of those of the position, metres."
    )
    start: dict[JointId, Degrees] = Field(
        alias="from", min_length=1, description="Joint angles at the start, degrees."
    )
    via: list[dict[JointId, Degrees]] = Field(
        default=[], description="Joint angles between start and end, evenly spaced in time."
    )
    end: dict[JointId, Degrees] = Field(
        alias="to", min_length=1, description="Joint angles at the end, degrees."
    )
    other: OtherLimb | None = Field(
        None, description="The second limb, where it does not move like the first."
    )
    stays: Literal["this", "other"] = Field(
        "this", description="Which foot stays in its place while the body moves."
    )
    view: Literal["side", "front", "above"] = Field(
        "side", description="From where it is seen; above: along the trunk, from the head."
    )
    shown: Literal["front"] | None = Field(
        None,
        description="From where pictures show a movement that is told from above, where that shows a client more. Loads and lengths "
        "are reckoned as told.",
    )
    grip: Literal["overhand", "underhand", "neutral", "turning"] | None = Field(
        None,
        description="Which way the palm faces: where the wrist bends, and where the cues tell it (an id of `grips` in vocabulary.yaml).",
    )
    hand_width: HandWidthId | None = Field(
        None,
        description="How far apart the hands are, where the cues tell it (id from vocabulary.yaml).",
    )
    stance: StanceId | None = Field(
        None, description="How the feet stand, where the cues tell it (id from vocabulary.yaml)."
    )
    out_of_plane: list[JointId] = Field(
        default=[],
        description="Joints that also move out of the drawn plane: no load and no length is told.",
    )
    load: Load = Field(description="What resists, and where it acts.")
    hold: bool = Field(
        False, description="True when nothing is meant to move: the posture is held."
    )

    @model_validator(mode="after")
    def _turned_from_above(self) -> Movement:
        if self.shown is not None and self.view != "above":
            raise Unfit(
                "only a movement that is told from above is shown from another side",
                "leave `shown:` out, or tell the angles in `view: above`",
                "shown",
            )
        return self


class BodyWeightFraction(Basis):
    """Share of body mass that a body-weight exercise loads."""

    value: float = Field(gt=0, le=1, description="Load as a share of body mass, 0-1.")
    how: Literal["measured", "reckoned"] = Field(
        description="Measured on a force plate, or reckoned from a table of segment masses."
    )


class Comparator(Entry):
    """What the claim compares with: another exercise, or another part in the same exercise."""

    exercise: ExerciseId | None = Field(None, description="The other exercise, same part.")
    part: PartRef | None = Field(None, description="The other part, same exercise.")

    @model_validator(mode="after")
    def _one(self) -> Comparator:
        if (self.exercise is None) == (self.part is None):
            raise Unfit(
                "this comparison names nothing"
                if self.part is None
                else "this comparison names an exercise and a part",
                "give `exercise:` (the same part there) or `part:` (another part here), one of the two",
            )
        return self


class AuthoredCertainty(Basis):
    """A certainty that an author sets in place of the computed one. It takes a reason and a citation."""

    level: Literal["high", "moderate", "low", "very low"] = Field(description="GRADE's word.")
    because: Line = Field(description="Why the rules get it wrong here.")
    cites: list[Citation] = Field(
        min_length=1, description="Where that is shown: reference key and place."
    )
    common_practice: None = Field(None, description="Not for a certainty: it takes a citation.")


class Taught(Entry):
    """What is commonly taught of a contrast for which a claim cites studies: common practice, whatever they found."""

    says: Literal["more", "less", "alike"] = Field(
        description="What is taught: the part gets more here than there, less, or about the same."
    )
    common_practice: Line = Field(
        description="How coaches teach it.",
        examples=["Coaches teach the seated curl as the better one for size."],
    )


class Claim(Basis):
    """A contrast for one part (or a list of parts) and one outcome. What studies found is never written here."""

    part: list[PartRef] = Field(
        min_length=1, description="Parts it speaks of: muscle or muscle/part."
    )
    outcome: Literal["growth", "activation", "length", "strength"] = Field(
        description="What it speaks of."
    )
    relative_to: PartRef | None = Field(
        None, description="When the claim is about the ratio to another part."
    )
    more_than: Comparator | None = Field(None, description="The part gets more here than there.")
    less_than: Comparator | None = Field(None, description="The part gets less here than there.")
    similar_to: Comparator | None = Field(
        None, description="The difference is too small to matter."
    )
    because: Line = Field(
        description="Why it would be so.",
        examples=["Sitting bends the hip, which lengthens the muscle."],
    )
    disputed: Line | None = Field(
        None, description="Why the claim stands although numbers point the other way."
    )
    certainty: AuthoredCertainty | None = Field(
        None, description="Only to overrule the computed certainty, with a reason and a citation."
    )
    taught: Taught | None = Field(
        None,
        description="What is commonly taught of this contrast, beside a claim that cites; a claim of common practice is what is taught.",
    )

    @model_validator(mode="after")
    def _one_direction(self) -> Claim:
        given = [
            key
            for key in ("more_than", "less_than", "similar_to")
            if getattr(self, key) is not None
        ]
        if not given:
            raise Unfit(
                "this claim has no direction",
                "add one of `more_than:`, `less_than:`, `similar_to:` with what it is compared with",
            )
        if len(given) > 1:
            raise Unfit(
                f"this claim says {' and '.join(f'`{key}:`' for key in given)} at once",
                "keep the one direction that is meant; two comparisons are two claims",
                given[-1],
            )
        return self

    @model_validator(mode="after")
    def _taught_beside_a_citation(self) -> Claim:
        if self.taught is not None and self.common_practice is not None:
            raise Unfit(
                "this claim is common practice already, so it is itself what is taught",
                "remove `taught:`, or cite what was found and leave `common_practice:` to `taught:`",
                "taught",
            )
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

    do: Line = Field(
        description="One idea, imperative, plain words, at most about 15 words.",
        examples=["Rest the roller just above your heels."],
    )
    why: Line | None = Field(
        None,
        description="A reason a client understands.",
        examples=["Then your legs do the work, not your back."],
    )


class Cues(Entry):
    """Form cues in the order a client needs them."""

    set_up: list[Cue] = Field(min_length=1, description="Before the first repetition.")
    move: list[Cue] = Field(min_length=1, description="During the repetition.")
    check: list[Cue] = Field(min_length=1, description="How the client can tell that it is right.")


class Fault(Basis):
    """What a coach sees, and the cue that mends it."""

    see: Line = Field(description="What a coach sees.", examples=["The hips rise off the bench."])
    say: Line = Field(
        description="The cue that mends it, imperative, plain words.",
        examples=["Press your hips into the bench."],
    )


class Caution(Basis):
    """Who should take care, what to do instead, when to stop, what to tell later and whom to ask."""

    who: Line = Field(
        description="Who should take care.", examples=["Anyone with a sore knee today."]
    )
    concerns: list[ConcernId] = Field(
        default=[],
        description="The same as ids from vocabulary.yaml, to find and avoid the exercise by.",
    )
    instead: Line = Field(
        description="What to do instead.",
        examples=["Bend only as far as it feels fine, with a lighter weight."],
    )
    stop_if: Line = Field(
        description="What ends the set now.", examples=["The knee hurts sharply or gives way."]
    )
    afterwards: Line | None = Field(
        None,
        description="What shows in the hours and days after, and whom to tell, as a whole sentence.",
        examples=["Tell a licensed physiotherapist or doctor if the knee is swollen the next day."],
    )
    ask: Line = Field(
        description="Whom to ask (a licensed professional).",
        examples=["A licensed physiotherapist or doctor."],
    )


class Exercise(Entry):
    """One movement with one equipment and one posture (``exercises/<id>.yaml``)."""

    name: Name = Field(
        description="Name as coaches say it, unique in the catalog.", examples=["Prone leg curl"]
    )
    also_called: list[Name] = Field(default=[], description="Other names people search for.")
    equipment: list[EquipmentId] = Field(
        min_length=1, description="Ids from vocabulary.yaml; `none` for body weight alone."
    )
    main_lift: bool = Field(
        False, description="A main compound lift that accessories are built around."
    )
    sides: Literal["both", "one"] = Field(
        "both", description="Both sides at once, or one side at a time."
    )
    set_credit: dict[PartRef, Literal["direct", "indirect"]] = Field(
        min_length=1, description="Muscle or muscle/part -> how one set counts for it in the week."
    )
    movement: Movement = Field(description="Posture, joint angles and load.")
    version_ranges: dict[VersionId, Stretch] = Field(
        default={},
        description="Version -> shares of this exercise's path that it keeps to, [from, to], where the vocabulary does not say.",
    )
    body_weight_fraction: BodyWeightFraction | None = Field(
        None, description="Share of body mass that counts as load, with its source."
    )
    emphasis: list[Claim] = Field(
        default=[], description="What it favours, as contrasts with another exercise or part."
    )
    cues: Cues = Field(description="How to coach it, in the order a client needs it.")
    faults: list[Fault] = Field(
        min_length=1, description="What goes wrong, and the cue that mends it."
    )
    cautions: list[Caution] = Field(
        min_length=1, description="Who should take care, and what to do instead."
    )
    swaps: list[ExerciseId] = Field(
        default=[], description="Same job with other equipment or posture."
    )
    reviewed: date = Field(description="Day of the last look at the whole entry, year-month-day.")
