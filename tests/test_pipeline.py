"""With a memory of the state before, a catalog gives what it gives without one, whatever was changed in between.

The reference is the same program from nothing; the changes are every line of the invented catalog's files, one at a time.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from build_tools import pipeline
from build_tools.committed import files as committed
from build_tools.movement.course import Courses
from build_tools.site import book

NUMBER = re.compile(r"(?<![\w.-])\d+(?:\.\d+)?(?![\w.-])")
#: Changes of one file that are tried.
MOST = 150
WORD = re.compile(r"(?<=: )[A-Z][a-z]+ [a-z]+")


def slips(text: str) -> list[str]:
    """The text with one number raised, one sentence begun otherwise, or one line left out, one at a time."""
    found = [
        f"{text[: m.start()]}{float(m[0]) + 1:g}{text[m.end() :]}" for m in NUMBER.finditer(text)
    ]
    found += [f"{text[: m.start()]}Now {text[m.start() :]}" for m in WORD.finditer(text)]
    lines = text.splitlines(keepends=True)
    found += ["".join(lines[:n] + lines[n + 1 :]) for n in range(0, len(lines), 3)]
    return found


def told(
    folder: Path, memory: pipeline.Memory | None, courses: Courses | None, pages: bool
) -> tuple[dict[str, str], Courses | None]:
    """Everything that is said of the catalog in ``folder``, and the courses to go on with."""
    checked = pipeline.run(pipeline.open_catalog(folder, "catalog", memory), memory)
    said = {"findings": "\n".join(map(str, checked.reported))}
    if checked.conclusions is None:
        return said, courses
    said |= committed.files(checked.conclusions, checked.catalog)
    if pages:
        bound = book.bind(checked.catalog, checked.conclusions, checked.profile, courses=courses)
        said |= {page.uri: page.text for page in bound.pages}
        courses = bound.shelf.courses
    return said, courses


@pytest.mark.parametrize(
    "file",
    [
        "exercises/crate-curl.yaml",
        "exercises/cable-curl.yaml",
        "muscles/lantern.yaml",
        "studies/wick2030.yaml",
        "studies/glow2031.yaml",
        "studies/dusk2032.yaml",
        "handbook.yaml",
        "vocabulary.yaml",
        "programme.yaml",
        "example.yaml",
        "references.bib",
        "model/muscles.yaml",
        "model/lamp.csv",
    ],
)
def test_a_memory_changes_nothing(demo: Path, file: str) -> None:
    """State after state, each compared with one made from nothing; pages of every fourth."""
    memory, courses = pipeline.Memory(), None
    text = (demo / file).read_text(encoding="utf-8")
    found = slips(text)
    for number, changed in enumerate(found[:: len(found) // MOST + 1]):
        (demo / file).write_text(changed, encoding="utf-8")
        pages = number % 4 == 0
        said, courses = told(demo, memory, courses, pages)
        assert said == told(demo, None, None, pages)[0], number
    (demo / file).write_text(text, encoding="utf-8")
    assert told(demo, memory, courses, True)[0] == told(demo, None, None, True)[0]
