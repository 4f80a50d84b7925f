"""The page of gaps: what one more study would change most, what disagrees, and what is due for a review."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from ....clock import months_after
from ....english import upper_first
from ....evidence.claims.conclusions import Comparison, Conclusion
from ....evidence.terms import Question
from ....evidence.treatments import exercise_of
from ...context import Link, PageContext, RenderContext, either_way
from ...resource import Resource
from ...sections import labels as words
from ...sections import outlook
from ...sections import taught as taught_views
from ...sections.comparison import asked, bare
from ...templating import render
from . import disagreements
from .disagreements import DisagreementGroup

URI = "gaps.md"
SECTIONS = ("top", "one-more-study", "disagreements", "untested", "without-numbers", "reviews")
#: Anchors of sections that have another name now; links to them lead to the section.
FORMER = ("thin",)
#: How many of the next reviews are listed.
_REVIEWS = 3
#: Outcome -> how many of its questions stand before the others, which are folded by muscle. Outcomes never share an order.
FIRST = {"growth": 12, "strength": 6, "activation": 12}
#: Outcome -> how many of these stand open; the next ones are one step below, so that the page is read in one sitting.
OPEN = {"growth": 3, "strength": 1, "activation": 2}
#: Where a sentence ends and the remarks on it begin.
_END = re.compile(r"(?<=[.]) (?=[A-Z])")


class Gap(NamedTuple):
    """One claim, and where it stands."""

    link: Link
    sentence: str


@dataclass(frozen=True)
class OpenQuestion:
    """A question that one more study may change the answer to."""

    asked: Link
    outcome: str
    known: str
    """What is known, in one sentence."""
    chance: float
    """That one more study of the same size changes the answer, 0 to 1."""
    pages: int
    """On how many pages the answer stands."""
    next: str
    """What would settle it."""
    muscle: str

    @property
    def weight(self) -> float:
        """What one more study would change: its chance times the pages it touches."""
        return self.chance * self.pages


@dataclass(frozen=True)
class GapsPage:
    """Everything the template shows."""

    first: list[tuple[str, str, list[OpenQuestion], list[OpenQuestion]]]
    """Outcome and its heading -> its questions that one more study would change most, and the next ones."""
    more: list[tuple[Link, list[OpenQuestion]]]
    """Muscle -> the other open questions."""
    disagreements: list[DisagreementGroup]
    disagreed: str
    """How many they are."""
    taught: Link
    """Where it stands what is commonly taught and untested, after how much it is."""
    without_numbers: list[tuple[Link, list[Gap]]]
    """Muscle -> claims that cite a source of which nothing here tests them."""
    reviews: list[tuple[Link, date]]


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """The page."""
    yield Resource(URI, text, (*SECTIONS, *FORMER))


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    return render(
        "gaps.md.jinja",
        page=model(shelf),
        meta={
            "title": "Gaps",
            "description": "Which study would change most, and every place where the evidence points opposite ways.",
            "hide": ["navigation", "toc"],
        },
    )


def model(shelf: RenderContext) -> GapsPage:
    """What the page shows."""
    desk = shelf.at(URI)
    conclusions = [c for id in shelf.catalog.exercises for c in shelf.conclusions.of(id)]
    questions = open_questions(desk)
    first = {
        outcome: [q for q in questions if q.outcome == outcome][:most]
        for outcome, most in FIRST.items()
    }
    before = {(q.asked, q.outcome) for listed in first.values() for q in listed}
    rest: dict[str, list[OpenQuestion]] = {}
    for found in questions:
        if (found.asked, found.outcome) not in before:
            rest.setdefault(found.muscle, []).append(found)
    return GapsPage(
        first=[
            (o, words.OUTCOMES[o], listed[: OPEN[o]], listed[OPEN[o] :])
            for o, listed in first.items()
            if listed
        ],
        more=sorted((desk.part(muscle), listed) for muscle, listed in rest.items()),
        disagreements=disagreements.groups(desk),
        disagreed=disagreements.counts(shelf),
        taught=Link(taught_views.counts(taught_views.all_taught(shelf)), desk.href("taught.md")),
        without_numbers=_by_muscle(
            desk, [c for c in conclusions if c.finding == "not studied" and c.basis == "cited"]
        ),
        reviews=_reviews(desk),
    )


def open_questions(desk: PageContext) -> list[OpenQuestion]:
    """Every question that was weighed, each once, what one more study would change most first.

    Parts of which the same studies say the same, without a number of their own, are one question.
    """
    pages: dict[tuple[object, ...], set[str]] = {}
    known: dict[tuple[object, ...], dict[str, Comparison]] = {}
    for uri, comparison in _shown(desk.shelf):
        if comparison.outlook:
            key = _one_answer(comparison)
            known.setdefault(key, {}).setdefault(_part(comparison), comparison)
            pages.setdefault(key, set()).add(uri)
    found = [_open(desk, list(parts.values()), len(pages[key])) for key, parts in known.items()]
    # By what a reader sees of it, so that the last digit of a machine moves nobody.
    return sorted(found, key=lambda q: (-round(q.weight, 2), q.asked.text))


def _shown(shelf: RenderContext) -> Iterator[tuple[str, Comparison]]:
    """Every page that tells an answer, and the answer: claims on the page of each of their exercises, pairs on that of their part."""
    for id in shelf.catalog.exercises:
        for conclusion in shelf.conclusions.of(id):
            for comparison in conclusion.comparisons:
                asked = comparison.question
                sides = (id,) if asked.within else (asked.first, asked.second)
                yield from ((exercise_of(side), comparison) for side in sides)
    for field in shelf.conclusions.fields.values():
        for comparison in field.comparisons:
            yield field.part, comparison


def _part(comparison: Comparison) -> str:
    return "" if comparison.question.within else comparison.question.part


def _one_answer(comparison: Comparison) -> tuple[object, ...]:
    """What tells questions apart: the contrast, and the part unless the same studies say the same of several."""
    question = comparison.question
    sides, part, *rest = either_way(question)
    alone = comparison.measured == "part" and comparison.estimate is not None and comparison.sized
    if question.within or alone or not comparison.rows:
        return (sides, part, *rest)
    ahead = {"more": question.first, "less": question.second}.get(comparison.side or "")
    studies = tuple(row.study for row in comparison.rows)
    return (sides, question.part.partition("/")[0], *rest, studies, comparison.finding, ahead)


def _open(desk: PageContext, comparisons: list[Comparison], pages: int) -> OpenQuestion:
    """One question, of one part or of several with the same answer."""
    first = comparisons[0]
    assert first.outlook
    question = first.question
    topic = asked(desk.shelf, question)
    for other in comparisons[1:]:
        topic += f", {bare(desk.shelf.names.part(other.question.part))}"
    return OpenQuestion(
        asked=Link(upper_first(topic), _where(desk, question)),
        outcome=question.outcome,
        known=_END.split(first.sentence)[0],
        chance=max(c.outlook.chance for c in comparisons if c.outlook),
        pages=pages,
        next=upper_first(outlook.settles(first)),
        muscle=(question.first if question.within else question.part).partition("/")[0],
    )


def _where(desk: PageContext, question: Question) -> str:
    """The claim that asks it, else the part."""
    for id in (question.within,) if question.within else (question.first, question.second):
        for conclusion in desk.shelf.conclusions.of(exercise_of(id or "")):
            if any(either_way(c.question) == either_way(question) for c in conclusion.comparisons):
                return desk.exercise(conclusion.exercise, f"claim-{conclusion.index + 1}").href
    return desk.part(question.part).href


def _gap(desk: PageContext, conclusion: Conclusion) -> Gap:
    return Gap(
        desk.exercise(conclusion.exercise, f"claim-{conclusion.index + 1}"), conclusion.sentence
    )


def _by_muscle(desk: PageContext, conclusions: list[Conclusion]) -> list[tuple[Link, list[Gap]]]:
    found: dict[str, list[Gap]] = {}
    for conclusion in conclusions:
        muscle = conclusion.parts[0].partition("/")[0]
        found.setdefault(muscle, []).append(_gap(desk, conclusion))
    return sorted((desk.part(muscle), listed) for muscle, listed in found.items())


def _reviews(desk: PageContext) -> list[tuple[Link, date]]:
    """The entries whose review is due next, or was due longest ago, with the day."""
    shelf = desk.shelf
    months = round(shelf.handbook.conventions.review_interval.value)
    due = [
        (months_after(e.data.reviewed, months), desk.exercise(id))
        for id, e in shelf.catalog.exercises.items()
    ]
    due += [
        (months_after(e.data.reviewed, months), desk.part(id))
        for id, e in shelf.catalog.muscles.items()
    ]
    if shelf.catalog.programme:
        due.append(
            (
                months_after(shelf.catalog.programme.data.reviewed, months),
                Link("Programme", desk.href("programme.md")),
            )
        )
    return [(link, day) for day, link in sorted(due)[:_REVIEWS]]
