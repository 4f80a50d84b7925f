"""Everything in one JSON file: the entries as they were written, the references, and what was concluded.

It is published compressed, as it would be a tenth of the site. The form is bzip2's because every machine packs it into the same bytes;
builds of zlib differ.
"""

from __future__ import annotations

import bz2
import json
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from pydantic import BaseModel

from ...catalog.bibliography import csl
from ...catalog.bibliography.references import Reference
from ...committed import conclusions as committed
from ..context import RenderContext, once
from . import edition

URI = f"{edition.FOLDER}/handbook.json.bz2"
#: Key of the file -> what stands under it.
KEYS = {
    "edition": "Title, version, date, creator, licence and how to cite.",
    "exercises": "Id -> entry.",
    "muscles": "Id -> entry, with its parts.",
    "studies": "Key -> entry: people, arms, results and what was left out.",
    "references": "Key -> record in the form of CSL-JSON 1.0.2, with what was read.",
    "claims": "What was found of each claim of an exercise.",
    "pairs": "What was found of each two exercises, part by part.",
    "vocabulary": "The closed lists that ids come from.",
    "programme": "Doses, credits and equations.",
    "conventions": "Numbers that methods leave open, fixed here.",
}
#: What a record has beyond CSL-JSON.
REFERENCE_KEYS = {
    "read": "How much was read: full text, abstract, part of abstract, record or memory.",
    "read at": "Where it was read.",
    "to confirm": "What is still to be confirmed.",
    "notices": "Corrections, concerns and retractions that were seen, with their DOI.",
}


def content(shelf: RenderContext) -> bytes:
    """The file."""
    return bz2.compress(text(shelf))


def text(shelf: RenderContext) -> bytes:
    """The JSON itself."""
    return (json.dumps(data(shelf), ensure_ascii=False, separators=(",", ":")) + "\n").encode()


def data(shelf: RenderContext) -> dict[str, Any]:
    """What the file holds. Fields that an author left out are left out."""
    catalog = shelf.catalog
    return {
        "edition": edition.told(shelf),
        **{
            kind: {id: _entry(entry.data) for id, entry in getattr(catalog, kind).items()}
            for kind in ("exercises", "muscles", "studies")
        },
        "references": {key: _reference(one) for key, one in catalog.references.items()},
        "claims": claims(shelf),
        "pairs": pairs(shelf),
        "vocabulary": _entry(shelf.vocabulary),
        "programme": _entry(catalog.programme.data) if catalog.programme else None,
        "conventions": _entry(shelf.handbook.conventions),
    }


@once
def claims(shelf: RenderContext) -> list[dict[str, Any]]:
    """Every claim as the committed files tell it."""
    return [_plain(claim) for table in _tables(shelf) for claim in table.get("claims", ())]


@once
def pairs(shelf: RenderContext) -> list[dict[str, Any]]:
    """Every pair as the committed files tell it, with its part and outcome."""
    return [
        {**{k: v for k, v in field.items() if k in ("part", "outcome", "relative to")}, **pair}
        for table in _tables(shelf)
        for field in _plain(table.get("fields", []))
        for pair in field["comparisons"]
    ]


def _tables(shelf: RenderContext) -> list[Mapping[str, Any]]:
    return list(committed.tables(shelf.conclusions, shelf.catalog).values())


def _plain(value: Any) -> Any:
    """The same with numbers for decimals."""
    if isinstance(value, Decimal):
        return float(value)
    if isinstance(value, Mapping):
        return {key: _plain(item) for key, item in value.items()}
    return [_plain(item) for item in value] if isinstance(value, (list, tuple)) else value


def _entry(data: BaseModel) -> dict[str, Any]:
    return data.model_dump(mode="json", by_alias=True, exclude_defaults=True)


def _reference(reference: Reference) -> dict[str, Any]:
    more = {
        "read": reference.read,
        "read at": reference.readat,
        "to confirm": reference.recheck,
        "notices": [f"{notice.kind} {notice.doi}" for notice in reference.notices],
    }
    return csl.item(reference) | {key: value for key, value in more.items() if value}
