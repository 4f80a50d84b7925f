"""References as RIS, the form that every reference manager reads.

Tags are those of the RIS format specification (Research Information Systems, 2011), from memory and common practice; a
reader made by others, rispy, reads them back in the tests. A line ends in carriage return and line feed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from .apa import pointed
from .references import Name, Reference
from .remarks import remarks

#: Type of record -> type of reference.
_TYPES = {"article": "JOUR", "book": "BOOK", "incollection": "CHAP", "misc": "GEN"}


def text(references: Iterable[Reference]) -> str:
    """The references as one file, in the order given."""
    return "".join(_record(reference) for reference in references)


def _record(reference: Reference) -> str:
    lines = [f"{tag}  - {value}" for tag, value in _tags(reference) if value]
    return "\r\n".join([*lines, "ER  - ", "", ""])


def _tags(r: Reference) -> Iterator[tuple[str, str]]:
    first, _, last = r.pages.partition("–")
    yield "TY", _TYPES[r.type]
    yield "ID", r.key
    yield from (("AU", _name(name)) for name in r.authors)
    yield "TI", r.title
    yield "T2", r.journal or r.booktitle
    yield from (("A2", _name(name)) for name in r.editors)
    yield "PY", r.year
    yield "VL", r.volume
    yield "IS", r.number
    yield "SP", first
    yield "EP", last
    yield "ET", r.edition
    yield "PB", r.publisher
    yield "DO", r.doi
    yield "AN", r.pmid
    yield "C2", r.pmcid
    yield "UR", r.link or ""
    yield from (("N1", remark) for remark in remarks(r))


def _name(name: Name) -> str:
    """``King, M. L., Jr.``; a group as it is called."""
    return ", ".join(filter(None, (name[0], *pointed(name[1]))))
