"""How a run may end, and how it must not."""

from __future__ import annotations

import re
import traceback
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from build_tools.catalog.load import Catalog
from build_tools.checks.runner import INTERNAL_ERROR, GradedFinding

#: As it should be: nothing to say, something said that stops nothing, an error with its place, or a refusal with a reason.
SOUND = ("clean", "warned", "located", "refused")
#: Words of arithmetic that went wrong, where a number should stand. No English word of the pages is one of them.
_SCRIPT = re.compile(r"<script>.*?</script>", re.DOTALL)
_NO_NUMBER = re.compile(r"(?<![\w.-])-?(?:nan|NaN|inf|Infinity)(?:px|%|em)?(?![\w-])")


class Outcome(NamedTuple):
    """What became of one input."""

    name: str
    """One of ``SOUND``, or else a fault: internal, unlocated, traceback, no-number, memory, hang, crash."""
    detail: str = ""
    depth: str = "read"
    """How far it came: read, concluded or rendered."""

    @property
    def is_sound(self) -> bool:
        return self.name in SOUND


def judged(findings: Iterable[GradedFinding], catalog: Catalog, depth: str) -> Outcome:
    """The worst of some findings: one that points nowhere, helps with nothing or is the checks' own fault is a fault."""
    name, told = "clean", ""
    for found, severity in findings:
        where = f"{found.spot.file}:{found.spot.line}:{found.spot.column} [{found.rule}] {found.message}"
        if found.rule == INTERNAL_ERROR:
            return Outcome("internal", where, depth)
        if not found.help or not found.message or not _is_there(found.spot, catalog):
            return Outcome("unlocated", f"{where} / {found.help}", depth)
        if severity == "error" and name != "located":
            name, told = "located", where
        elif severity == "warning" and name == "clean":
            name, told = "warned", where
    return Outcome(name, told, depth)


def _is_there(spot: object, catalog: Catalog) -> bool:
    """Whether a place is one of the catalog's: a line that its file has, or the head of a file or folder that is missing."""
    file, line, column = spot.file, spot.line, spot.column  # type: ignore[attr-defined]
    if not (file == catalog.label or file.startswith(f"{catalog.label}/")):
        return False
    path = catalog.root / Path(file).relative_to(catalog.label)
    if not path.is_file():
        return (line, column) == (1, 1)
    lines = path.read_bytes().count(b"\n") + path.read_bytes().count(b"\r") + 1
    return 1 <= line <= lines and column >= 1


def of_pages(texts: Iterable[tuple[str, str]], written: bytes = b"") -> Outcome | None:
    """A fault when a page or file shows what is no number, unless the like was ``written`` as a word by whoever made the input."""
    if re.search(rb"nan|inf\b|infinity", written, re.IGNORECASE):
        return None
    for name, text in texts:
        text = _SCRIPT.sub("", text)
        if found := _NO_NUMBER.search(text):
            return Outcome(
                "no-number",
                f"{name}: {text[max(0, found.start() - 60) : found.end() + 40]!r}",
                "rendered",
            )
    return None


def of_error(error: BaseException, depth: str) -> Outcome:
    """A fault, told by where it was raised."""
    frames = [
        f"{Path(frame.filename).name}:{frame.lineno}"
        for frame in traceback.extract_tb(error.__traceback__)[-6:]
    ]
    name = "memory" if isinstance(error, MemoryError) else "traceback"
    return Outcome(
        name, f"{type(error).__name__}: {str(error)[:160]} ({' > '.join(frames)})", depth
    )
