"""Everything that a client opens: cue sheets, the handout page, and the worker that keeps them for use without a network."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from ..context import RenderContext, once
from ..resource import Resource
from . import cue_sheet, handout_page, offline


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """All pages and files."""
    exercises = list(shelf.catalog.exercises)
    sheets = [uri for id in exercises for uri in cue_sheet.uris(id, shelf.site)]
    anchors = {handout_page.PAGE: handout_page.anchors(exercises), offline.KEEP: exercises}
    for uri in [
        *sheets,
        handout_page.PAGE,
        *handout_page.uris(shelf),
        offline.KEEP,
        offline.KEEP_SCRIPT,
        offline.WORKER,
    ]:
        yield Resource(uri, partial(_file, uri=uri), anchors.get(uri, ()))


def _file(shelf: RenderContext, uri: str) -> bytes:
    return _made(shelf)[uri]


@once
def _made(shelf: RenderContext) -> dict[str, bytes]:
    """Made together: the worker's version follows from all that it keeps."""
    pages = [
        file for id in shelf.catalog.exercises for file in cue_sheet.files(shelf, id)
    ] + handout_page.files(shelf)
    return dict([*pages, *offline.files(shelf, pages)])
