"""Files of data beside the pages: the records of all sources, and the JSON Schema of each kind of catalog file.

Those of one source, or of one page, are taken out of them in the reader's browser (``scripts/records.js``).
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator
from typing import Any

from ...catalog.bibliography import apa as referencing
from ...catalog.bibliography import csl, ris
from ...catalog.bibliography.references import Reference
from ...catalog.schema import json_schema
from ...catalog.schema.known_words import known_words
from ..context import Link, PageContext, RenderContext
from ..plots import curves
from ..resource import Resource, finished
from ..sections.labels import read_of
from ..templating import day, lean, render

#: Ending of a file of records -> what its form is called, and how it is written.
FORMS: dict[str, tuple[str, Callable[[Iterable[Reference]], str]]] = {
    "bib": ("BibTeX", lambda references: "\n".join(one.bibtex for one in references)),
    "ris": ("RIS", ris.text),
    "json": ("CSL-JSON", csl.text),
}

#: What ``figure.js`` makes files of drawings with: ``{"style", "colours": {name: colour}, "curves": [what they rest on], "from"}``.
FIGURES = "data/figure.json"
#: What ``share.js`` needs to cite any statement: ``{"title", "owner", "licence", "reviewed": day in words, "references": {key: [reference,
#: what was read of it]}}``.
CITATIONS = "data/citations.json"


def uri(form: str) -> str:
    """Where the records of all sources stand in one of ``FORMS``."""
    return f"data/references.{form}"


def downloads(desk: PageContext) -> list[Link]:
    """The way to the records of all sources in every form."""
    return [Link(name, desk.href(uri(form))) for form, (name, _) in FORMS.items()]


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """All of them."""
    references = shelf.catalog.references
    for form, (_, write) in FORMS.items():
        yield finished(uri(form), write(references.values()).encode())
    yield Resource(CITATIONS, _citations)
    yield Resource(FIGURES, _figures)
    yield from _schemas(shelf)


def _schemas(shelf: RenderContext) -> Iterator[Resource]:
    """Those of all kinds, and the lists of ids that they offer."""
    known, at = known_words(shelf.catalog), shelf.site.at("data/schema/") or ""
    made = {
        f"{kind}.json": json_schema.schema(kind, known, at, json_schema.LISTS)
        for kind in json_schema.KINDS
    }
    for file, data in {**made, json_schema.LISTS: json_schema.known_lists(known, at)}.items():
        yield finished(f"data/schema/{file}", _json(data))


def _figures(shelf: RenderContext) -> bytes:
    handbook, colours = shelf.handbook, {**shelf.palette.light, **shelf.palette.file}
    told = {
        "style": lean(render("drawings.css")),
        "colours": {f"hb-{role}": colour for role, colour in colours.items()},
        "curves": f"Sources: {'; '.join(curves.credits(shelf))}.",
        "from": f"From: {handbook.title}, {handbook.owner.name}. Licence: {handbook.licence}.",
    }
    return _json(told)


def _citations(shelf: RenderContext) -> bytes:
    catalog, handbook = shelf.catalog, shelf.handbook
    days = [entry.data.reviewed for entry in catalog.exercises.values()]
    days += [entry.data.reviewed for entry in catalog.muscles.values()]
    told = {
        "title": handbook.title,
        "owner": handbook.owner.name,
        "licence": handbook.licence,
        "reviewed": day(max(days)),
        "references": {
            key: [referencing.plain(reference, shelf.letters[key]), read_of(reference.read)]
            for key, reference in catalog.references.items()
        },
    }
    return _json(told)


def _json(value: Any) -> bytes:
    return (json.dumps(value, ensure_ascii=False, separators=(",", ":")) + "\n").encode()
