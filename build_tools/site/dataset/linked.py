"""The data set in the terms of schema.org, as JSON-LD 1.1: the set itself, its exercises, muscles, sources and claims.

An exercise is a ``DefinedTerm``: schema.org's plans and actions are of somebody who exercises. A claim is a ``Claim`` without any
rating, as a review of it would need. Works are ``ScholarlyArticle``, ``Book``, ``Chapter`` or ``CreativeWork``.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from ...catalog.bibliography.references import Reference
from ..addresses import url
from ..context import RenderContext
from . import edition, whole
from .edition import FOLDER, URI
from .tables import TABLES

FILE = f"{FOLDER}/handbook.jsonld"
Node = dict[str, Any]
#: Where the top of the site lies from the file, and from the page.
_TOP = {FILE: "../../", URI: "../"}
_TYPES = {"article": "ScholarlyArticle", "book": "Book", "incollection": "Chapter"}
#: The set of the exercises' terms.
_TERMS = "exercises/"


def content(shelf: RenderContext) -> bytes:
    """The file."""
    graph = [
        dataset(shelf),
        {"@type": "DefinedTermSet", "@id": _TERMS, "name": f"{shelf.handbook.title}: exercises"},
        *_exercises(shelf),
        *_muscles(shelf),
        *(_work(reference) for reference in shelf.catalog.references.values()),
        *_claims(shelf),
    ]
    document = {"@context": _context(shelf, FILE), "@graph": graph}
    return (json.dumps(document, ensure_ascii=False, separators=(",", ":")) + "\n").encode()


def of_page(shelf: RenderContext) -> str:
    """The set alone, for the page: JSON in which no character can end the element around it."""
    text = json.dumps({"@context": _context(shelf, URI), **dataset(shelf)}, ensure_ascii=True)
    for mark in "<>&":
        text = text.replace(mark, f"\\u{ord(mark):04x}")
    return text


def dataset(shelf: RenderContext) -> Node:
    """The set with its files."""
    handbook, told = shelf.handbook, edition.told(shelf)
    owner: Node = {"@type": "Organization", "name": handbook.owner.name}
    if handbook.owner.url:
        owner["url"] = handbook.owner.url
    files = [(whole.URI, "application/x-bzip2"), (FILE, "application/ld+json")]
    files += [(table.uri, "text/csv") for table in TABLES]
    return {
        "@type": "Dataset",
        "@id": url(URI),
        "name": f"{handbook.title}: catalog and conclusions",
        "description": handbook.tagline,
        "url": url(URI),
        "version": told["version"],
        "datePublished": told["date"],
        "license": edition.LICENCES.get(
            handbook.licence, {"@type": "CreativeWork", "name": handbook.licence}
        ),
        "creator": owner,
        "creditText": told["cite"],
        "isAccessibleForFree": True,
        "distribution": [
            {"@type": "DataDownload", "contentUrl": uri, "encodingFormat": form}
            for uri, form in files
        ],
    }


def _context(shelf: RenderContext, uri: str) -> list[Any]:
    at = shelf.site.url
    return ["https://schema.org/", {"@base": f"{at.rstrip('/')}/" if at else _TOP[uri]}]


def _exercises(shelf: RenderContext) -> Iterator[Node]:
    for id, entry in shelf.catalog.exercises.items():
        at = url(f"exercises/{id}.md")
        yield {
            "@type": "DefinedTerm",
            "@id": at,
            "termCode": id,
            **_named(entry.data.name, entry.data.also_called),
            "url": at,
            "inDefinedTermSet": {"@id": _TERMS},
        }


def _muscles(shelf: RenderContext) -> Iterator[Node]:
    for id, entry in shelf.catalog.muscles.items():
        parts = {f"{id}/{part}": data for part, data in entry.data.parts.items()}
        yield {
            "@type": "Muscle",
            "@id": url(f"muscles/{id}.md"),
            **_named(entry.data.name, [entry.data.everyday, *entry.data.also_called]),
            "description": entry.data.summary,
            "subStructure": [{"@id": url(f"muscles/{ref}.md")} for ref in parts],
        }
        for ref, data in parts.items():
            yield {
                "@type": "AnatomicalStructure",
                "@id": url(f"muscles/{ref}.md"),
                **_named(data.name, [data.everyday, *data.also_called]),
            }


def _named(name: str, also: list[str]) -> Node:
    others = [one for one in dict.fromkeys(also) if one != name]
    return {"name": name, **({"alternateName": others} if others else {})}


def _work(reference: Reference) -> Node:
    r = reference
    told: Node = {}
    if r.authors:
        told["author"] = [
            {"@type": "Person", "name": " ".join(filter(None, name))} for name in r.authors
        ]
    if r.journal:
        told["isPartOf"] = {"@type": "Periodical", "name": r.journal}
    elif r.booktitle:
        told["isPartOf"] = {"@type": "Book", "name": r.booktitle}
    if r.doi:
        told["identifier"] = {"@type": "PropertyValue", "propertyID": "DOI", "value": r.doi}
    if r.link:
        told["sameAs"] = r.link
    return {
        "@type": _TYPES.get(r.type, "CreativeWork"),
        "@id": _source(r.key),
        "name": r.title,
        "datePublished": r.year,
        **told,
    }


def _claims(shelf: RenderContext) -> Iterator[Node]:
    for claim in whole.claims(shelf):
        exercise, _, number = claim["claim"].partition("/")
        parts = [part["part"] for part in claim["parts"]]
        keys = sorted({key for part in claim["parts"] for key in part.get("rests on", ())})
        at = url(f"exercises/{exercise}.md")
        yield {
            "@type": "Claim",
            "@id": f"{at}#claim-{number}",
            "text": claim["sentence"],
            "about": [{"@id": at}, *({"@id": url(f"muscles/{ref}.md")} for ref in parts)],
            **({"citation": [{"@id": _source(key)} for key in keys]} if keys else {}),
        }


def _source(key: str) -> str:
    return url(f"sources/{key}.md")
