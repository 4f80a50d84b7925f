"""Files of the catalog that are written for an author: whole or not at all, and never over another's."""

from __future__ import annotations

import os
from pathlib import Path


def replace(path: Path, text: str) -> None:
    """Put ``text`` in place of a file in one step. Raises ``OSError``."""
    beside = path.with_name(f".{path.name}.new")
    beside.write_text(text, encoding="utf-8", newline="\n")
    os.replace(beside, path)


def create(path: Path, text: str) -> None:
    """Write a file that is not there yet. Raises ``FileExistsError`` and other ``OSError``."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("x", encoding="utf-8", newline="\n") as out:
        out.write(text)
