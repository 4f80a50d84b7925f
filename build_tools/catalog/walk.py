"""Shared iteration over a catalog: its statements and the texts a client reads."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from . import entries
from .finding import Spot
from .load import Catalog, Loaded

Path = tuple[str | int, ...]

#: What a statement of each kind is called in messages.
_CALLED: dict[type[entries.Basis], str] = {
    entries.Claim: "emphasis claim",
    entries.AuthoredCertainty: "authored certainty",
    entries.Cue: "cue",
    entries.Fault: "fault",
    entries.Caution: "caution",
    entries.CareLine: "line of care",
    entries.Fact: "fact",
    entries.Convention: "convention",
    entries.Correlation: "correlation",
    entries.BodyWeightFraction: "body-weight fraction",
    entries.MachineCurve: "machine's curve",
    entries.Dose: "dose",
    entries.Credit: "set credit",
    entries.Advice: "advice",
    entries.Equation: "equation",
    entries.PercentTable: "load table",
    entries.Timing: "time allowance",
}


@dataclass(frozen=True)
class Statement:
    """Something the catalog asserts, which therefore needs a basis."""

    entry: Loaded[Any]
    path: Path
    """Keys and indices that lead to it in its file."""
    basis: entries.Basis

    @property
    def called(self) -> str:
        """Its kind in plain words, e.g. ``emphasis claim``."""
        return _CALLED.get(type(self.basis), "statement")

    def spot(self, *path: str | int, key: bool = False) -> Spot:
        """Where it stands, or where ``path`` within it stands."""
        return self.entry.spot(*self.path, *path, key=key)


def yaml_entries(catalog: Catalog) -> Iterator[Loaded[Any]]:
    """Every typed entry that was written in YAML, single files first, then folders by id."""
    single = (
        catalog.handbook,
        catalog.vocabulary,
        catalog.moved,
        catalog.exceptions,
        catalog.model,
        catalog.programme,
        catalog.example,
    )
    yield from (entry for entry in single if entry is not None)
    for folder in (catalog.muscles, catalog.exercises, catalog.studies):
        yield from folder.values()


def reviewed_entries(
    catalog: Catalog,
) -> Iterator[Loaded[entries.Muscle] | Loaded[entries.Exercise] | Loaded[entries.Programme]]:
    """Every entry that carries the date of its last review."""
    if catalog.programme:
        yield catalog.programme
    yield from catalog.muscles.values()
    yield from catalog.exercises.values()


def statements(catalog: Catalog) -> Iterator[Statement]:
    """Every statement of the catalog, in file order."""
    for entry in yaml_entries(catalog):
        for path, basis in _bases(entry.data, ()):
            yield Statement(entry, path, basis)


def _bases(value: Any, path: Path) -> Iterator[tuple[Path, entries.Basis]]:
    if isinstance(value, BaseModel):
        if isinstance(value, entries.Basis):
            yield path, value
        for name, field in type(value).model_fields.items():
            yield from _bases(getattr(value, name), (*path, field.alias or name))
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from _bases(item, (*path, key))
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from _bases(item, (*path, index))


#: Entries whose texts are names of files, columns and rules.
_TECHNICAL = (entries.Model, entries.Exceptions, entries.Moved)


def written_texts(catalog: Catalog) -> Iterator[tuple[Loaded[Any], Path, str]]:
    """Every text that an author wrote to be read, with its entry and the path to it; ids too, addresses not."""
    for entry in yaml_entries(catalog):
        if not isinstance(entry.data, _TECHNICAL):
            for path, text in _texts(entry.data, ()):
                yield entry, path, text


def _texts(value: Any, path: Path) -> Iterator[tuple[Path, str]]:
    if isinstance(value, str):
        if path[-1] != "url":
            yield path, value
    elif isinstance(value, BaseModel):
        for name, field in type(value).model_fields.items():
            yield from _texts(getattr(value, name), (*path, field.alias or name))
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from _texts(item, (*path, key))
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from _texts(item, (*path, index))


def client_texts(exercise: entries.Exercise) -> Iterator[tuple[Path, str]]:
    """Path and text of everything on an exercise's cue sheet that its author wrote for the client."""
    for group in ("set_up", "move", "check"):
        for index, cue in enumerate(getattr(exercise.cues, group)):
            yield ("cues", group, index, "do"), cue.do
            if cue.why:
                yield ("cues", group, index, "why"), cue.why
    for index, fault in enumerate(exercise.faults):
        yield ("faults", index, "say"), fault.say
    for index, caution in enumerate(exercise.cautions):
        for key in ("who", "instead", "stop_if", "ask"):
            yield ("cautions", index, key), getattr(caution, key)
