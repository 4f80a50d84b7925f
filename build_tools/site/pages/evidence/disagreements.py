"""Contradictions as the page of gaps shows them: both sides with their numbers, people and places, and what sets them apart."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from ....english import counted, upper_first
from ....evidence.claims.contradictions import (
    Contradiction,
    ContradictionKind,
    Measurement,
    contradictions,
)
from ....evidence.studies.contrasts import Direction
from ....evidence.wording import sentences
from ....evidence.wording.amounts import people
from ...context import Link, PageContext, RenderContext, once
from ...sections.comparison import asked, bare
from ...sections.statements import claimed

#: Kind -> its heading, and how one is called where they are counted.
HEADINGS: dict[ContradictionKind, str] = {
    "tested": "Studies against each other, each by its own test",
    "kinds": "Growth and activation part ways",
    "itself": "One study against itself, both ways by its own test",
    "claim": "Numbers that lean against a page",
    "half tested": "A test against numbers that nobody tested",
    "partly": "One study, different answers by where, when or how it measured",
    "untested": "Numbers both ways that nobody tested",
}
#: Kinds that are folded: what a coach need not act on.
FOLDED: tuple[ContradictionKind, ...] = ("claim", "half tested", "partly", "untested")
#: How many measurements of one study are told in full.
_TOLD = 2


@dataclass(frozen=True)
class StudySide:
    """What one study says on one side."""

    source: Link
    people: str
    tested: bool
    printed: list[str]
    more: str
    """How many further measurements say the same; empty for none."""


@dataclass(frozen=True)
class Disagreement:
    """One question on which something points opposite ways."""

    asked: Link
    mark: str
    sides: list[tuple[str, list[StudySide]]]
    """What is said, and by which studies."""
    answers: list[str]
    """Where whole answers stand against each other: their sentences."""
    page: tuple[Link, str] | None
    """A page whose claim the numbers lean against, and what it claims."""
    disputed: str | None
    """Why its author lets it stand."""
    apart: str
    """What could explain it, as far as the catalog says."""


@dataclass(frozen=True)
class DisagreementGroup:
    """Those of one kind."""

    heading: str
    folded: bool
    items: list[Disagreement]


@once
def all_contradictions(shelf: RenderContext) -> list[Contradiction]:
    """Every contradiction of the catalog, each once, those that a coach should know of first."""
    return contradictions(shelf.catalog, shelf.conclusions)


def groups(desk: PageContext) -> list[DisagreementGroup]:
    """Every contradiction, by what stands against what."""
    return [
        DisagreementGroup(HEADINGS[kind], kind in FOLDED, [_view(desk, one) for one in together])
        for kind, group in groupby(all_contradictions(desk.shelf), key=lambda one: one.kind)
        if (together := list(group))
    ]


def counts(shelf: RenderContext) -> str:
    """``In 62 places results differ, each told once. In 8 both sides were tested.``"""
    found = all_contradictions(shelf)
    tested = sum(one.kind not in FOLDED for one in found)
    return (
        f"In {counted(len(found), 'place')} results point different ways, each told once. "
        f"In {tested or 'none'} of them both sides were tested or weighed."
    )


def _view(desk: PageContext, one: Contradiction) -> Disagreement:
    shelf, question = desk.shelf, one.question
    topic = asked(shelf, question)
    for part in one.parts[1:]:
        topic += f", {bare(shelf.names.part(part))}"
    page, disputed = None, None
    if one.claim:
        exercise, index = one.claim
        conclusion = shelf.conclusions.of(exercise)[index]
        page = (desk.exercise(exercise, f"claim-{index + 1}"), claimed(shelf, conclusion))
        disputed = shelf.catalog.exercises[exercise].data.emphasis[index].disputed
    whole = one.kind in ("kinds", "claim")
    return Disagreement(
        asked=Link(upper_first(topic), _where(desk, one)),
        mark=question.outcome,
        sides=[] if whole else _sides(desk, one),
        answers=[s for s in (one.sentence, *(c.sentence for c in one.comparisons)) if s]
        if whole
        else [],
        page=page,
        disputed=disputed,
        apart="" if whole else _apart(one),
    )


def _where(desk: PageContext, one: Contradiction) -> str:
    """The part's place; of parts within one exercise the exercise's."""
    if one.question.within:
        return desk.exercise(one.question.within, "what-it-favours").href
    return desk.part(one.question.part).href


def _sides(desk: PageContext, one: Contradiction) -> list[tuple[str, list[StudySide]]]:
    names, question = desk.shelf.names, one.question
    first, second = sentences.sides(names, question)
    called: dict[Direction, str] = {
        "more": f"More {first}",
        "less": f"More {second}",
        "neither": "No difference",
    }
    return [
        (words, _studies(desk, given)) for way, words in called.items() if (given := one.of(way))
    ]


def _studies(desk: PageContext, given: list[Measurement]) -> list[StudySide]:
    by_study: dict[str, list[Measurement]] = {}
    for measurement in given:
        by_study.setdefault(measurement.study, []).append(measurement)
    return [
        StudySide(
            source=desk.source(key, together[0].result),
            people=people(together[0].people),
            tested=any(m.tested for m in together),
            printed=[m.printed for m in together[:_TOLD]],
            more=f"{counted(n, 'more measurement')} alike" if (n := len(together[_TOLD:])) else "",
        )
        for key, together in by_study.items()
    ]


def _apart(one: Contradiction) -> str:
    """What each side has that the other has not, as the catalog notes it; that it notes nothing where it does not."""
    ways: list[tuple[Direction, ...]] = [("more",), ("less",)]
    if not one.of("more") or not one.of("less"):
        ways = [("more", "less"), ("neither",)]
    each = [
        list(dict.fromkeys(told for way in side for m in one.of(way) for told in m.set_apart))
        for side in ways
    ]
    own = [[told for told in mine if told not in other] for mine, other in (each, each[::-1])]
    told = ["; ".join(map(_lower, texts)) for texts in own]
    if not any(told):
        return "The catalog notes nothing that sets the two apart."
    called = ("first side", "second side")
    each_side = [f"{side}: {text}" for side, text in zip(called, told, strict=True) if text]
    return f"What differs, {'. On the '.join(each_side)}."


def _lower(text: str) -> str:
    text = text.rstrip(".")
    return text[:1].lower() + text[1:] if text[1:2].islower() else text
