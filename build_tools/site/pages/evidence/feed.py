"""The feed of moved statements, in the form of Atom (RFC 4287): one entry a day, newest first.

Ids are UUIDs reckoned from the handbook's title, its owner and the day (RFC 4122, version 5), so that they are the same wherever the
handbook is published and a move of the site announces nothing twice. Links are absolute; without an address there are none, and
each entry holds its whole text, as section 4.1.1.1 asks of entries without a link.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from uuid import NAMESPACE_URL, UUID, uuid5

from ....catalog.walk import reviewed_entries
from ....committed.moves import Move, differing
from ....committed.record import ChangeDay
from ...addresses import url
from ...context import RenderContext
from ...escape import xml_text
from ...resource import Resource
from ...templating import render
from . import changes

#: Most days in the feed, and most sentences told in one of them; the page has all.
DAYS, STATEMENTS = 30, 25


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """The feed."""
    yield Resource(changes.FEED, feed)


def feed(shelf: RenderContext) -> bytes:
    """The feed as XML."""
    days = changes.days(shelf)[:DAYS]
    last = (
        days[0].day
        if days
        else max(entry.data.reviewed for entry in reviewed_entries(shelf.catalog))
    )
    return xml_text(
        render(
            "changes.atom.jinja",
            title=f"{shelf.handbook.title}: since last time",
            owner=shelf.handbook.owner,
            licence=shelf.handbook.licence,
            id=_id(shelf),
            updated=_time(last),
            at_self=shelf.site.at(changes.FEED),
            page=shelf.site.at(url(changes.URI)),
            entries=[_entry(shelf, day) for day in days],
        )
    ).encode()


def _entry(shelf: RenderContext, day: ChangeDay) -> dict[str, object]:
    page = shelf.site.at(url(changes.URI))
    moved = sorted(day.moved, key=lambda move: changes.WAYS.index(move.way))
    told = [_told(shelf, same) for same in changes.alike(moved)]
    return {
        "id": _id(shelf, day.day.isoformat()),
        "title": changes.headline(day),
        "updated": _time(day.day),
        "page": f"{page}#{changes.anchor(day.day)}" if page else None,
        "content": render(
            "changes_entry.html.jinja",
            note=day.note,
            moved=told[:STATEMENTS],
            more=len(told[STATEMENTS:]),
            new=len(day.new),
            gone=len(day.gone),
        ),
    }


def _told(shelf: RenderContext, same: list[Move]) -> dict[str, object]:
    """One sentence that moved, on one or several parts."""
    first = same[0]
    before, now = differing(first.before, first.now)
    return {
        "way": first.way,
        "on": f"{changes.pair(shelf, first)}: {first.outcome}",
        "places": [
            (changes.parts_of(shelf, move), _address(shelf, changes.place(shelf, move)))
            for move in same
        ],
        "now": now,
        "before": before,
        "why": changes.why(shelf, first),
    }


def _address(shelf: RenderContext, place: tuple[str, str | None] | None) -> str | None:
    at = shelf.site.at(url(place[0])) if place else None
    return f"{at}#{place[1]}" if at and place and place[1] else at


def _id(shelf: RenderContext, *of: str) -> str:
    handbook = shelf.handbook
    name: UUID = uuid5(NAMESPACE_URL, "\n".join([handbook.title, handbook.owner.name, *of]))
    return name.urn


def _time(day: date) -> str:
    return f"{day.isoformat()}T00:00:00Z"
