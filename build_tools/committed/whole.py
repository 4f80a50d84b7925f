"""A file that is replaced whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path


def put(path: Path, text: str) -> None:
    """Put ``text`` in the place of a file in one step, and leave nothing beside it. Raises ``OSError``."""
    beside = path.with_name(f".{path.name}.new")
    try:
        beside.write_text(text, encoding="utf-8", newline="\n")
        os.replace(beside, path)
    except OSError:
        beside.unlink(missing_ok=True)
        raise
