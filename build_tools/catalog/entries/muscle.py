"""What a muscle file may contain."""

from __future__ import annotations

from datetime import date

from pydantic import Field

from .base import Entry, Fact, Id, JointId, Line, Name, RegionId


class Part(Entry):
    """An anatomically named part of a muscle or muscle group."""

    name: Name = Field(
        description="Name in English after Terminologia Anatomica.", examples=["Semitendinosus"]
    )
    everyday: Name = Field(
        description="What a client would call it.", examples=["inner back of the thigh"]
    )
    coaches: Name | None = Field(
        None,
        description="What a coach calls it in a sentence, where that is not `name`: lats, front delt.",
        examples=["inner hamstring"],
    )
    latin: Name | None = Field(None, description="Latin term of Terminologia Anatomica.")
    also_called: list[Name] = Field(default=[], description="Other names people search for.")
    crosses: list[JointId] = Field(
        min_length=1, description="Joints it crosses (ids from vocabulary.yaml)."
    )
    does: Line = Field(
        description="What it does at those joints, in plain words.",
        examples=["Bends the knee and straightens the hip."],
    )
    lengthened_by: Line = Field(
        description="Which joint positions lengthen it, in plain words.",
        examples=["A bent hip and a straight knee."],
    )
    facts: list[Fact] = Field(
        min_length=1, description="Anatomy worth knowing, each with its basis."
    )


class Muscle(Entry):
    """A muscle group and its parts (``muscles/<id>.yaml``)."""

    name: Name = Field(
        description="Name of the muscle or muscle group in English.", examples=["Hamstrings"]
    )
    everyday: Name = Field(
        description="What a client would call it.", examples=["back of the thigh"]
    )
    coaches: Name | None = Field(
        None,
        description="What a coach calls it in a sentence, where that is not `name`: lats, front delt.",
        examples=["hams"],
    )
    also_called: list[Name] = Field(default=[], description="Other names people search for.")
    region: RegionId = Field(description="Region of the body (id from vocabulary.yaml).")
    summary: Line = Field(
        description="What a coach should know first, in one or two sentences.",
        examples=[
            "Three long muscles that cross hip and knee, and one short one that crosses the knee alone."
        ],
    )
    parts: dict[Id, Part] = Field(
        min_length=1, description="Its parts by id; claims name them as muscle/part."
    )
    facts: list[Fact] = Field(
        default=[], description="Anatomy of the whole group, each fact with its basis."
    )
    reviewed: date = Field(description="Day of the last look at the whole entry, year-month-day.")
