"""A catalog's folder at one time, as plain data: read whether or not today's program would take it for a catalog."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property
from pathlib import Path
from typing import Any

from ..catalog import yaml_file
from ..catalog.bibliography import bibtex
from ..catalog.load import Catalog
from ..committed import addresses, files, record

#: How the state of the folder itself is called.
NOW = "now"
#: What is generated, so that it is compared by what it says, not as entries.
GENERATED = (addresses.FILE, record.FILE)
#: Longest file whose data are read; a model's table may be longer and is compared as text.
_MOST_BYTES = 32 * yaml_file.MAX_BYTES


class Snapshot:
    """The files of one state. Nothing here raises for what stands in a file."""

    def __init__(self, root: Path, label: str) -> None:
        self.root = root
        self.label = label
        """How people call this state: ``main (3f2a91c77 of 2026-11-29)``, or ``NOW``."""
        self._data: dict[str, Any] = {}

    @cached_property
    def texts(self) -> dict[str, str]:
        """Path below the folder -> text of every authored file, in sorted order, line breaks as ``\\n``."""
        found = {}
        for path in sorted(_walk(self.root)):
            name = path.relative_to(self.root).as_posix()
            if name not in GENERATED and not name.startswith(f"{files.FOLDER}/"):
                found[name] = _text(path)
        return found

    @cached_property
    def conclusions(self) -> dict[str, str | None]:
        """Path -> text of the committed conclusions; empty where there are none."""
        return files.stored_texts(self.root)

    def data(self, path: str) -> Any:
        """What a YAML file holds; ``None`` when it is not there or cannot be read."""
        if path not in self._data:
            _, self._data[path], _ = yaml_file.read(self.root / path, path, _MOST_BYTES)
        return self._data[path]

    def mapping(self, path: str, *keys: str) -> Mapping[str, Any]:
        """The mapping at ``keys`` of a file; empty for anything else."""
        found = self.data(path)
        for key in keys:
            found = found.get(key) if isinstance(found, dict) else None
        return found if isinstance(found, dict) else {}

    def ids(self, folder: str) -> set[str]:
        """The entries of a folder."""
        start, end = f"{folder}/", ".yaml"
        return {
            path[len(start) : -len(end)]
            for path in self.texts
            if path.startswith(start) and path.endswith(end) and path.count("/") == 1
        }

    def moved(self, kind: str) -> dict[str, str]:
        """Retired ids of a kind -> their successors, as moved.yaml tells them."""
        return {
            old: new
            for old, new in self.mapping("moved.yaml", kind).items()
            if isinstance(new, str)
        }

    @cached_property
    def references(self) -> dict[str, dict[str, str]]:
        """Key -> the fields of each record that can be read."""
        records, _ = bibtex.parse(self.texts.get("references.bib", ""))
        return {r.key: {"type": r.type, **{f.name: f.value for f in r.fields}} for r in records}

    @property
    def published(self) -> set[str]:
        """Every address that was listed, and those of the entries that were there."""
        catalog = Catalog(self.root, label=self.label)
        exercises = {f"/exercises/{id}/" for id in self.ids("exercises")}
        return {
            *addresses.published(catalog),
            *exercises,
            *(f"/muscles/{ref}/" for ref in self._parts()),
        }

    @property
    def has_list(self) -> bool:
        """Whether its published addresses were listed."""
        return (self.root / addresses.FILE).is_file()

    def name(self, id: str) -> str:
        """An exercise's name, with its version; the id where there is none."""
        exercise, _, version = id.partition("@")
        name = self.mapping(f"exercises/{exercise}.yaml").get("name") or exercise
        return f"{name} ({version.replace('-', ' ')})" if version else str(name)

    def _parts(self) -> Iterator[str]:
        for id in self.ids("muscles"):
            yield id
            yield from (f"{id}/{part}" for part in self.mapping(f"muscles/{id}.yaml", "parts"))


def _walk(folder: Path) -> Iterator[Path]:
    for path in folder.iterdir():
        if path.name.startswith(".") or path.is_symlink():
            continue
        if path.is_dir():
            yield from _walk(path)
        elif path.is_file():
            yield path


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8-sig", errors="backslashreplace")
    except OSError:
        return ""
