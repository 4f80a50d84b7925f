"""References: BibTeX records read with pybtex, typed, and formatted in one style.

Three fields beyond standard BibTeX say what was read, as the handbook must be
able to tell: ``read`` (``full text``, ``abstract``, ``part of abstract``,
``record`` or ``memory``), ``readat`` (where), ``recheck`` (what is still to be
confirmed). Standard tools ignore fields they do not know.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import quote

from .finding import Finding, Spot
from .source import MAX_BYTES

#: What can have been read of a reference, most first.
READ = ("full text", "abstract", "part of abstract", "record", "memory")
#: The bibliography is one file for all references, so it may be larger than an entry.
MAX_BIB_BYTES = 16 * MAX_BYTES


@dataclass(frozen=True)
class Reference:
    """One publication. Text fields are plain Unicode text without markup; absent fields are empty."""

    key: str
    type: str
    authors: tuple[tuple[str, str], ...]
    """(family name, initials without points) of each author, in order."""
    more_authors: bool
    """True when the record ends in "and others"."""
    title: str
    year: str
    journal: str
    volume: str
    number: str
    pages: str
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

    @property
    def link(self) -> str | None:
        """Where to read it: DOI, else PubMed, else PubMed Central, else an http(s) address."""
        if self.doi:
            return "https://doi.org/" + quote(self.doi, safe="/():;.-_")
        if self.pmid.isdigit():
            return f"https://pubmed.ncbi.nlm.nih.gov/{self.pmid}/"
        if re.fullmatch(r"PMC\d+", self.pmcid):
            return f"https://pmc.ncbi.nlm.nih.gov/articles/{self.pmcid}/"
        if re.fullmatch(r"https?://[^\s<>\"'\\]+", self.url):
            return self.url
        return None


def read_bibliography(path: Path, label: str) -> tuple[dict[str, Reference], list[Finding], set[str]]:
    """References of one BibTeX file by key, what is wrong with it, and keys that could not be read."""
    raise NotImplementedError
