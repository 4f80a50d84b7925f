"""Files of data beside the pages: BibTeX of what an exercise's page cites, and the JSON Schema of each kind of catalog file."""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import partial

from ...catalog import json_schema
from ..client import share
from ..context import RenderContext
from ..resource import Resource, finished
from . import exercise


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """All of them."""
    for id in shelf.catalog.exercises:
        if keys := exercise.cited(shelf, id):
            yield Resource(share.bibtex_uri(id), partial(share.bibtex, keys=keys))
    for kind in json_schema.KINDS:
        yield finished(
            f"data/schema/{kind}.json",
            (json.dumps(json_schema.schema(kind), indent=2, ensure_ascii=False) + "\n").encode(),
        )
