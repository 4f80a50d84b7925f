"""Go-aheads and signs that need emergency help, as pages show them."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from ...catalog import care, entries
from ..context import Grounds, PageContext

#: Where the lines of all concerns stand together, and under which anchor.
URI, ANCHOR = "cautions.md", "by-concern"

Line = tuple[entries.CareLine, Grounds]


@dataclass(frozen=True)
class CareView:
    """The lines of some concerns, each with what it rests on."""

    everybody: str | None
    """Signs that hold whatever the exercise; ``None`` where they stand elsewhere on the page."""
    before: list[Line]
    help_at_once: list[Line]

    @property
    def headings(self) -> tuple[str, str]:
        """What heads the signs that need emergency help, and the go-aheads."""
        return care.HELP_AT_ONCE, care.BEFORE

    @property
    def lines(self) -> list[Line]:
        """All of them, in the order they are shown."""
        return [*self.help_at_once, *self.before]


def view(desk: PageContext, concerns: Collection[str], *, everybody: bool) -> CareView:
    """What a page shows for these concerns."""
    found = care.care(concerns, desk.shelf.vocabulary)
    return CareView(
        desk.shelf.handbook.notice.help_at_once if everybody else None,
        [(line, desk.grounds(line)) for line in found.before],
        [(line, desk.grounds(line)) for line in found.help_at_once],
    )


def by_concern(desk: PageContext) -> list[tuple[str, CareView]]:
    """Name and lines of each concern that has some."""
    found = [
        (concern.name, view(desk, {id}, everybody=False))
        for id, concern in desk.shelf.vocabulary.concerns.items()
    ]
    return [(name, shown) for name, shown in found if shown.lines]
