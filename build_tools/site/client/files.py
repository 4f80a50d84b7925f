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
    for id in exercises:
        for uri in cue_sheet.uris(id, shelf.site):
            yield Resource(uri, partial(_of_sheet, id=id, uri=uri))
    anchors = handout_page.anchors(exercises)
    for uri in [handout_page.PAGE, *handout_page.uris(shelf)]:
        yield Resource(
            uri, partial(_of_handout, uri=uri), anchors if uri == handout_page.PAGE else ()
        )
    for uri in (offline.KEEP, offline.KEEP_SCRIPT, offline.WORKER):
        yield Resource(uri, partial(_to_keep, uri=uri), exercises if uri == offline.KEEP else ())


def _of_sheet(shelf: RenderContext, id: str, uri: str) -> bytes:
    return _sheet(shelf, id)[uri]


def _of_handout(shelf: RenderContext, uri: str) -> bytes:
    return _handout(shelf)[uri]


def _to_keep(shelf: RenderContext, uri: str) -> bytes:
    return _kept(shelf)[uri]


@once
def _sheet(shelf: RenderContext, id: str) -> dict[str, bytes]:
    return dict(cue_sheet.files(shelf, id))


@once
def _handout(shelf: RenderContext) -> dict[str, bytes]:
    return dict(handout_page.files(shelf))


@once
def _kept(shelf: RenderContext) -> dict[str, bytes]:
    """Made after all others: the worker's version follows from all that it keeps."""
    sheets = [file for id in shelf.catalog.exercises for file in _sheet(shelf, id).items()]
    return dict(offline.files(shelf, [*sheets, *_handout(shelf).items()]))
