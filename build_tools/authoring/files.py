"""Files of the catalog that are written for an author, never over another's."""

from __future__ import annotations

from pathlib import Path


def create(path: Path, text: str) -> None:
    """Write a file that is not there yet. Raises ``FileExistsError`` and other ``OSError``."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("x", encoding="utf-8", newline="\n") as out:
        out.write(text)
