"""What every page is made from: the checked catalog, its conclusions and the address book."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from functools import cached_property, update_wrapper
from typing import Any, Concatenate, NamedTuple, ParamSpec, TypeVar

from ..catalog import entries
from ..catalog.bibliography import apa as referencing
from ..catalog.load import Catalog
from ..catalog.palette import Palette
from ..checks.profile import Profile
from ..evidence.claims.conclusions import (
    Comparison,
    Conclusion,
    Conclusions,
    PartEvidence,
    Row,
)
from ..evidence.settings import Settings, settings
from ..evidence.terms import Question
from ..evidence.treatments import exercise_of
from ..evidence.wording.names import Names
from ..evidence_map.favours import FavourSentences
from ..evidence_map.grid import EvidenceMap
from ..movement.course import Courses
from .addresses import Addresses
from .publication import UNPUBLISHED, Publication

P = ParamSpec("P")
T = TypeVar("T")


class Link(NamedTuple):
    """Words and where they lead."""

    text: str
    href: str


class Grounds(NamedTuple):
    """What a statement rests on: source links with their places, or a reason of common practice."""

    sources: list[tuple[Link, str | None]]
    reason: str | None


def either_way(question: Question) -> tuple[object, ...]:
    """The question, whichever side it names first."""
    part = (
        None if question.within else question.part
    )  # within an exercise the part is one of the two sides
    return (
        frozenset((question.first, question.second)),
        part,
        question.outcome,
        question.relative_to,
        question.within,
    )


@dataclass(frozen=True)
class RenderContext:
    """The catalog with everything computed from it."""

    catalog: Catalog
    conclusions: Conclusions
    addresses: Addresses
    site: Publication = UNPUBLISHED
    profile: Profile = field(default_factory=dict)
    """Severities of the rules."""
    known_courses: Courses | None = None
    """Those of an earlier state of the catalog."""
    _worked_out: dict[Any, Any] = field(default_factory=dict, repr=False, compare=False)
    """Answers of functions that are marked ``once``."""

    @property
    def handbook(self) -> entries.Handbook:
        """Title, notice and conventions."""
        assert self.catalog.handbook  # a catalog without one does not pass the checks
        return self.catalog.handbook.data

    @cached_property
    def palette(self) -> Palette:
        """The colours."""
        return Palette.of(self.handbook.palette)

    @property
    def vocabulary(self) -> entries.Vocabulary:
        """The closed lists."""
        assert self.catalog.vocabulary
        return self.catalog.vocabulary.data

    @property
    def names(self) -> Names:
        """Names as they stand inside a sentence."""
        return self.conclusions.names

    @cached_property
    def settings(self) -> Settings:
        """The conventions as numbers."""
        return settings(self.catalog)

    def margin(self, outcome: str) -> float:
        """The ratio below which two count as alike."""
        return self.settings.margins[outcome]

    def short(self, key: str) -> str:
        """A source by author and year."""
        return referencing.short(self.catalog.references[key], self.letters[key])

    @cached_property
    def fields(self) -> dict[str, list[PartEvidence]]:
        """Muscle or part -> everything known on it, one field for each outcome and ratio."""
        found: dict[str, list[PartEvidence]] = defaultdict(list)
        for known in self.conclusions.fields.values():
            found[known.part].append(known)
        return found

    @cached_property
    def readings(self) -> dict[tuple[str, int], list[tuple[Comparison, Row]]]:
        """Study and result -> every comparison that it feeds, each one way round."""
        every = [c for field in self.conclusions.fields.values() for c in field.comparisons]
        every += [
            c
            for of in self.conclusions.claims.values()
            for conclusion in of
            for c in conclusion.comparisons
        ]
        found: dict[tuple[str, int], list[tuple[Comparison, Row]]] = defaultdict(list)
        for comparison in {either_way(c.question): c for c in reversed(every)}.values():
            for row in comparison.rows:
                for result in row.results:
                    found[row.study, result].append((comparison, row))
        return found

    @cached_property
    def courses(self) -> Courses:
        """Load and length over each exercise's repetition."""
        return Courses(self.catalog, self.known_courses)

    @cached_property
    def evidence_map(self) -> EvidenceMap:
        """Exercises by parts, each pair with the best kind of evidence."""
        return EvidenceMap(self.catalog, self.conclusions, self.courses)

    @cached_property
    def favours(self) -> FavourSentences:
        """What each exercise favours, in one line."""
        return FavourSentences(self.evidence_map, self.names, self.catalog)

    @cached_property
    def letters(self) -> dict[str, str]:
        """Reference key -> the letter after its year, where two would read alike."""
        return referencing.letters(self.catalog.references.values())

    @cached_property
    def compared_in(self) -> dict[str, list[tuple[str, Conclusion]]]:
        """Exercise -> claims on other exercises' pages that compare with it."""
        found: dict[str, list[tuple[str, Conclusion]]] = defaultdict(list)
        for id, entry in self.catalog.exercises.items():
            for conclusion in self.conclusions.of(id):
                other = entry.data.emphasis[conclusion.index].comparator.exercise
                if other and other != id:
                    found[other].append((id, conclusion))
        return found

    @cached_property
    def swaps_from(self) -> dict[str, list[str]]:
        """Exercise -> exercises that name it as their swap."""
        found: dict[str, list[str]] = defaultdict(list)
        for id, entry in self.catalog.exercises.items():
            for other in entry.data.swaps:
                found[other].append(id)
        return found

    def at(self, uri: str) -> PageContext:
        """The shelf as seen from one page, so that links are relative to it."""
        return PageContext(self, uri)


