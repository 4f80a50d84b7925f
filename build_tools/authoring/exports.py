"""Bibliographic records out of other programs' exports: BibTeX, RIS, MEDLINE (nbib) and CSL-JSON.

Each format is read by a library for it; here its fields get the names of ``references.bib``. Abstracts, keywords, notes and
files are left behind. Formats: BibTeX; RIS as reference managers write it; MEDLINE display format of PubMed (National Library
of Medicine, field descriptions); CSL-JSON 1.0.2 (citationstyles.org).
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

#: Fields that are kept, in the order in which a record is written.
KEPT = (
    "author",
    "title",
    "journal",
    "booktitle",
    "editor",
    "edition",
    "publisher",
    "year",
    "volume",
    "number",
    "pages",
    "doi",
    "pmid",
    "pmcid",
    "url",
)
_DOI = re.compile(r"10\.[0-9]{4,9}/[^\s\"<>]+")
#: One of the two halves of which JSON may write a character, alone: it is no text.
_HALF = re.compile("[\ud800-\udfff]")
_YEAR = re.compile(r"\b(1[89]|20)[0-9]{2}\b")


class UnreadableExport(ValueError):
    """A text that is no export of a known kind. Arguments: what is wrong, what to do instead."""


@dataclass(frozen=True)
class ExportedRecord:
    """One work of an export; ``fields`` are named and written as in ``references.bib``, those that are not known left out."""

    type: str
    """``article``, ``book``, ``incollection`` or ``misc``."""
    fields: Mapping[str, str]
    unknown: tuple[str, ...] = field(default=())
    """What could not be taken over and why, as sentences."""


def read(text: str, name: str = "") -> list[ExportedRecord]:
    """All works of an export; ``name`` is its file's, which helps to tell the format. Raises ``UnreadableExport``."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    if not text.strip():
        raise UnreadableExport("the export is empty", "export the record again")
    found = _reader(text, name)(text)
    if not found:
        raise UnreadableExport("the export holds no record", "export at least one record")
    if _HALF.search("".join(value for record in found for value in record.fields.values())):
        raise UnreadableExport("half a character stands in it", "export it again as UTF-8")
    return found


def _reader(text: str, name: str) -> Callable[[str], list[ExportedRecord]]:
    if text.lstrip().startswith(("[", "{")):
        return _csl
    if name.endswith(".bib"):
        return _bibtex
    # Programs write remarks of their own before the first record.
    for begins, reader in _BEGINNINGS:
        if begins.search(text):
            return reader
    raise UnreadableExport(
        "this is none of the known exports",
        "save the record as BibTeX (.bib), RIS (.ris), PubMed format (.nbib) or CSL-JSON (.json)",
    )


def _kept(type: str, found: Iterable[tuple[str, str | None]]) -> ExportedRecord:
    """A record of what is known; identifiers are tidied, everything else becomes one line."""
    values = {name: " ".join(str(value).split()) for name, value in found if value}
    unknown = []
    if "doi" in values:
        doi = _DOI.search(values.pop("doi"))
        if doi:
            values["doi"] = (
                doi[0].rstrip(".,;)") if doi[0].count("(") == 0 else doi[0].rstrip(".,;")
            )
    if "pmcid" in values:
        number = re.search(r"[0-9]+", values.pop("pmcid"))
        if number:
            values["pmcid"] = f"PMC{number[0]}"
    if "year" in values:
        year = _YEAR.search(values.pop("year"))
        if year:
            values["year"] = year[0]
    if "pages" in values:
        values["pages"] = _pages(values["pages"])
    if "doi" in values or "pmid" in values:
        values.pop("url", None)  # the identifier leads there, for longer
    if "title" in values:
        values["title"] = values["title"].removesuffix(".")
    for name in ("title", "year", *(("author",) if type != "misc" else ())):
        if name not in values:
            unknown.append(f"the export has no {name}")
    ordered = {name: values[name] for name in KEPT if name in values}
    return ExportedRecord(type, ordered, tuple(unknown))


