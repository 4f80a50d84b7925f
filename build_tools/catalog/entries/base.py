"""What all entries share: names, ids, strictness, citations and the basis of a statement."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, GetJsonSchemaHandler, StringConstraints
from pydantic_core import CoreSchema

ID_PATTERN = r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$"
KEY_PATTERN = r"^[a-z][a-z0-9]*$"
#: No markup, no control or text-direction characters: catalog text is data wherever it lands.
PLAIN = r"[^<>\x00-\x1f\x7f-\x9f\xad\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]"
#: Names also stand in titles and addresses, so they carry no Markdown or link structure either.
_NAME = r"[^<>\[\]{}*_`#|\\&\"\x00-\x1f\x7f-\x9f\xad\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]"

#: Where the mark of a ``KnownKind`` stands in a schema.
NAMES = "x-names"


@dataclass(frozen=True)
class KnownKind:
    """Marks text as the id of one of a ``kind``: a list of the vocabulary, a folder, ``parts``, ``references`` or ``units``.

    What may be written is the same with and without it; ``json_schema`` makes of it what an editor offers.
    """

    kind: str

    def __get_pydantic_json_schema__(
        self, core: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {**handler(core), NAMES: self.kind}


Id = Annotated[str, StringConstraints(pattern=ID_PATTERN, max_length=64)]
Key = Annotated[str, StringConstraints(pattern=KEY_PATTERN, max_length=64)]
PartRef = Annotated[
    str,
    StringConstraints(pattern=r"^[a-z][a-z0-9-]*(/[a-z][a-z0-9-]*)?$", max_length=130),
    KnownKind("parts"),
]
Name = Annotated[str, StringConstraints(pattern=rf"^{_NAME}{{1,80}}$", strip_whitespace=True)]
Line = Annotated[str, StringConstraints(pattern=rf"^{PLAIN}{{1,400}}$", strip_whitespace=True)]
ConcernId = Annotated[Id, KnownKind("concerns")]
DesignId = Annotated[Id, KnownKind("designs")]
EquipmentId = Annotated[Id, KnownKind("equipment")]
ExerciseId = Annotated[Id, KnownKind("exercises")]
HandWidthId = Annotated[Id, KnownKind("hand_widths")]
JointId = Annotated[Id, KnownKind("joints")]
LoadPointId = Annotated[Id, KnownKind("load_points")]
MeasureId = Annotated[Id, KnownKind("measures")]
MuscleId = Annotated[Id, KnownKind("muscles")]
PositionId = Annotated[Id, KnownKind("positions")]
QuestionId = Annotated[Id, KnownKind("appraisal_questions")]
ReferenceKey = Annotated[Key, KnownKind("references")]
RegionId = Annotated[Id, KnownKind("regions")]
StanceId = Annotated[Id, KnownKind("stances")]
StudyKey = Annotated[Key, KnownKind("studies")]
Unit = Annotated[Line, KnownKind("units")]
VersionId = Annotated[Id, KnownKind("versions")]
#: Least and largest size of a number that is written somewhere: far beyond what anybody measures, and squares and sums of them are numbers.
LEAST, LARGEST = 1e-6, 1e9
Quantity = Annotated[float, Field(ge=-LARGEST, le=LARGEST)]
NotNegative = Annotated[float, Field(ge=0, le=LARGEST)]
Positive = Annotated[float, Field(gt=0), Field(ge=LEAST, le=LARGEST)]
Headcount = Annotated[int, Field(gt=0, le=1_000_000)]
#: No two groups differ so surely that a paper prints less.
Probability = Annotated[float, Field(gt=0), Field(ge=1e-15, le=1)]
#: A bound of one: "p > 1" would say that nothing can be, "p < 1" nothing at all.
ProbabilityBound = Annotated[float, Field(gt=0, lt=1), Field(ge=1e-15)]
Degrees = Annotated[float, Field(ge=-360, le=360)]
#: A length in space around a person.
Metres = Annotated[float, Field(ge=-10, le=10)]
ForwardAndUp = Annotated[list[Metres], Field(min_length=2, max_length=2)]
Interval = Annotated[list[Quantity], Field(min_length=2, max_length=2)]
#: From where to where of a repetition, as shares of its path: 0 is its start, 1 its end.
Stretch = Annotated[list[Annotated[float, Field(ge=0, le=1)]], Field(min_length=2, max_length=2)]
#: A part of the body that can rest on something.
ContactPoint = Literal[
    "feet",
    "toes",
    "heels",
    "knees",
    "seat",
    "back",
    "front",
    "side",
    "shoulders",
    "hips",
    "elbows",
    "hands",
]
Outcome = Literal["growth", "activation", "length", "strength", "architecture"]


class Unfit(ValueError):
    """Keys of one entry that do not go together: what is wrong, what to write, and the key to mend, if it is one."""

    def __init__(self, message: str, help: str, key: str | None = None) -> None:
        super().__init__(message)
        self.help, self.key = help, key


#: Begins what the author of a draft must still write (rule ``draft-finished``).
TODO = "TODO"


class Entry(BaseModel):
    """Common settings: nothing unknown, nothing converted, nothing changed later."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, allow_inf_nan=False)


class Citation(Entry):
    """A reference and the place in it where the fact stands."""

    key: ReferenceKey = Field(description="Key of the reference in references.bib.")
    at: Line | None = Field(
        None,
        description="Where in it: abstract, Table 2, p. 830, section 3.1.",
        examples=["abstract", "Table 2", "p. 830"],
    )


class Basis(Entry):
    """What a statement rests on: citations, or a common-practice reason. Exactly one of the two."""

    cites: list[Citation] = Field(
        default=[],
        description="Where it is shown: reference key and place, in place of `common_practice`.",
    )
    common_practice: Line | None = Field(
        None,
        description="Why coaches hold it, when no study is cited.",
        examples=["Coaches cue the hips down because clients lift them when tired."],
    )


class Fact(Basis):
    """One sentence of anatomy or method with its basis."""

    say: Line = Field(description="The fact in one plain sentence.")


class Term(Entry):
    """A word of a closed list."""

    name: Name = Field(description="Name as shown.")
    note: Line | None = Field(
        None, description="What stands in for it, or how to tell it from others."
    )
    also_called: list[Name] = Field(
        default=[], description="Other words that authors try; a message then names this term."
    )