def once(
    make: Callable[Concatenate[RenderContext, P], T],
) -> Callable[Concatenate[RenderContext, P], T]:
    """Mark a function of the shelf and of ids as costly: each answer is worked out once a book. Nobody may change what it gives."""

    def kept(shelf: RenderContext, /, *ids: P.args, **named: P.kwargs) -> T:
        key = make, ids, tuple(named.items())
        if key not in shelf._worked_out:
            shelf._worked_out[key] = make(shelf, *ids, **named)
        found: T = shelf._worked_out[key]
        return found

    update_wrapper(kept, make)
    return kept


@dataclass(frozen=True)
class PageContext:
    """Names and relative links as one page needs them."""

    shelf: RenderContext
    uri: str

    def href(self, to: str, anchor: str | None = None) -> str:
        """A relative link to any declared page or file."""
        return self.shelf.addresses.href(self.uri, to, anchor)

    def exercise(self, id: str, anchor: str | None = None) -> Link:
        """An exercise, or a version of one, by name."""
        exercise, version = exercise_of(id), self.shelf.names.version(id)
        name = self.shelf.catalog.exercises[exercise].data.name
        return Link(
            f"{name}, {version}" if version else name, self.href(f"exercises/{exercise}.md", anchor)
        )

    def part(self, ref: str) -> Link:
        """The page of a muscle, or of a part, by name."""
        named = self.shelf.catalog.part(ref)
        assert named is not None, ref
        return Link(named.name, self.href(f"muscles/{ref}.md"))

    def muscle(self, id: str) -> Link:
        """A muscle by what coaches call it."""
        named = self.shelf.catalog.muscles[id].data
        return Link(named.coaches or named.name, self.href(f"muscles/{id}.md"))

    def everyday(self, ref: str) -> str:
        """What a client would call a muscle or part."""
        named = self.shelf.catalog.part(ref)
        assert named is not None, ref
        return named.everyday

    def parts(self, refs: Iterable[str]) -> list[Link]:
        """Several parts."""
        return [self.part(ref) for ref in refs]

    def source(self, key: str, result: int | None = None) -> Link:
        """A source by its short name, at one of its results (index from 0) when given."""
        return Link(
            self.shelf.short(key),
            self.href(f"sources/{key}.md", None if result is None else f"result-{result + 1}"),
        )

    def grounds(self, basis: entries.Basis) -> Grounds:
        """What a statement rests on."""
        return Grounds([(self.source(c.key), c.at) for c in basis.cites], basis.common_practice)


#: Ids of fixed sections on a muscle page, which a part's anchor may not take.
MUSCLE_SECTIONS = ("top", "parts", "muscle-as-a-whole", "exercises", "anatomy", "sources")


def part_anchor(part: str) -> str:
    """The anchor of a part on its muscle's page: its id, unless a fixed section has that id."""
    return f"part-{part}" if part in MUSCLE_SECTIONS else part
