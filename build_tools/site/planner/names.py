"""What the boxes of Find and Compare know: everything with a name, and its other names. ``data/names.json``::

{"exercises": {id: [name, other name, ...]},
 "places": {muscle or part: [name, "Latin or everyday name, shown beside it", other name, ...]},   # muscle by muscle, itself first
 "addresses": {muscle or part: address}}                                                          # from the top of the site
"""

from __future__ import annotations

from typing import Any

from ...english import upper_first
from ..context import RenderContext
from ..map.cell import part_head


def names(shelf: RenderContext) -> dict[str, Any]:
    """The names as JSON values."""
    desk = shelf.at("index.md")
    refs = [
        ref
        for muscle, entry in shelf.catalog.muscles.items()
        for ref in (muscle, *(f"{muscle}/{part}" for part in entry.data.parts))
    ]
    heads = [part_head(desk, ref) for ref in refs]
    return {
        "exercises": {
            id: [entry.data.name, *entry.data.also_called]
            for id, entry in sorted(shelf.catalog.exercises.items(), key=lambda e: e[1].data.name)
        },
        "places": {
            head.ref: [head.name, head.other, *_others(shelf, head.ref, {head.name, head.other})]
            for head in heads
        },
        "addresses": {head.ref: head.href for head in heads},
    }


def _others(shelf: RenderContext, ref: str, shown: set[str]) -> list[str]:
    """Names that are not shown: everyday, Latin, as it is said in a sentence, and what people search for."""
    named = shelf.catalog.part(ref)
    assert named is not None, ref
    known = [
        named.name,
        named.everyday,
        getattr(named, "latin", None),
        shelf.names.part(ref).removeprefix("the "),
        *named.also_called,
    ]
    seen = {name.casefold() for name in shown}
    found: list[str] = []
    for name in filter(None, known):
        if name.casefold() not in seen:
            seen.add(name.casefold())
            found.append(upper_first(name))
    return found
