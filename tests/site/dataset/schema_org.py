"""The names of schema.org that the data may use, and a context made of them, so that no test asks the network.

The list is ours, written down from schema.org's pages of the types named (release 29 and before): each type with those of its own and
inherited properties that a data set like this could use. In the published context names are resolved against schema.org, and a property
whose values are addresses only has ``"@type": "@id"``.
"""

from __future__ import annotations

from typing import Any

VOCABULARY = "http://schema.org/"
_THING = {"name", "alternateName", "description", "identifier", "image", "sameAs", "url"}
_WORK = _THING | {
    "about", "author", "citation", "creator", "creditText", "datePublished", "inLanguage", "isAccessibleForFree",
    "isBasedOn", "isPartOf", "license", "publisher", "text", "version",
}  # fmt: skip
_STRUCTURE = _THING | {"bodyLocation", "connectedTo", "partOfSystem", "subStructure"}
#: Type -> its properties.
TYPES: dict[str, set[str]] = {
    "AnatomicalStructure": _STRUCTURE,
    "Book": _WORK | {"bookEdition", "isbn"},
    "Chapter": _WORK | {"pageStart", "pageEnd", "pagination"},
    "Claim": _WORK | {"appearance", "claimInterpreter", "firstAppearance"},
    "CreativeWork": _WORK,
    "DataDownload": _WORK | {"contentSize", "contentUrl", "encodingFormat"},
    "Dataset": _WORK | {"distribution", "measurementTechnique", "variableMeasured"},
    "DefinedTerm": _THING | {"inDefinedTermSet", "termCode"},
    "DefinedTermSet": _WORK | {"hasDefinedTerm"},
    "Muscle": _STRUCTURE | {"antagonist", "bloodSupply", "insertion", "muscleAction", "nerve"},
    "Organization": _THING | {"legalName"},
    "Periodical": _WORK | {"issn"},
    "Person": _THING | {"familyName", "givenName"},
    "PropertyValue": _THING | {"propertyID", "value"},
    "ScholarlyArticle": _WORK | {"pagination"},
}
_ADDRESSES = {"contentUrl", "license", "sameAs", "url"}


def context() -> dict[str, Any]:
    """The context: only names of the list mean anything, so that another is lost in the expansion."""
    properties = sorted(set.union(*TYPES.values()))
    terms: dict[str, Any] = {name: f"{VOCABULARY}{name}" for name in TYPES}
    for name in properties:
        typed = {"@type": "@id"} if name in _ADDRESSES else {}
        terms[name] = {"@id": f"{VOCABULARY}{name}", **typed}
    return {"@context": terms}