def _pages(written: str) -> str:
    """``469-77`` to ``469--477``; one page or an article number as it stands."""
    first, _, last = re.sub(r"\s*[-–—]+\s*", "-", written).partition("-")
    if first.isdigit() and last.isdigit() and len(last) < len(first):
        last = first[: len(first) - len(last)] + last
    return f"{first}--{last}" if last else first


def _person(family: str, given: str = "") -> str:
    """A name for BibTeX: ``Family, Given``, and a group in braces of its own."""
    family, given = family.strip(), given.strip()
    return f"{family}, {given}" if given else f"{{{family}}}" if " " in family else family


def _split(name: str) -> str:
    family, comma, given = name.partition(",")
    if comma:
        return _person(family, given)
    found = re.fullmatch(r"(.+?) ([A-Z]{1,4})", name.strip())  # MEDLINE: "Maeo S"
    return _person(found[1], " ".join(found[2])) if found else _person(name)


# --- BibTeX -----------------------------------------------------------------

_BIBTEX_TYPES = {
    "article": "article",
    "book": "book",
    "incollection": "incollection",
    "inbook": "incollection",
    "inproceedings": "incollection",
    "conference": "incollection",
}
_BIBTEX_NAMES = {"journaltitle": "journal", "date": "year", "issue": "number", "location": ""}


def _bibtex(text: str) -> list[ExportedRecord]:
    from ..catalog.bibliography.bibtex import parse

    records, problems = parse(text, has_remarks=True)
    if problems:
        first = problems[0]
        raise UnreadableExport(
            f"line {first.line}, column {first.column}: {first.message}", first.help
        )
    found = []
    for record in records:
        fields = {_BIBTEX_NAMES.get(f.name, f.name): f.value for f in record.fields}
        pairs: dict[str, str | None] = {name: fields.get(name) for name in KEPT}
        found.append(_kept(_BIBTEX_TYPES.get(record.type, "misc"), pairs.items()))
    return found


# --- RIS --------------------------------------------------------------------

_RIS_TYPES = {"JOUR": "article", "EJOUR": "article", "BOOK": "book", "CHAP": "incollection"}


def _ris(text: str) -> list[ExportedRecord]:
    import rispy
    from rispy.parser import ParseError

    try:
        works = rispy.loads(text, skip_unknown_tags=True)
    except (ParseError, OSError, ValueError, KeyError, IndexError, TypeError) as error:
        raise UnreadableExport(f"this is not RIS: {error}", "export it again as RIS") from error
    return [_ris_record(work) for work in works]


def _ris_record(work: Mapping[str, Any]) -> ExportedRecord:
    type = _RIS_TYPES.get(work.get("type_of_reference", ""), "misc")
    container = next(
        (
            work[name]
            for name in ("journal_name", "alternate_title3", "secondary_title", "alternate_title2")
            if work.get(name)
        ),
        None,
    )
    pages = "-".join(filter(None, (work.get("start_page"), work.get("end_page"))))
    people = work.get("authors") or work.get("first_authors") or []
    return _kept(
        type,
        [
            ("author", " and ".join(map(_split, people))),
            ("title", work.get("title") or work.get("primary_title")),
            ("journal" if type == "article" else "booktitle", container),
            ("editor", " and ".join(map(_split, work.get("secondary_authors") or []))),
            ("edition", work.get("edition")),
            ("publisher", work.get("publisher") if type != "article" else None),
            ("year", work.get("year") or work.get("publication_year") or work.get("date")),
            ("volume", work.get("volume")),
            ("number", work.get("number")),
            ("pages", pages or None),
            ("doi", work.get("doi")),
            ("url", next(iter(work.get("urls") or []), None)),
        ],
    )


# --- MEDLINE ----------------------------------------------------------------


def _medline(text: str) -> list[ExportedRecord]:
    import nbib
    from nbib.exceptions import MalformedLine, UnknownTagFormat

    try:
        works = nbib.read(text.strip("\n") + "\n\n")
    except (MalformedLine, UnknownTagFormat, ValueError, IndexError, KeyError) as error:
        raise UnreadableExport(
            f"this is not PubMed's format: {error}", "export it again, as PubMed format (.nbib)"
        ) from error
    return [_medline_record(work) for work in works]


