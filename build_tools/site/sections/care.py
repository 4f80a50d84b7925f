"""Go-aheads, signs that need emergency help and signs to tell later, as pages show them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass

from ...catalog import care, entries
from ..context import Grounds, PageContext, RenderContext

#: Where the lines of all concerns stand together, and under which anchor.
URI, ANCHOR = "cautions.md", "by-concern"

Line = tuple[entries.CareLine, Grounds]


@dataclass(frozen=True)
class CareView:
    """The lines of some concerns, each with what it rests on."""

    everybody: list[str]
    """Signs that hold whatever the exercise; empty where they stand elsewhere on the page."""
    before: list[Line]
    help_at_once: list[Line]
    afterwards: list[Line]

    @property
    def headings(self) -> tuple[str, str, str]:
        """What heads the signs that need emergency help, the go-aheads, and what shows later."""
        return care.HELP_AT_ONCE, care.BEFORE, care.AFTERWARDS

    @property
    def lines(self) -> list[Line]:
        """All of them, in the order they are shown."""
        return [*self.help_at_once, *self.before, *self.afterwards]


def view(desk: PageContext, concerns: Collection[str], *, everybody: bool) -> CareView:
    """What a page shows for these concerns."""
    found = care.care(concerns, desk.shelf.vocabulary)
    return CareView(
        desk.shelf.handbook.notice.help_at_once if everybody else [],
        *(
            [(line, desk.grounds(line)) for line in lines]
            for lines in (found.before, found.help_at_once, found.afterwards)
        ),
    )


def signs(shelf: RenderContext) -> list[str]:
    """All signs that need emergency help: everybody's, then those of every concern."""
    found = care.care(shelf.vocabulary.concerns, shelf.vocabulary)
    return [*shelf.handbook.notice.help_at_once, *(line.say for line in found.help_at_once)]


def anchor(concern: str) -> str:
    """Where a concern stands on the page of all concerns."""
    return f"concern-{concern}"


def anchors(shelf: RenderContext) -> list[str]:
    """Those of all concerns."""
    return [anchor(concern) for concern in shelf.vocabulary.concerns]


@dataclass(frozen=True)
class ConcernView:
    """One concern on the page of all: what is meant, its lines, and how many exercises have a caution on it."""

    anchor: str
    name: str
    note: str | None
    care: CareView
    exercises: int
    find: str | None
    """Where the exercises without one are found, if the handbook has that page."""


def by_concern(desk: PageContext) -> list[ConcernView]:
    """Every concern, in the order of the vocabulary."""
    shelf = desk.shelf
    spoken = Counter(
        concern
        for entry in shelf.catalog.exercises.values()
        for concern in {c for caution in entry.data.cautions for c in caution.concerns}
    )
    find = desk.href("find.md") if shelf.catalog.programme else None
    return [
        ConcernView(
            anchor(id),
            concern.name,
            concern.note,
            view(desk, {id}, everybody=False),
            spoken[id],
            f"{find}?avoid={id}" if find and spoken[id] else None,
        )
        for id, concern in shelf.vocabulary.concerns.items()
    ]
