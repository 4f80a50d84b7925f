"""References as CSL-JSON, the form that citation programs share.

Fields and types are those of the CSL 1.0.2 specification (citationstyles.org), appendices III and IV: a group's name is
``literal``, the number of an article without pages is ``number``.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable

from .apa import pointed
from .references import Name, Reference
from .remarks import remarks

#: Type of record -> type of item.
_TYPES = {
    "article": "article-journal",
    "book": "book",
    "incollection": "chapter",
    "misc": "document",
}


def text(references: Iterable[Reference]) -> str:
    """The references as one JSON list, in the order given."""
    items = [item(reference) for reference in references]
    return json.dumps(items, ensure_ascii=False, separators=(",", ":")) + "\n"


def item(reference: Reference) -> dict[str, object]:
    """One reference. What is not known is left out."""
    r = reference
    is_article_number = re.fullmatch(r"[A-Za-z]+[0-9]+", r.pages)
    fields = {
        "id": r.key,
        "type": _TYPES[r.type],
        "author": [_name(name) for name in r.authors],
        "title": r.title,
        "container-title": r.journal or r.booktitle,
        "editor": [_name(name) for name in r.editors],
        "edition": r.edition,
        "publisher": r.publisher,
        "issued": {"date-parts": [[int(r.year)]]},
        "volume": r.volume,
        "issue": r.number,
        "number" if is_article_number else "page": r.pages.replace("–", "-"),
        "DOI": r.doi,
        "PMID": r.pmid,
        "PMCID": r.pmcid,
        "URL": r.url or ("" if r.doi else r.link),
        "note": "; ".join(remarks(r)),
    }
    return {name: value for name, value in fields.items() if value}


def _name(name: Name) -> dict[str, str]:
    family, (given, suffix) = name[0], pointed(name[1])
    if not given:
        return {"literal": family}
    return {"family": family, "given": given, **({"suffix": suffix} if suffix else {})}
