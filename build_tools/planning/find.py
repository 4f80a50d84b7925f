"""Finding exercises: the reference of what the page Find shows. It reads the published data (see ``data``), as the page does."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from typing import Any

#: Kinds of evidence that can be asked for.
KINDS = ("growth", "activation", "length", "taught")
#: The value of ``has`` that means the body alone.
NOTHING = "none"


@dataclass(frozen=True)
class Query:
    """What is looked for; a field left empty asks nothing. The names of the fields are the keys of the page's address."""

    part: str = ""
    """A part, or a whole muscle: any of its parts."""
    kind: str = ""
    """One of ``KINDS``: the kind of evidence that puts the exercise ahead on the part, or on any part where none is given."""
    has: frozenset[str] = frozenset()
    """The equipment at hand; ``NOTHING`` alone for the body alone."""
    position: str = ""
    sides: str = ""
    avoid: frozenset[str] = frozenset()
    """Concerns that no caution may speak of."""
    name: str = ""
    """Words that all stand in the name or another name."""


def find(data: Mapping[str, Any], query: Query) -> list[str]:
    """The exercises that fit: with one part in its order, then those of half a set by name; else all by name."""
    found = {id for id, exercise in data["exercises"].items() if _fits(data, exercise, query)}
    by_name = sorted(found, key=lambda id: (data["exercises"][id]["name"], id))
    ordered = [id for place in data["orders"].get(query.part, ()) for id in place["exercises"] if id in found]
    return ordered + [id for id in by_name if id not in ordered]


def relaxed(data: Mapping[str, Any], query: Query) -> dict[str, int]:
    """Field -> how many exercises fit once it alone asks nothing; only fields that help, in the order of ``Query``."""
    empty = Query()
    asked = [field.name for field in fields(Query) if getattr(query, field.name) != getattr(empty, field.name)]
    counts = {name: len(find(data, replace(query, **{name: getattr(empty, name)}))) for name in asked}
    return {name: count for name, count in counts.items() if count}


def parts(data: Mapping[str, Any], ref: str) -> list[str]:
    """A part itself, or all parts of a muscle."""
    return data["muscles"][ref]["parts"] if ref in data["muscles"] else [ref]


def folded(text: str) -> str:
    """Text without accents and capitals."""
    return "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.category(c).startswith("M")).lower()


def _fits(data: Mapping[str, Any], exercise: Mapping[str, Any], query: Query) -> bool:
    credited = [p for p in parts(data, query.part) if p in exercise["credits"]] if query.part else list(exercise["credits"])
    names = folded(" ".join([exercise["name"], *exercise["also"]]))
    return (
        bool(credited or not query.part)
        and (not query.kind or any(_ahead(exercise, part, query.kind) for part in credited))
        and (not query.has or set(exercise["equipment"]) <= query.has)
        and query.position in ("", exercise["position"])
        and query.sides in ("", exercise["sides"])
        and not query.avoid & set(exercise["concerns"])
        and all(word in names for word in folded(query.name).split()))


def _ahead(exercise: Mapping[str, Any], part: str, kind: str) -> bool:
    if kind == "length":
        length = exercise["lengths"].get(part)
        return bool(length and length["hard"] and length["word"] == "long")
    return kind in exercise["best"].get(part, {})
