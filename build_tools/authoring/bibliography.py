"""A new record in ``references.bib``: its key, works that are there already, its place, and its text."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from difflib import SequenceMatcher

from ..catalog.bibliography.references import Reference
from ..catalog.entries import TODO
from .exports import ExportedRecord

#: How alike two titles must be to be taken for one work (difflib's ratio, 0-1). Convention: one word of ten differs.
NEAR_TITLE = 0.9
_SECTION = re.compile(r"^% --- .+$", re.MULTILINE)
_RECORD = re.compile(r"^@\w+\{([^,\s]+),", re.MULTILINE)


def free_key(record: ExportedRecord, taken: Iterable[str]) -> str:
    """Family name of the first author (or the title's first word) and year, with the first free letter: ``maeo2021b``."""
    family = record.fields.get("author", "").partition(" and ")[0].partition(",")[0]
    word = _letters(family) or _letters(record.fields.get("title", "").split(" ")[0]) or "work"
    stem: str = word + record.fields.get("year", "")
    known = set(taken)
    letters: tuple[str, ...] = ("", *"bcdefghijklmnopqrstuvwxyz")
    return next(stem + letter for letter in letters if stem + letter not in known)


def already_there(
    record: ExportedRecord, references: Mapping[str, Reference]
) -> Iterator[tuple[str, str]]:
    """Keys of records that are the same work, each with why."""
    fields, title = record.fields, _folded(record.fields.get("title", ""))
    for key, reference in references.items():
        for name, theirs, ours in (
            ("DOI", reference.doi.lower(), fields.get("doi", "").lower()),
            ("PMID", reference.pmid, fields.get("pmid", "")),
            ("PMCID", reference.pmcid.upper(), fields.get("pmcid", "").upper()),
        ):
            if ours and ours == theirs:
                yield key, f"has the same {name}"
                break
        else:
            years = reference.year, fields.get("year", reference.year)
            near = abs(int(years[0]) - int(years[1])) <= 1
            if near and title and _near(title, _folded(reference.title)):
                yield key, "has nearly the same title"


def written(record: ExportedRecord, key: str) -> str:
    """The record as ``references.bib`` has it. That only the record was seen is certain; where, the author must say."""
    own = {"read": "record", "readat": f"{TODO}: where the record was seen"}
    if "author" not in record.fields:
        own["recheck"] = "authors: the export names none"
    lines = [f"@{record.type}{{{key},"]
    lines += [f"  {name} = {{{_braced(value)}}}," for name, value in record.fields.items()]
    lines += [f"  {name} = {{{value}}}," for name, value in own.items()]
    return "\n".join([*lines, "}", ""])


def placed(text: str, made: str, key: str, section: str | None = None) -> str:
    """``references.bib`` with one more record: in the section whose heading holds ``section`` (by default the last one), before the first
    record there with a later key. Raises ``LookupError`` for a section that is not there."""
    heads = [(found.start(), found.group()) for found in _SECTION.finditer(text)]
    begin, end = 0, len(text)
    if section is not None:
        named = [n for n, (_, head) in enumerate(heads) if section.lower() in head.lower()]
        if not named:
            known = "; ".join(head.strip("%- ") for _, head in heads)
            raise LookupError(f"no section of references.bib is called so; it has: {known}")
        begin = heads[named[0]][0]
        end = next((start for start, _ in heads if start > begin), len(text))
    elif heads:
        begin = heads[-1][0]
    for found in _RECORD.finditer(text, begin, end):
        if found[1] > key:
            return f"{text[: found.start()]}{made}\n{text[found.start() :]}"
    head, tail = text[:end].rstrip("\n"), text[end:]
    gap = "\n\n" if head else ""
    return f"{head}{gap}{made}" + (f"\n{tail}" if tail else "")


def _braced(value: str) -> str:
    """A value that BibTeX reads back as it stands: TeX's own characters are escaped, braces only where they match."""
    if value.count("{") != value.count("}"):
        value = value.replace("{", "").replace("}", "")
    return value


def _letters(text: str) -> str:
    plain = unicodedata.normalize("NFKD", text)
    return re.sub(r"[^a-z]", "", "".join(c for c in plain if not unicodedata.combining(c)).lower())


def _folded(title: str) -> str:
    return re.sub(r"\W+", " ", title.casefold()).strip()


def _near(one: str, other: str) -> bool:
    match = SequenceMatcher(None, one, other)
    return match.quick_ratio() >= NEAR_TITLE and match.ratio() >= NEAR_TITLE
