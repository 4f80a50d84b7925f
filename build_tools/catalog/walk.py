"""Shared iteration over a catalog: its statements and the texts a client reads."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any, NamedTuple, get_args

from pydantic import BaseModel

from . import entries
from .entry_memory import once_per_entry
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
    entries.Timing: "time allowance",
    entries.AppraisalQuestion: "signalling question",
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
        kinds = (_CALLED.get(kind) for kind in type(self.basis).__mro__)
        return next(filter(None, kinds), "statement")

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
        yield from statements_of(entry)


@once_per_entry
def statements_of(entry: Loaded[Any]) -> list[Statement]:
    """Every statement of one entry, in the order of its fields."""
    return [Statement(entry, path, basis) for path, basis in _content(entry).bases]


#: Entries whose texts are names of files, columns and rules.
_TECHNICAL = (entries.Model, entries.Exceptions, entries.Moved)


def written_texts(catalog: Catalog) -> Iterator[tuple[Loaded[Any], Path, str]]:
    """Every text that an author wrote to be read, with its entry and the path to it; ids too, addresses not."""
    for entry in yaml_entries(catalog):
        for path, text in texts_of(entry):
            yield entry, path, text


@once_per_entry
def texts_of(entry: Loaded[Any]) -> list[tuple[Path, str]]:
    """Every such text of one entry, with the path to it."""
    if isinstance(entry.data, _TECHNICAL):
        return []
    return [(path, text) for path, text in _content(entry).texts if path[-1] != "url"]


class _Content(NamedTuple):
    """Everything of two kinds in an entry, in the order of its fields, with the path to it."""

    texts: list[tuple[Path, str]]
    bases: list[tuple[Path, entries.Basis]]


@once_per_entry
def _content(entry: Loaded[Any]) -> _Content:
    found = _Content([], [])
    _gather(entry.data, (), found)
    return found


def _gather(value: object, path: Path, found: _Content) -> None:
    # One list for all depths: generators within generators would hand each text up through every one of them.
    if isinstance(value, BaseModel):
        if isinstance(value, entries.Basis):
            found.bases.append((path, value))
        held: Iterable[tuple[str | int, object]] = [
            (key, getattr(value, name)) for name, key in _keys(type(value))
        ]
    elif isinstance(value, dict):
        held = value.items()
    elif isinstance(value, list):
        held = enumerate(value)
    else:
        return
    for key, item in held:
        if isinstance(item, str):
            found.texts.append(((*path, key), item))
        elif item is not None:
            _gather(item, (*path, key), found)


@cache
def _keys(model: type[BaseModel]) -> list[tuple[str, str]]:
    """Each field's name and the key that stands for it in a file."""
    return [(name, field.alias or name) for name, field in model.model_fields.items()]


def client_texts(exercise: entries.Exercise) -> Iterator[tuple[Path, str]]:
    """Path and text of everything on an exercise's cue sheet that its author wrote for the client."""
    for group in ("set_up", "move", "check"):
        for index, cue in enumerate(getattr(exercise.cues, group)):
            yield ("cues", group, index, "do"), cue.do
            if cue.why:
                yield ("cues", group, index, "why"), cue.why
    for index, fault in enumerate(exercise.faults):
        yield ("faults", index, "see"), fault.see
        yield ("faults", index, "say"), fault.say
    for index, caution in enumerate(exercise.cautions):
        for key in get_args(entries.Place):
            if (text := getattr(caution, key)) is not None:
                yield ("cautions", index, key), text
