"""Reads a rule module's docstring, which is its manual.

The layout::

    What the rule demands, in one line.

    Why: one paragraph.

    Instead: one paragraph.

    Fails: exercises/crate-curl.yaml 2:3
        a fragment of that file, with line:column of every problem in it

    Passes: exercises/crate-curl.yaml
        a fragment of that file without problems

An example is laid over the invented demo catalog of the tests: its top-level
blocks replace those of the file it names. Line and column count within the
fragment, from 1.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from inspect import cleandoc
from textwrap import dedent

_SECTION = re.compile(r"^(Why|Instead|Fails|Passes): ?", re.MULTILINE)


@dataclass(frozen=True)
class ManualExample:
    """A fragment of one file of the demo catalog, and the places where the rule must object."""

    file: str
    fragment: str
    places: tuple[tuple[int, int], ...]
    """(line, column) of each expected problem within the fragment; empty when the example passes."""


@dataclass(frozen=True)
class Manual:
    """What a rule demands, why, what to write instead, and examples that run as tests."""

    title: str
    why: str
    instead: str
    fails: tuple[ManualExample, ...]
    passes: tuple[ManualExample, ...]


def read_manual(docstring: str) -> Manual:
    """The manual in a rule module's docstring. Raises ``ValueError`` for a section or place that is missing or malformed."""
    title, *parts = _SECTION.split(cleandoc(docstring))
    sections: dict[str, list[str]] = {"Why": [], "Instead": [], "Fails": [], "Passes": []}
    for name, body in zip(parts[::2], parts[1::2], strict=True):
        sections[name].append(body)
    title = " ".join(title.split())
    if (
        not title
        or any(len(sections[name]) != 1 for name in ("Why", "Instead"))
        or not sections["Fails"]
        or not sections["Passes"]
    ):
        raise ValueError(
            "a manual has a first line, one `Why:`, one `Instead:`, and at least one `Fails:` and one `Passes:`"
        )
    fails, passes = (
        tuple(_example(body) for body in sections[name]) for name in ("Fails", "Passes")
    )
    if not all(example.places for example in fails) or any(example.places for example in passes):
        raise ValueError(
            "`Fails:` names the file and line:column of each problem; `Passes:` names the file alone"
        )
    why, instead = (" ".join(sections[name][0].split()) for name in ("Why", "Instead"))
    return Manual(title, why, instead, fails, passes)


def _example(body: str) -> ManualExample:
    heading, _, fragment = body.partition("\n")
    file, *places = heading.split()
    return ManualExample(
        file, dedent(fragment).strip("\n") + "\n", tuple(_place(place) for place in places)
    )


def _place(text: str) -> tuple[int, int]:
    place = re.fullmatch(r"([1-9][0-9]*):([1-9][0-9]*)", text)
    if place is None:
        raise ValueError(
            f"`{text}` is no line:column; write `Fails: file line:column`, as in exercises/crate-curl.yaml 2:3"
        )
    return int(place[1]), int(place[2])
