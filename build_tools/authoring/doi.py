"""The record of a DOI, asked of its registry by content negotiation (citation.crosscite.org): CSL-JSON from ``https://doi.org``."""

from __future__ import annotations

import re
from urllib.error import HTTPError, URLError
from urllib.parse import quote
from urllib.request import Request, urlopen

from .exports import UnreadableExport

ADDRESS = "https://doi.org/"
#: Seconds to wait, and the most bytes that a record may have.
PATIENCE, MOST_BYTES = 15, 2_000_000
_FORM = re.compile(r"10\.[0-9]{4,9}/\S+")


class NoRecord(ValueError):
    """Nothing could be had. Arguments: what is wrong, what to do instead."""


def fetch(doi: str, address: str = ADDRESS, patience: float = PATIENCE) -> str:
    """The record of a DOI as CSL-JSON. Raises ``NoRecord``."""
    bare = re.sub(r"^(https?://(dx\.)?doi\.org/|doi:\s*)", "", doi.strip(), flags=re.IGNORECASE)
    if not _FORM.fullmatch(bare):
        raise NoRecord(f"`{doi}` is no DOI", "write it as 10.1234/abc")
    asked = Request(
        address + quote(bare, safe="/();:._-"),
        headers={"Accept": "application/vnd.citationstyles.csl+json"},
    )
    offline = "save the record from the publisher's page and name its file instead"
    try:
        with urlopen(asked, timeout=patience) as answer:
            content = answer.read(MOST_BYTES + 1)
    except HTTPError as error:
        told = "is not registered" if error.code == 404 else f"was answered with {error.code}"
        raise NoRecord(f"the DOI {bare} {told}", offline) from error
    except (URLError, TimeoutError, OSError) as error:
        raise NoRecord(f"no answer within {patience:g} seconds: {error}", offline) from error
    if len(content) > MOST_BYTES:
        raise NoRecord("the answer is too long to be a record", offline)
    try:
        return str(content, "utf-8")
    except UnicodeDecodeError as error:
        raise UnreadableExport("the answer is no text in UTF-8", offline) from error