def _medline_record(work: Mapping[str, Any]) -> ExportedRecord:
    people = [
        _person(one["last_name"], one["first_name"])
        if "last_name" in one
        else _split(one["author"])
        for one in work.get("authors", [])
    ]
    groups = work.get("corporate_author")
    return _kept(
        "article",
        [
            ("author", " and ".join([*people, *([_person(groups)] if groups else [])])),
            ("title", work.get("title")),
            ("journal", work.get("journal")),
            ("year", str(work.get("publication_date") or "")),
            ("volume", work.get("journal_volume")),
            ("number", work.get("journal_issue")),
            ("pages", work.get("pages")),
            ("doi", work.get("doi")),
            ("pmid", work.get("pubmed_id") and str(work["pubmed_id"])),
            ("pmcid", work.get("pmcid") and str(work["pmcid"])),
        ],
    )


# --- CSL-JSON ---------------------------------------------------------------

_CSL_TYPES = {"article-journal": "article", "book": "book", "chapter": "incollection"}


def _csl(text: str) -> list[ExportedRecord]:
    try:
        data = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise UnreadableExport(
            f"this is not JSON: {error}", "export it again as CSL-JSON"
        ) from error
    works = data if isinstance(data, list) else data.get("items", [data])
    if not isinstance(works, list) or not all(isinstance(work, dict) for work in works):
        raise UnreadableExport("this JSON is no list of works", "export it again as CSL-JSON")
    return [_csl_record(work) for work in works]


def _text(value: object) -> str | None:
    """One text out of what programs put there: lists hold it first, markup goes."""
    if isinstance(value, list):
        value = value[0] if value else None
    return re.sub(r"<[^<>]*>", "", str(value)) if isinstance(value, (str, int)) else None


def _csl_record(work: Mapping[str, Any]) -> ExportedRecord:
    type = _CSL_TYPES.get(str(work.get("type")), "misc")
    if work.get("type") == "journal-article":  # what registries of DOIs call it
        type = "article"
    issued = work.get("issued")
    parts = issued.get("date-parts") if isinstance(issued, dict) else None
    begun = parts[0] if isinstance(parts, list) and parts else None
    year = _text(begun) or _text(issued)

    def people(name: str) -> str:
        listed = work.get(name)
        return " and ".join(
            _person(
                " ".join(
                    filter(
                        None,
                        (_text(one.get("non-dropping-particle")), _text(one.get("family")) or ""),
                    )
                ),
                _text(one.get("given")) or "",
            )
            if one.get("family")
            else _person(_text(one.get("literal") or one.get("name")) or "")
            for one in (listed if isinstance(listed, list) else [])
            if isinstance(one, dict)
            and (one.get("family") or one.get("literal") or one.get("name"))
        )

    return _kept(
        type,
        [
            ("author", people("author")),
            ("title", _text(work.get("title"))),
            ("journal" if type == "article" else "booktitle", _text(work.get("container-title"))),
            ("editor", people("editor")),
            ("edition", _text(work.get("edition"))),
            ("publisher", _text(work.get("publisher")) if type != "article" else None),
            ("year", year),
            ("volume", _text(work.get("volume"))),
            ("number", _text(work.get("issue"))),
            ("pages", _text(work.get("page")) or _text(work.get("article-number"))),
            ("doi", _text(work.get("DOI"))),
            ("pmid", _text(work.get("PMID"))),
            ("pmcid", _text(work.get("PMCID"))),
            ("url", _text(work.get("URL"))),
        ],
    )


_BEGINNINGS = (
    (re.compile(r"^TY {1,2}- ", re.MULTILINE), _ris),
    (re.compile(r"^PMID *- ", re.MULTILINE), _medline),
    (re.compile(r"^[ \t]*@\w+\s*[{(]", re.MULTILINE), _bibtex),
)
