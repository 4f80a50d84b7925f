"""Load a whole catalog folder, reporting everything wrong with it in one run.

A file that cannot be read or typed leaves a finding and its id in
``Catalog.broken``, so that later checks do not report every mention of it as
unknown. Nothing here judges content; see ``build_tools.checks``.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, ValidationError

from . import complaints as wording
from . import entries, length_table, muscle_path
from . import yaml_file as source
from .bibliography.references import Reference, read_bibliography
from .finding import Finding, Spot
from .yaml_file import SourceFile

Data = TypeVar("Data", bound=BaseModel)

#: Folder -> model of its files. The file name is the id.
FOLDERS: dict[str, type[BaseModel]] = {
    "muscles": entries.Muscle,
    "exercises": entries.Exercise,
    "studies": entries.Study,
}
#: Single files -> model. The first two must exist.
FILES: dict[str, type[BaseModel]] = {
    "handbook": entries.Handbook,
    "vocabulary": entries.Vocabulary,
    "moved": entries.Moved,
    "exceptions": entries.Exceptions,
    "model": entries.Model,
    "programme": entries.Programme,
    "example": entries.Example,
}
#: Single files that do not stand at the top under their own name.
ELSEWHERE = {"model": "model/muscles"}
REQUIRED_FILES = ("handbook", "vocabulary")
#: Folder -> keys that its files must have; they tell what a misplaced file is.
_REQUIRED_KEYS = {
    folder: {
        field.alias or name for name, field in model.model_fields.items() if field.is_required()
    }
    for folder, model in FOLDERS.items()
}
_ONE_OF = {"muscles": "a muscle", "exercises": "an exercise", "studies": "a study"}
#: Longest id, as in ``entries.Id``.
MAX_ID = 64


@dataclass(frozen=True, eq=False)
class Loaded(Generic[Data]):
    """A typed entry with its id and the way back to its text. Equal is only the same object, one reading of a file."""

    id: str
    data: Data
    source: SourceFile
    found: dict[object, Any] = field(default_factory=dict, init=False, repr=False)
    """What was found of it (see ``entry_memory``), which goes with it."""

    def spot(self, *path: str | int, key: bool = False) -> Spot:
        """Where ``path`` (mapping keys and list indices) stands; its key with ``key=True``."""
        return Spot(self.source.label, *self.source.position(path, key))


@dataclass
class FileMemory:
    """What files held when they were read last. A preview reads anew only what changed, and an entry that did not is the very same object."""

    entries: dict[tuple[str, type[BaseModel]], Loaded[Any]] = field(default_factory=dict)
    """Label and model -> the entry."""
    records: dict[str, tuple[str, dict[str, Reference]]] = field(default_factory=dict)
    """Label of a sound bibliography -> its text and its references."""
    tables: length_table.TableMemory = field(default_factory=dict)
    """Of the tables of lengths that could be read."""


@dataclass
class Catalog:
    """Everything that was written, typed. Ids in sorted order."""

    root: Path
    handbook: Loaded[entries.Handbook] | None = None
    vocabulary: Loaded[entries.Vocabulary] | None = None
    moved: Loaded[entries.Moved] | None = None
    exceptions: Loaded[entries.Exceptions] | None = None
    model: Loaded[entries.Model] | None = None
    programme: Loaded[entries.Programme] | None = None
    example: Loaded[entries.Example] | None = None
    length_tables: dict[str, length_table.Grid] = field(default_factory=dict)
    """Table of ``model`` -> what its file holds; without those that cannot be read."""
    muscle_paths: dict[str, muscle_path.MusclePath] = field(default_factory=dict)
    """Column of a table -> where that muscle runs, of the models that tell it."""
    muscles: dict[str, Loaded[entries.Muscle]] = field(default_factory=dict)
    exercises: dict[str, Loaded[entries.Exercise]] = field(default_factory=dict)
    studies: dict[str, Loaded[entries.Study]] = field(default_factory=dict)
    references: dict[str, Reference] = field(default_factory=dict)
    broken: set[tuple[str, str]] = field(default_factory=set)
    """(kind, id) of entries that exist but could not be typed; kind as the folder or file name."""
    findings: list[Finding] = field(default_factory=list)
    """What is wrong with the files themselves."""
    label: str = ""
    """How findings name ``root``, with forward slashes."""
    memory: FileMemory = field(default_factory=FileMemory, repr=False, compare=False)
    """Of the time before."""

    def exists(self, kind: str, id: str) -> bool:
        """Whether an entry was written, sound or not."""
        return id in getattr(self, kind) or (kind, id) in self.broken

    def is_whole(self, *kinds: str) -> bool:
        """Whether every entry of these kinds could be typed, so that absence can be judged."""
        return not any(kind in kinds for kind, _ in self.broken)

    def part(self, ref: str) -> entries.Part | entries.Muscle | None:
        """The part ``muscle/part``, or the whole muscle for ``muscle``; ``None`` when unknown."""
        muscle_id, _, part_id = ref.partition("/")
        muscle = self.muscles.get(muscle_id)
        if muscle is None:
            return None
        return muscle.data.parts.get(part_id) if part_id else muscle.data

    def part_refs(self) -> list[str]:
        """All ``muscle`` and ``muscle/part`` references that exist."""
        refs = []
        for muscle_id, muscle in self.muscles.items():
            refs.append(muscle_id)
            refs += [f"{muscle_id}/{part_id}" for part_id in muscle.data.parts]
        return refs


def load(root: Path, label: str | None = None, memory: FileMemory | None = None) -> Catalog:
    """Load the catalog in ``root``. Findings name files as ``label/...`` (default: the path as given).

    ``memory`` belongs to this one folder, and is brought up to date.
    """
    label = root.as_posix() if label is None else label
    catalog = Catalog(root, label=label, memory=FileMemory() if memory is None else memory)
    if not root.is_dir():
        catalog.findings.append(
            Finding(
                "missing-file",
                Spot(label, 1, 1),
                "there is no catalog folder here",
                "name the folder that holds handbook.yaml: --catalog DIR",
            )
        )
        return catalog
    for name, model in FILES.items():
        file = f"{ELSEWHERE.get(name, name)}.yaml"
        path = root / file
        if path.exists():
            entry = _entry(catalog, name, name, path, f"{label}/{file}", model)
            setattr(catalog, name, entry)
        elif name in REQUIRED_FILES:
            catalog.broken.add((name, name))
            catalog.findings.append(
                Finding(
                    "missing-file",
                    Spot(f"{label}/{name}.yaml", 1, 1),
                    f"{name}.yaml is missing",
                    f"every catalog has a {name}.yaml",
                )
            )
    for folder, model in FOLDERS.items():
        _folder(catalog, root / folder, f"{label}/{folder}", folder, model)
    _length_tables(catalog, root / "model", f"{label}/model")
    bib = root / "references.bib"
    catalog.references, findings, broken = read_bibliography(
        bib, f"{label}/references.bib", catalog.memory.records
    )
    catalog.findings += findings
    catalog.broken |= {("references", key) for key in broken}
    _stray_files(catalog, root, label)
    return catalog


def _folder(catalog: Catalog, folder: Path, label: str, kind: str, model: type[BaseModel]) -> None:
    is_id = re.compile(entries.KEY_PATTERN if kind == "studies" else entries.ID_PATTERN).fullmatch
    for path in _listed(catalog, folder, label):
        shown = f"{label}/{path.name}"
        if path.suffix != ".yaml" or not is_id(path.stem) or len(path.stem) > MAX_ID:
            if _is_misplaced(catalog, path, shown, kind):
                continue
            catalog.broken |= {(kind, path.stem), (kind, _meant(path.stem, kind))}
            catalog.findings.append(
                Finding(
                    "file-name",
                    Spot(shown, 1, 1),
                    "this file name cannot be an id",
                    "use small letters, digits"
                    + ("" if kind == "studies" else " and single hyphens")
                    + f" and the ending .yaml, e.g. {'smith2024' if kind == 'studies' else 'seated-row'}.yaml",
                )
            )
            continue
        entry = _entry(catalog, kind, path.stem, path, shown, model)
        if entry:
            getattr(catalog, kind)[path.stem] = entry


def _is_misplaced(catalog: Catalog, path: Path, shown: str, kind: str) -> bool:
    """Whether a file plainly holds an entry of another kind than belongs here (empty: none does). If so it leaves a finding."""
    if path.suffix != ".yaml":
        return False
    _, data, findings = source.read(path, shown)
    if findings or not isinstance(data, dict):
        return False
    found = {
        folder: sum(key in _REQUIRED_KEYS[folder] for key in data) / len(_REQUIRED_KEYS[folder])
        for folder in FOLDERS
    }
    likely = max(found, key=lambda folder: found[folder])
    # Half of what the kind must have is more than any other kind shares with it.
    if likely == kind or found[likely] < 0.5 or found.get(kind, 0) >= found[likely]:
        return False
    id = _meant(path.stem, likely)
    catalog.broken.add((likely, id))
    catalog.findings.append(
        Finding(
            "misplaced-file",
            Spot(shown, 1, 1),
            f"this file holds {_ONE_OF[likely]}, and stands elsewhere",
            f"move it to {likely}/{id}.yaml",
        )
    )
    return True


def _meant(stem: str, kind: str) -> str:
    """The id that a file name was probably meant to be, so that mentions of it are not called unknown."""
    gap = "" if kind == "studies" else "-"
    return re.sub(r"[^a-z0-9]+", gap, stem.lower()).strip("-")


def _length_tables(catalog: Catalog, folder: Path, label: str) -> None:
    """Read the tables and paths that ``model/muscles.yaml`` asks for. A file that it does not name is read by nothing."""
    tables = catalog.model.data.tables if catalog.model else {}
    for id, table in tables.items():
        grid, findings = length_table.read(
            folder / f"{id}.csv", f"{label}/{id}.csv", table, catalog.memory.tables
        )
        catalog.findings += findings
        if grid:
            catalog.length_tables[id] = grid
    models = catalog.model.data.models if catalog.model else {}
    paths = [muscle_path.file(id) for id, model in models.items() if model.segments]
    for name in paths:
        found, findings = muscle_path.read(folder / name, f"{label}/{name}")
        catalog.findings += findings
        catalog.muscle_paths |= found
    known = {"muscles.yaml", "README.md", *(f"{id}.csv" for id in tables), *paths}
    if ("model", "model") not in catalog.broken:
        _stray(catalog, folder, label, known)


def _stray_files(catalog: Catalog, root: Path, label: str) -> None:
    """A file that nothing reads is a mistake that would otherwise pass in silence."""
    files = {f"{name}.yaml" for name in FILES if name not in ELSEWHERE}
    _stray(
        catalog,
        root,
        label,
        files
        | set(FOLDERS)
        | {
            "references.bib",
            "addresses.txt",
            "changes.yaml",
            "conclusions",
            "model",
            "README.md",
        },
    )


def _stray(catalog: Catalog, folder: Path, label: str, known: set[str]) -> None:
    for path in _listed(catalog, folder, label):
        if path.name not in known and not _is_misplaced(catalog, path, f"{label}/{path.name}", ""):
            catalog.findings.append(
                Finding(
                    "stray-file",
                    Spot(f"{label}/{path.name}", 1, 1),
                    "nothing reads this file",
                    wording.did_you_mean(path.name, sorted(known))
                    or "remove it, or move it where it belongs",
                )
            )


def _listed(catalog: Catalog, folder: Path, label: str) -> list[Path]:
    """What is in a folder, sorted, without hidden files; empty when there is no such folder."""
    try:
        return sorted(path for path in folder.iterdir() if not path.name.startswith("."))
    except FileNotFoundError:
        return []
    except OSError as error:
        catalog.broken.add((folder.name, folder.name))
        catalog.findings.append(
            Finding(
                "file-unreadable",
                Spot(label, 1, 1),
                f"this is no folder that can be read: {error.strerror}",
                "make it a folder with one file for each entry",
            )
        )
        return []


def _entry(
    catalog: Catalog, kind: str, id: str, path: Path, shown: str, model: type[Data]
) -> Loaded[Data] | None:
    text, unreadable = source.text_of(path, shown)
    known = catalog.memory.entries.get((shown, model))
    if known and not unreadable and known.source.text == text:
        return known
    src, data, findings = source.parse(text, path, shown, unreadable)
    if not findings:
        typed, findings = _typed(src, data, model)
        if typed is not None:
            made = Loaded(id, typed, src)
            catalog.memory.entries[shown, model] = made
            return made
        if kind in FOLDERS and _is_misplaced(catalog, path, shown, kind):
            return None
    catalog.broken.add((kind, id))
    catalog.findings += findings
    return None


def _typed(src: SourceFile, data: Any, model: type[Data]) -> tuple[Data | None, list[Finding]]:
    if not isinstance(data, dict):
        return None, [
            Finding(
                "wrong-type",
                Spot(src.label, 1, 1),
                "the file does not hold `key: value` lines",
                f"start with one of: {', '.join(wording.keys(model))}",
            )
        ]
    try:
        # JSON mode: strict about numbers and text, yet reads dates, as YAML 1.2 has none.
        return model.model_validate_json(json.dumps(data)), []
    except ValidationError as error:
        return None, wording.findings(error, src, model, data)
