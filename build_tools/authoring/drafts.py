"""Drafts of new entries: what is known of them already, and the skeleton that asks for the rest."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ..catalog import entries, yaml_file
from ..catalog.entries import TODO
from ..catalog.load import Catalog
from .skeleton import Path, Skeleton

#: What a relative hands on: how it is built, never what is claimed, taught or rests on somebody's look at it.
STRUCTURE = ("equipment", "sides", "set_credit", "movement")
_HEAD = (
    "# A draft. Each {todo} must be written, or its line taken out, before the check passes.\n"
    "# Lines that begin with # are help. A key behind a # may be given; take the # away then.\n\n"
)


def exercise(catalog: Catalog, given: Mapping[str, Any], like: str | None = None) -> str:
    """A draft of an exercise. ``given`` may hold its name, equipment, set_credit, position and kind of load; ``like`` is a relative."""
    known: dict[str, Any] = {}
    notes: dict[Path, list[str]] = {}
    if like:
        known = structure(catalog, like)
        told = f"As in {like}; change what differs."
        notes = {(key,): [told] for key in known if key not in given}
    movement = dict(known.get("movement", {}))
    if position := given.get("position"):
        movement["position"] = position
    if kind := given.get("load"):
        movement["load"] = {"kind": kind}
    known |= {key: value for key, value in given.items() if key not in ("position", "load")}
    if movement:
        known["movement"] = movement
    notes.setdefault(("movement",), []).extend(_joints(catalog))
    if "equipment" not in known:
        _list(catalog, notes, "equipment", ("equipment",))
    if "position" not in movement:
        _list(catalog, notes, "positions", ("movement", "position"))
    _list(catalog, notes, "concerns", ("cautions", "concerns"))
    return _text(entries.Exercise, known, notes, shown=[("emphasis",)])


def study(
    catalog: Catalog,
    design: str | None,
    exercises: Sequence[str],
    measure: str | None,
    parts: Sequence[str],
) -> str:
    """A draft of a study with an arm for each exercise and one result."""
    assert catalog.vocabulary is not None
    vocabulary = catalog.vocabulary.data
    known: dict[str, Any] = {"design": design} if design else {}
    notes: dict[Path, list[str]] = {}
    unasked: list[Path] = []
    result: dict[str, Any] = {}
    if exercises:
        known["arms"] = {id: {"exercise": id, "called": TODO} for id in exercises}
    if len(exercises) > 1:
        first, *others = exercises
        result["contrasts"] = [{"of": first, "against": other} for other in others]
    if parts:
        result["parts"] = list(parts)
    if measure:
        result["measure"] = measure
        units = vocabulary.measures[measure].units
        if units:
            notes["results", "unit"] = [f"Units of {measure}: {', '.join(units)}."]
        if vocabulary.measures[measure].outcome == "strength":
            result["strength_test"] = TODO
    if design:
        of = vocabulary.designs[design]
        if not of.allocates:
            unasked.append(("allocation",))
        if not of.trains:
            unasked.append(("weeks",))
        asked = vocabulary.asked_of(design)
        notes["appraisal",] = [f"{id}: {question.asks}" for id, question in asked.items()]
    known["results"] = [result]
    if not design:
        _list(catalog, notes, "designs", ("design",))
    if not measure:
        _list(catalog, notes, "measures", ("results", "measure"))
    return _text(entries.Study, known, notes, unasked=unasked)


def muscle(catalog: Catalog, given: Mapping[str, Any], parts: Sequence[str]) -> str:
    """A draft of a muscle. ``given`` may hold its name, everyday name and region; ``parts`` are the ids of its parts."""
    known = dict(given) | ({"parts": {id: {} for id in parts}} if parts else {})
    notes: dict[Path, list[str]] = {}
    if "region" not in given:
        _list(catalog, notes, "regions", ("region",))
    _list(catalog, notes, "joints", ("parts", "crosses"))
    return _text(entries.Muscle, known, notes)


def structure(catalog: Catalog, like: str) -> dict[str, Any]:
    """What a new exercise takes over from a relative, as it stands in its file."""
    source = catalog.exercises[like].source
    _, data, _ = yaml_file.read(source.path, source.label)
    known = {key: data[key] for key in STRUCTURE if key in data}
    load = known["movement"]["load"]
    # A machine's measured curve has a source of its own.
    known["movement"]["load"] = {key: value for key, value in load.items() if key != "curve"}
    return known


def places(text: str) -> int:
    """How many marks a draft has."""
    return sum(line.split("#")[0].count(TODO) for line in text.split("\n"))


def _joints(catalog: Catalog) -> list[str]:
    """What the angles of each joint mean, as the vocabulary says it."""
    assert catalog.vocabulary is not None
    return [
        f"  {id}: 0 is {joint.straight}, above 0 {joint.flexed}"
        + (f", below 0 {joint.extended}" if joint.extended else "")
        + "."
        for id, joint in catalog.vocabulary.data.joints.items()
    ]


def _list(catalog: Catalog, notes: dict[Path, list[str]], kind: str, path: Path) -> None:
    """Note at a key which ids of a closed list it takes."""
    assert catalog.vocabulary is not None
    notes.setdefault(path, []).append(f"Ids: {', '.join(getattr(catalog.vocabulary.data, kind))}.")


def _text(
    model: type[entries.Entry],
    known: Mapping[str, Any],
    notes: Mapping[Path, list[str]],
    shown: Sequence[Path] = (),
    unasked: Sequence[Path] = (),
) -> str:
    made = Skeleton(model, known, notes, shown, unasked).text()
    return _HEAD.format(todo=TODO) + made
