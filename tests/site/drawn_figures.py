"""Posture figures of the catalogs and of invented movements, read back from the drawing."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from functools import cache

import shipped_made
from folders import DEMO

from build_tools.catalog.entries import Movement
from build_tools.catalog.load import Catalog, load
from build_tools.evidence.wording.names import Names
from build_tools.movement.length.length import Lengths
from build_tools.movement.posture.frame import Frame
from build_tools.movement.posture.pose import key_frames
from build_tools.planning import facts
from build_tools.site.figures.figure import Figure, figure
from build_tools.site.figures.muscle_lines import MuscleLines, muscle_lines

SVG = "{http://www.w3.org/2000/svg}"


CATALOGS = {"shipped": shipped_made.catalog(), "demo": load(DEMO)}


EVERY = [(name, id) for name, catalog in CATALOGS.items() for id in catalog.exercises]


LENGTHS = {name: Lengths(catalog) for name, catalog in CATALOGS.items()}


def direct(name: str, id: str) -> list[str]:
    """Parts that a set of the exercise counts for directly."""
    catalog = CATALOGS[name]
    given = facts.credits(catalog, catalog.exercises[id].data)
    return [part for part, word in given.items() if word == "direct"]


@cache
def lines(name: str, id: str) -> MuscleLines:
    catalog = CATALOGS[name]
    exercise = catalog.exercises[id].data
    return muscle_lines(catalog, LENGTHS[name], Names(catalog), exercise, direct(name, id))


def of(name: str, id: str) -> Figure:
    catalog = CATALOGS[name]
    assert catalog.vocabulary
    return figure("fig", catalog.exercises[id].data, catalog.vocabulary.data, lines(name, id))


def made(equipment: list[str], **movement: object) -> Figure:
    """A figure of an invented movement with the shipped vocabulary."""
    catalog: Catalog = CATALOGS["shipped"]
    assert catalog.vocabulary
    base = catalog.exercises["romanian-deadlift"].data
    return figure(
        "fig",
        base.model_copy(
            update={"equipment": equipment, "movement": Movement.model_validate(movement)}
        ),
        catalog.vocabulary.data,
    )


def parsed(written: str) -> ET.Element:
    """The page's figure as XML, without the attributes that HTML lets stand alone."""
    return ET.fromstring(re.sub(r" (data-search-exclude|hidden)(?=[ >])", "", written).strip())


def numbers(d: str) -> list[float]:
    return [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", d)]


def course(name: str, id: str) -> tuple[Frame, ...]:
    catalog = CATALOGS[name]
    assert catalog.vocabulary
    return key_frames(catalog.exercises[id].data.movement, catalog.vocabulary.data)


CURL = {"from": {"elbow": 5}, "to": {"elbow": 140}}


FLY = {
    "position": "on-flat-bench",
    "view": "above",
    "from": {"shoulder-horizontal": 0},
    "to": {"shoulder-horizontal": 90},
    "load": {"kind": "free-weight", "at": "hand"},
}


def made_lines(parts: list[str], **movement: object) -> tuple[MuscleLines, Frame]:
    """The lines of an invented movement that counts for these parts, and its first posture."""
    catalog = CATALOGS["shipped"]
    assert catalog.vocabulary
    base = catalog.exercises["romanian-deadlift"].data
    given = Movement.model_validate(movement)
    exercise = base.model_copy(update={"movement": given})
    found = muscle_lines(catalog, LENGTHS["shipped"], Names(catalog), exercise, parts)
    return found, key_frames(given, catalog.vocabulary.data)[0]
