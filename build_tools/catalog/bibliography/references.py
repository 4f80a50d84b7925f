"""References: BibTeX records read with pybtex, typed and checked for their form.

Four types of record are known: ``article``, ``book``, ``incollection`` (a
chapter) and ``misc`` (a report, a standard, a web page). Four fields beyond
standard BibTeX are ours: three say what was read, as the handbook must be able to tell:
``read`` (one of ``READ``), ``readat`` (where) and ``recheck`` (what is still to
be confirmed); ``notice`` holds corrections, concerns and retractions. Standard tools ignore fields they do not know.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple
from urllib.parse import quote

from ..complaints import did_you_mean
from ..entries import KEY_PATTERN, PLAIN
from ..finding import Finding, Spot
from ..misread import as_id
from ..yaml_file import MAX_BYTES, read_text

if TYPE_CHECKING:
    from .bibtex import Record, RecordField

#: What can have been read of a reference, most first.
READ = ("full text", "abstract", "part of abstract", "record", "memory")
#: The bibliography is one file for all references, so it may be larger than an entry.
MAX_BIB_BYTES = 16 * MAX_BYTES
#: Stands among the broken keys when the file itself cannot be read; no key can look like it.
WHOLE_FILE = "references.bib"
WEB_ADDRESS = re.compile(r"https?://[^\s<>\"'\\]+")

#: Type of record -> fields it must have beyond those of every record.
_TYPES = {
    "article": ("journal",),
    "book": ("publisher",),
    "incollection": ("booktitle", "publisher"),
    "misc": (),
}
_REQUIRED = ("author", "title", "year")
#: Fields for everybody, in the order of the download.
_STANDARD = (
    "author",
    "title",
    "journal",
    "booktitle",
    "editor",
    "edition",
    "publisher",
    "year",
    "month",
    "volume",
    "number",
    "pages",
    "isbn",
    "issn",
    "doi",
    "pmid",
    "pmcid",
    "url",
)
_OWN = ("read", "readat", "recheck", "notice")
#: What can have been published on a work since: a correction, an expression of concern, a retraction.
NOTICES = ("correction", "concern", "retraction")
_NOTICE = re.compile(rf"({'|'.join(NOTICES)}) (10\.[0-9]{{4,9}}/[^\s;]+)")
#: What else to know about a field that is missing.
_ALSO = {
    "author": " or, when the list could not be seen, say so in `recheck`",
    "read": f" with one of: {', '.join(READ)}",
}
#: Addresses and numbers: taken as they stand, apart from TeX's escapes.
_VERBATIM = {"doi", "url", "pmid", "pmcid"}
_PEOPLE = {"author", "editor"}

Name = tuple[str, str]
"""Family name (or the whole name of a group), and initials without points, then any "Jr" after a space."""


class PublishedNotice(NamedTuple):
    """What was published on a work since."""

    kind: str
    """One of ``NOTICES``."""
    doi: str


@dataclass(frozen=True)
class Reference:
    """One publication. Text fields are plain Unicode text without markup; absent fields are empty."""

    key: str
    type: str
    authors: tuple[Name, ...]
    """Empty when the list could not be seen; ``recheck`` then says so."""
    more_authors: bool
    """True when the record ends in "and others"."""
    title: str
    year: str
    journal: str
    volume: str
    number: str
    pages: str
    """First and last page with an en dash between, or one page or article number."""
    publisher: str
    doi: str
    pmid: str
    pmcid: str
    url: str
    read: str
    readat: str
    recheck: str
    spot: Spot
    bibtex: str
    """The record as BibTeX, for download."""
    booktitle: str = ""
    edition: str = ""
    editors: tuple[Name, ...] = ()
    notices: tuple[PublishedNotice, ...] = ()
    """Corrections, concerns and retractions that were seen."""
    fields: Mapping[str, Spot] = dataclasses.field(default_factory=dict, compare=False, repr=False)
    """Where each field of the record stands."""

    def place(self, name: str) -> Spot:
        """Where a field stands, or the record if it has none of that name."""
        return self.fields.get(name, self.spot)

    @property
    def retracted(self) -> bool:
        """Whether it was taken back: it may then be cited only as retracted, and its numbers count for nothing."""
        return any(notice.kind == "retraction" for notice in self.notices)

    @property
    def link(self) -> str | None:
        """Where to read it: DOI, else PubMed, else PubMed Central, else an http(s) address."""
        if self.doi:
            return "https://doi.org/" + quote(self.doi, safe="/():;.-_")
        if re.fullmatch(r"[0-9]+", self.pmid):
            return f"https://pubmed.ncbi.nlm.nih.gov/{self.pmid}/"
        if re.fullmatch(r"PMC[0-9]+", self.pmcid):
            return f"https://pmc.ncbi.nlm.nih.gov/articles/{self.pmcid}/"
        return self.url if WEB_ADDRESS.fullmatch(self.url) else None


def read_bibliography(
    path: Path, label: str, memory: dict[str, tuple[str, dict[str, Reference]]] | None = None
) -> tuple[dict[str, Reference], list[Finding], set[str]]:
    """References of one BibTeX file by key, what is wrong with it, and keys that could not be read.

    ``memory`` holds label -> text and references of a sound file as it was read last; what is the same is not read anew.
    A file that cannot be read at all leaves ``WHOLE_FILE`` among the broken keys. Never raises.
    """
    if not path.exists():
        return (
            {},
            [
                Finding(
                    "missing-file",
                    Spot(label, 1, 1),
                    "there is no bibliography here",
                    "every catalog has a references.bib; it may be empty",
                )
            ],
            {WHOLE_FILE},
        )
    text, finding = read_text(
        path,
        label,
        MAX_BIB_BYTES,
        "keep only works that the catalog cites, without their abstracts",
    )
    if finding:
        return {}, [finding], {WHOLE_FILE}
    memory = {} if memory is None else memory
    known = memory.get(label)
    if known and known[0] == text:
        return known[1], [], set()
    references, findings, broken = read_records(text, label)
    if not findings and not broken:
        memory[label] = text, references
    return references, findings, broken


def read_records(text: str, label: str) -> tuple[dict[str, Reference], list[Finding], set[str]]:
    """The same of a file's text."""
    from .bibtex import parse  # pybtex takes longer to import than a small catalog to read

    records, problems = parse(text)
    findings = [
        Finding("bibtex-syntax", Spot(label, p.line, p.column), p.message, p.help) for p in problems
    ]
    broken = {problem.key or WHOLE_FILE for problem in problems}
    references: dict[str, Reference] = {}
    for record in records:
        if record.key in references:
            first = references[record.key].spot
            findings.append(
                Finding(
                    "duplicate-key",
                    Spot(label, record.key_line, record.key_column),
                    f"the key `{record.key}` is taken by the record on line {first.line}",
                    "delete one if they are the same work; otherwise end this key with a letter: smith2024b",
                )
            )
            continue
        reference, wrong = _typed(record, label)
        findings += wrong
        if reference:
            references[record.key] = reference
        else:
            # The key it was probably meant to have is not called unknown all over the catalog.
            broken |= {record.key, as_id(record.key, "") or record.key}
    return dict(sorted(references.items())), findings, broken - set(references)


