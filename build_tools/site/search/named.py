"""Everything that can be found by a name: exercises, parts, muscles, cautions, headings of pages and sources."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from ...catalog.entries import Exercise, Muscle, Part
from ...english import upper_first
from ..addresses import url
from ..context import RenderContext
from ..sections import care
from .texts import PageText

#: Kinds in the order in which equally good names are listed; files hold their places here.
KINDS = ("Exercise", "Part", "Muscle", "Caution", "Page", "Source")
_EXERCISE, _PART, _MUSCLE, _CAUTION, _PAGE, SOURCE = range(len(KINDS))
#: Links are written as from the home page, so that every page can resolve them against the site's root.
_HOME = "index.md"


class NamedPlace(NamedTuple):
    """One place of the handbook and what it is called."""

    kind: int
    """Index in ``KINDS``."""
    weight: int
    """How much is known of it; more goes first where nothing else decides."""
    title: str
    address: str
    """Relative to the home page."""
    note: str
    """What tells it from others: shown below the title, and its words count as a weak name."""
    others: list[str]
    """Other names."""

    @property
    def names(self) -> list[str]:
        """What it is looked up by."""
        return [self.title, *self.others]


def named_places(shelf: RenderContext, pages: Iterable[PageText]) -> list[NamedPlace]:
    """All of them in the order of a list in which nothing else decides."""
    found = [
        *_exercises(shelf),
        *_muscles(shelf),
        *_cautions(shelf),
        *_headings(pages),
        *_sources(shelf),
    ]
    return sorted(found, key=lambda place: (place.kind, -place.weight, place.title, place.address))


def _exercises(shelf: RenderContext) -> Iterator[NamedPlace]:
    studied = Counter(
        id
        for study in shelf.catalog.studies.values()
        for id in {arm.exercise for arm in study.data.arms.values()}
    )
    desk = shelf.at(_HOME)
    for id, entry in shelf.catalog.exercises.items():
        link, data = desk.exercise(id), entry.data
        yield NamedPlace(
            _EXERCISE, studied[id], link.text, link.href, _about(shelf, data), data.also_called
        )


def _about(shelf: RenderContext, exercise: Exercise) -> str:
    """Whose exercise it is and what it takes: ``hamstrings, barbell``."""
    credits = exercise.set_credit
    refs = [ref for ref, credit in credits.items() if credit == "direct"] or list(credits)
    muscles = dict.fromkeys(ref.partition("/")[0] for ref in refs)
    called = [
        (data.coaches or data.name.lower()).removesuffix(" muscles")
        for data in (shelf.catalog.muscles[muscle].data for muscle in list(muscles)[:2])
    ]
    kit = [shelf.vocabulary.equipment[id].name.lower() for id in exercise.equipment]
    return upper_first(", ".join([*called, *kit]))


def _muscles(shelf: RenderContext) -> Iterator[NamedPlace]:
    desk = shelf.at(_HOME)
    for id, entry in shelf.catalog.muscles.items():
        muscle = entry.data
        yield _of_body(_MUSCLE, muscle, desk.part(id).href, muscle.everyday)
        for part, data in muscle.parts.items():
            address = desk.part(f"{id}/{part}").href
            yield _of_body(_PART, data, address, f"{data.everyday}; {muscle.name}")


def _of_body(kind: int, data: Muscle | Part, address: str, note: str) -> NamedPlace:
    latin = data.latin if isinstance(data, Part) else None
    names = [data.coaches, data.name, data.everyday, latin, *data.also_called]
    title, *others = dict.fromkeys(name for name in names if name)
    return NamedPlace(kind, 0, upper_first(title), address, upper_first(note), others)


def _cautions(shelf: RenderContext) -> Iterator[NamedPlace]:
    desk = shelf.at(_HOME)
    for id, concern in shelf.vocabulary.concerns.items():
        address = desk.href(care.URI, care.anchor(id))
        yield NamedPlace(
            _CAUTION, 0, concern.name, address, concern.note or "", concern.also_called
        )


def _headings(pages: Iterable[PageText]) -> Iterator[NamedPlace]:
    """Pages that are no entries of the catalog, and what stands in them under an anchor of its own."""
    for page in pages:
        if page.is_entry:
            continue
        yield NamedPlace(_PAGE, 1, page.title, url(page.uri) or "./", page.description, [])
        for section in page.sections:
            if section.anchor and section.heading and not page.is_manual:
                address = f"{url(page.uri)}#{section.anchor}"
                yield NamedPlace(_PAGE, 0, section.heading, address, page.title, [])


def _sources(shelf: RenderContext) -> Iterator[NamedPlace]:
    desk = shelf.at(_HOME)
    for key, reference in shelf.catalog.references.items():
        link = desk.source(key)
        families = [f"{family} {reference.year}" for family, _ in reference.authors]
        yield NamedPlace(SOURCE, 0, link.text, link.href, reference.title, families)
