"""Keeps ``catalog/.schemas/``: what an editor completes and marks while an entry is written, with the ids of this very catalog.

Committed, so that a fresh clone completes before anything is installed. Where the folder is missing nobody asked for it.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from ..catalog.finding import Finding, Spot
from ..catalog.load import Catalog
from ..catalog.schema import json_schema
from ..catalog.schema.known_words import known_words
from ..committed.whole import put

#: Its name begins with a point, so it is no entry and is never read as one.
FOLDER = ".schemas"
#: Schema -> the files below the catalog that it is for.
INDEX = "index.json"
STALE = "stale-schemas"


def texts(catalog: Catalog) -> dict[str, str]:
    """File name -> what it holds: a schema of each kind, the lists of ids that they share, and the index."""
    known = known_words(catalog)
    made: dict[str, Any] = {
        f"{kind}.json": json_schema.schema(kind, known, lists=json_schema.LISTS)
        for kind in json_schema.KINDS
    }
    made[json_schema.LISTS] = json_schema.known_lists(known)
    made[INDEX] = {f"{kind}.json": json_schema.glob(kind) for kind in json_schema.KINDS}
    return {
        name: json.dumps(data, indent=1, ensure_ascii=False) + "\n" for name, data in made.items()
    }


def write(catalog: Catalog, folder: Path) -> int:
    """Bring the files in ``folder`` up to date, and answer how many were not. Raises ``OSError``."""
    changed = _changed(catalog, folder)
    if folder.is_symlink():
        raise OSError(f"{folder.name} is a link; make it a plain folder")
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in changed.items():
        put(folder / name, text)
    return len(changed)


def refresh(catalog: Catalog) -> int:
    """The same in the catalog's own folder, if it has one."""
    folder = catalog.root / FOLDER
    return write(catalog, folder) if folder.is_dir() else 0


def stale(catalog: Catalog) -> list[Finding]:
    """One finding if the catalog's own folder is there and is not what ``refresh`` writes."""
    folder = catalog.root / FOLDER
    changed = _changed(catalog, folder) if folder.is_dir() else {}
    if not changed:
        return []
    label = f"{catalog.label}/" if catalog.label else ""
    return [
        Finding(
            STALE,
            Spot(f"{label}{FOLDER}/{min(changed)}", 1, 1),
            "editors are offered ids that this catalog had, not those it has",
            "run `handbook conclude` and commit what it writes",
        )
    ]


def settings(folder: str, catalog: str) -> dict[str, dict[str, str]]:
    """What an editor's settings say of schemas in ``folder`` and a ``catalog``, both as seen from the folder that is open in it."""
    return {
        "yaml.schemas": {
            f"{folder}/{kind}.json": f"{catalog}/{json_schema.glob(kind)}"
            for kind in json_schema.KINDS
        }
    }


def _changed(catalog: Catalog, folder: Path) -> dict[str, str]:
    return {name: text for name, text in texts(catalog).items() if _text(folder / name) != text}


def _text(path: Path) -> str | None:
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return None