def _typed(record: Record, label: str) -> tuple[Reference | None, list[Finding]]:
    from .names import BadName, names
    from .tex import NotText, plain_text

    here = Spot(label, record.line, record.column)
    findings = list(_form(record, label))
    values: dict[str, str] = {}
    people: dict[str, tuple[tuple[Name, ...], bool]] = {}
    for field in record.fields:
        try:
            if field.name in _PEOPLE:
                people[field.name] = names(field.value)
                text = " ".join(part for name in people[field.name][0] for part in name)
            else:
                text = values[field.name] = (
                    _verbatim(field.value) if field.name in _VERBATIM else plain_text(field.value)
                )
        except (NotText, BadName) as error:
            findings.append(_field_finding(label, field, *error.args))
            continue
        findings += _value(field, text, label)
    if findings:
        return None, findings
    authors, more = people.get("author", ((), False))
    kept = (
        "title",
        "year",
        "journal",
        "volume",
        "number",
        "publisher",
        "doi",
        "pmid",
        "pmcid",
        "url",
        "read",
        "readat",
        "recheck",
        "booktitle",
        "edition",
    )
    return Reference(
        key=record.key,
        type=record.type,
        authors=authors,
        more_authors=more,
        editors=people.get("editor", ((), False))[0],
        notices=tuple(
            PublishedNotice(*found) for found in _NOTICE.findall(values.get("notice", ""))
        ),
        pages=re.sub(r"\s*[-–—]+\s*", "–", values.get("pages", "")),
        spot=here,
        bibtex=_download(record),
        fields={field.name: Spot(label, field.line, field.column) for field in record.fields},
        **{name: values.get(name, "") for name in kept},
    ), []


