"""Keeps ``catalog/conclusions/`` as ``committed_text`` lays it out, and tells where it is not."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from ..catalog.finding import Finding, Spot
from ..catalog.load import Catalog
from ..evidence.claims.conclusions import Conclusions
from .conclusions import FOLDER, HEADER, files
from .whole import put

__all__ = [
    "FOLDER",
    "HEADER",
    "STALE",
    "FilesWritten",
    "files",
    "stale",
    "stale_at_all",
    "stored_texts",
    "write",
]

STALE = "stale-conclusions"

_HELP = "run `handbook conclude` and commit what it writes"


class FilesWritten(NamedTuple):
    """How many files were written, removed and left as they were."""

    written: int
    removed: int
    unchanged: int


def write(texts: dict[str, str], root: Path) -> FilesWritten:
    """Bring the files below the catalog folder ``root`` up to ``texts``. Each is replaced whole or not at all.

    Raises ``OSError`` when a file cannot be written, or when a folder is a link that might lead anywhere.
    """
    stored = stored_texts(root)
    changed = [path for path, text in texts.items() if stored.get(path) != text]
    for path in changed:
        target = root / path
        _refuse_links(root, target.parent)
        target.parent.mkdir(parents=True, exist_ok=True)
        put(target, texts[path])
    left = [path for path, text in stored.items() if path not in texts and _is_ours(text)]
    for path in left:
        (root / path).unlink()
    return FilesWritten(len(changed), len(left), len(texts) - len(changed))


def stale(texts: dict[str, str], catalog: Catalog) -> list[Finding]:
    """What ``handbook conclude`` would change below the catalog's folder; one finding for each file."""
    stored, label = stored_texts(catalog.root), f"{catalog.label}/" if catalog.label else ""
    if texts and not stored:
        return [
            Finding(
                STALE, Spot(f"{label}{FOLDER}", 1, 1), "the conclusions were never written", _HELP
            )
        ]
    found = []
    for path, text in texts.items():
        if path not in stored:
            found.append(Finding(STALE, Spot(label + path, 1, 1), "this file is missing", _HELP))
        elif stored[path] != text:
            found.append(
                Finding(
                    STALE,
                    Spot(label + path, _first_difference(stored[path] or "", text), 1),
                    "from this line on the catalog concludes something else",
                    _HELP,
                )
            )
    for path, old in stored.items():
        if path not in texts:
            help = (
                _HELP
                if _is_ours(old)
                else "move it out of this folder, which `handbook conclude` keeps"
            )
            found.append(
                Finding(
                    STALE,
                    Spot(label + path, 1, 1),
                    "this file belongs to no exercise or muscle",
                    help,
                )
            )
    return sorted(found, key=lambda finding: finding.spot)


def stale_at_all(conclusions: Conclusions | None, catalog: Catalog) -> list[Finding]:
    """One finding for the whole folder if any of its files is stale; none without conclusions."""
    found = stale(files(conclusions, catalog), catalog) if conclusions else []
    if len(found) < 2:
        return found
    label = f"{catalog.label}/" if catalog.label else ""
    return [
        Finding(
            STALE,
            Spot(f"{label}{FOLDER}", 1, 1),
            f"{len(found)} files here are not what the catalog concludes",
            _HELP,
        )
    ]


def stored_texts(root: Path) -> dict[str, str | None]:
    """Path -> text of every file that stands in the folder; ``None`` for what is no readable text."""
    return {path.relative_to(root).as_posix(): _text(path) for path in sorted(_walk(root / FOLDER))}


def _walk(folder: Path) -> Iterator[Path]:
    if folder.is_symlink() or not folder.is_dir():
        return
    for path in folder.iterdir():
        if path.name.startswith("."):
            continue
        if path.is_dir() and not path.is_symlink():
            yield from _walk(path)
        else:
            yield path


def _text(path: Path) -> str | None:
    try:
        return None if path.is_symlink() else path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return None


def _is_ours(text: str | None) -> bool:
    return text is not None and text.startswith(HEADER)


def _refuse_links(root: Path, folder: Path) -> None:
    for place in (folder, *folder.parents):
        if place == root:
            return
        if place.is_symlink():
            raise OSError(f"{place.name} is a link; make it a plain folder")


def _first_difference(old: str, new: str) -> int:
    """Number of the first line that differs, from 1; the last line of ``old`` when it only ends too early."""
    lines = old.rstrip("\n").split("\n")
    for number, (a, b) in enumerate(zip(lines, new.rstrip("\n").split("\n"), strict=False), 1):
        if a != b:
            return number
    return max(1, min(len(lines), len(new.rstrip("\n").split("\n")) + 1))
