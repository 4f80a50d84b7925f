"""What ``model/muscles.yaml`` may contain: where muscle lengths come from and what they were checked against."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from .base import Degrees, Entry, Id, Interval, JointId, Line, Name, PartRef

#: A name inside a model file or a table: letters, digits and underscores.
Column = Annotated[str, StringConstraints(pattern=r"^[A-Za-z]\w{0,40}$")]


#: Pieces of a body that muscle paths are fixed to.
SegmentName = Literal["pelvis", "thigh", "shank", "foot", "shoulder-blade", "upper-arm", "forearm"]


class ModelSegment(Entry):
    """Where a piece of the body is in a model: names of the model's bodies."""

    body: Column = Field(description="The body that attachments on it are fixed to.")
    centre: Column | None = Field(
        None, description="The body whose origin is the joint it hangs on; left out where its own."
    )
    to: Column | None = Field(
        None, description="The body whose origin is its far joint: the distance is its length."
    )


class SourceModel(Entry):
    """A musculoskeletal model that tables were sampled from."""

    file: Annotated[str, StringConstraints(pattern=r"^\w{1,60}\.osim$")] = Field(
        description="Name of the model file."
    )
    sha256: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{64}$")] = Field(
        description="SHA-256 of the very file that was sampled."
    )
    credit: Line = Field(description="Who made it, as the file asks to be credited.")
    after: Line = Field(description="The publication it rests on.")
    licence: Name = Field(description="Its licence as the file states it.")
    licence_url: Annotated[
        str, StringConstraints(pattern=r"^https?://[^\s<>\"'\\]+$", max_length=300)
    ] = Field(description="Where the licence stands.")
    segments: dict[SegmentName, ModelSegment] = Field(
        default={},
        description="Pieces of the body that its muscles' paths (`<model>-paths.csv`) are given on; left out while there are none.",
    )


#: From one angle to another.
Span = Annotated[list[Degrees], Field(min_length=2, max_length=2)]


class Axis(Entry):
    """One joint of a table: clinical degrees, evenly spaced, both ends included."""

    joint: JointId = Field(description="Joint (id from vocabulary.yaml).")
    coordinate: Column = Field(description="The joint's coordinate in the model.")
    reversed: bool = Field(False, description="True where the model counts flexion as negative.")
    span: Span = Field(description="First and last angle, degrees.")
    step: float = Field(ge=0.1, le=360, description="Degrees from one row to the next.")


class LengthTable(Entry):
    """A table of muscle-tendon lengths over two joints (``model/<id>.csv``)."""

    model: Id = Field(description="The model it was sampled from.")
    axes: list[Axis] = Field(
        min_length=2, max_length=2, description="Its two joints; the second changes faster."
    )


class PublishedSource(Entry):
    """A publication that muscles were checked against."""

    says: Line = Field(
        description="Authors, year, journal and pages, on whom, and how much was read."
    )
    doi: Line | None = Field(None, description="Its DOI, where one was seen.")


class PublishedArm(Entry):
    """A published moment arm that a table is held against; its size alone, as papers differ on the sign."""

    joint: JointId = Field(description="The joint that the arm is about.")
    over: Span = Field(
        description="Joint angles it was published for, degrees; a single angle with one step to each side."
    )
    mm: Interval = Field(
        description="Lowest and highest published value, millimetres; twice the same for a single one."
    )
    source: Id = Field(description="Who published it (id from `sources`).")


class PublishedOrder(Entry):
    """A published statement that a muscle's length depends more on one joint than on another."""

    more: JointId = Field(description="The joint that changes the length more.")
    less: JointId = Field(description="The joint that changes it less.")
    source: Id = Field(description="Who published it (id from `sources`).")


class ModelMuscle(Entry):
    """A muscle of a model that may be shown: a column of a table, the range it is trusted in, and its checks."""

    name: Name = Field(description="Name in English.")
    part: PartRef | None = Field(
        None, description="The part of the catalog it stands for; left out while there is none."
    )
    table: Id = Field(description="The table that holds it.")
    column: Column = Field(
        description="Its column there: the muscle's name in the model, without the side."
    )
    suffix: Literal["", "_r"] = Field(
        "", description="What the model adds to the name for the right side."
    )
    box: dict[JointId, Span] = Field(
        min_length=1,
        max_length=2,
        description="Each joint it crosses -> first and last angle it is trusted for, degrees.",
    )
    acts: dict[JointId, Literal["flexes", "extends"]] = Field(
        min_length=1, description="What it does at each joint: standard anatomy."
    )
    arms: list[PublishedArm] = Field(
        min_length=1, description="Published moment arms it was checked against."
    )
    orders: list[PublishedOrder] = Field(
        default=[], description="Published statements on which joint changes its length more."
    )
    limits: Line | None = Field(
        None, description="What the checks leave open, or why the range is cut."
    )


class LeftOut(Entry):
    """A muscle of a model that is not shown."""

    name: Name = Field(description="Name in English.")
    because: Line = Field(description="The check that it fails, or that there is none.")


class Model(Entry):
    """Sources of relative muscle length (``model/muscles.yaml``)."""

    models: dict[Id, SourceModel] = Field(min_length=1, description="The models, by id.")
    tables: dict[Id, LengthTable] = Field(min_length=1, description="The tables, by id.")
    sources: dict[Id, PublishedSource] = Field(
        min_length=1, description="What the muscles were checked against, by id."
    )
    muscles: dict[Id, ModelMuscle] = Field(
        min_length=1, description="Muscles that may be shown, by id."
    )
    left_out: list[LeftOut] = Field(default=[], description="Muscles that may not, and why.")