def _form(record: Record, label: str) -> Iterator[Finding]:
    """What is wrong with the record's type, key and choice of fields."""
    here = Spot(label, record.line, record.column)
    if not re.fullmatch(KEY_PATTERN, record.key) or len(record.key) > 64:
        yield Finding(
            "bad-key",
            Spot(label, record.key_line, record.key_column),
            f"`{record.key}` cannot be a key",
            f"use small letters and digits, a letter first: {as_id(record.key, '') or 'smith2024'}",
        )
    if record.type not in _TYPES:
        yield Finding(
            "wrong-value",
            here,
            f"`@{record.type}` is not a type of record",
            did_you_mean(record.type, list(_TYPES))
            or f"write one of: {', '.join('@' + name for name in _TYPES)}",
        )
    seen: set[str] = set()
    for field in record.fields:
        if field.name in seen:
            yield Finding(
                "duplicate-key",
                Spot(label, field.line, field.column),
                f"the field `{field.name}` stands here a second time",
                "keep one of the two",
            )
        elif field.name not in _STANDARD + _OWN:
            yield Finding(
                "unknown-key",
                Spot(label, field.line, field.column),
                f"unknown field `{field.name}`",
                did_you_mean(field.name, [*_STANDARD, *_OWN])
                or f"take it out, or write one of: {', '.join(_STANDARD + _OWN)}",
            )
        seen.add(field.name)
    for name in (*_REQUIRED, *_TYPES.get(record.type, ()), "read"):
        # Nobody may invent an author list that was not seen; the record then has to say so.
        if name not in seen and not (name == "author" and "recheck" in seen):
            yield Finding(
                "missing-key",
                here,
                f"`{record.key}` has no `{name}`",
                f"add: {name} = {{...}}," + _ALSO.get(name, ""),
            )


def _value(field: RecordField, text: str, label: str) -> Iterator[Finding]:
    """What is wrong with the text of one field."""
    if not text:
        yield _field_finding(label, field, "is empty", "fill it in, or remove the field")
    elif not re.fullmatch(f"{PLAIN}+", text):
        yield _field_finding(
            label,
            field,
            "has markup or invisible characters",
            "write it without < and >; leave out a DOI that has them, and give the pmid",
        )
    elif field.name == "year" and not re.fullmatch(r"[12][0-9]{3}", text):
        yield _field_finding(
            label, field, f"cannot be `{text}`", "write the year of publication in four digits"
        )
    elif field.name == "read" and text not in READ:
        yield _field_finding(
            label, field, f"cannot be `{text}`", f"write one of: {', '.join(READ)}"
        )
    elif field.name == "notice" and not all(
        _NOTICE.fullmatch(notice) for notice in re.split(r"; *", text)
    ):
        yield _field_finding(
            label,
            field,
            f"cannot be `{text}`",
            "write the kind and its DOI, several with a semicolon between: "
            "correction 10.1000/xyz123. Kinds: " + ", ".join(NOTICES),
        )
    elif field.name == "url" and not WEB_ADDRESS.fullmatch(text):
        yield _field_finding(
            label,
            field,
            f"`{text}` is not a web address",
            "write a full address that starts with https://",
        )


def _field_finding(label: str, field: RecordField, message: str, help: str) -> Finding:
    return Finding(
        "wrong-value", Spot(label, field.line, field.column), f"`{field.name}` {message}", help
    )


def _verbatim(value: str) -> str:
    return re.sub(r"\\([_%&#~])", r"\1", " ".join(value.split()))


def _download(record: Record) -> str:
    """The record as anyone's BibTeX: known order, one field a line, without the handbook's own fields."""
    values = {field.name: " ".join(field.value.split()) for field in record.fields}
    lines = [f"@{record.type}{{{record.key},"]
    for name in _STANDARD:
        if name in values:
            value = (
                values[name]
                if name in _VERBATIM
                else re.sub(r"(?<!\\)([&%#])", r"\\\1", values[name])
            )
            lines.append(f"  {name} = {{{value}}},")
    return "\n".join([*lines, "}", ""])
