"""The page of statements that moved since last time, from the committed record, newest first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from ....committed import record
from ....committed.moves import Move, Way, differing
from ....committed.record import ChangeDay
from ....english import counted, listed, upper_first
from ...client import scripts
from ...context import Link, PageContext, RenderContext, once
from ...resource import Resource
from ...sections.comparison import bare
from ...templating import day as day_words
from ...templating import render
from ..indexes import NarrowingField

URI = "changes.md"
FEED = "changes.atom"
#: In the order in which a day counts them.
WAYS: tuple[Way, ...] = ("turned", "firmer", "weaker", "newly tested", "otherwise")
#: From how many moves on the list can be narrowed.
LONG = 15


@dataclass(frozen=True)
class MoveView:
    """One sentence that moved, on one or several parts."""

    way: Way
    on: str
    """What it is on, when it stands nowhere any more or at several places; else empty."""
    links: list[Link]
    """Where it stands: what it is on, or each part where several are told the same."""
    now: str
    before: str
    why: str
    values: dict[str, list[str]]
    """By what the list is narrowed."""


@dataclass(frozen=True)
class DayView:
    """One day."""

    day: date
    anchor: str
    counts: str
    """``6 statements moved: 2 firmer, 4 weaker.``"""
    note: str | None
    moved: list[MoveView]
    folded: list[tuple[str, list[tuple[Link, int]]]]
    """How many statements only came or went -> their pages, each with how many."""


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """The page."""
    yield Resource(URI, text, ["top", *(anchor(day.day) for day in days(shelf))])


@once
def days(shelf: RenderContext) -> list[ChangeDay]:
    """The record, newest first."""
    return record.read(shelf.catalog)[::-1]


def anchor(day: date) -> str:
    """Where a day stands on the page."""
    return f"day-{day.isoformat()}"


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    desk = shelf.at(URI)
    views = [view(desk, day) for day in days(shelf)]
    moved = [move for day in views for move in day.moved]
    return render(
        "changes.md.jinja",
        days=views,
        feed=desk.href(FEED),
        count=len(moved),
        fields=_fields(shelf, moved) if len(moved) >= LONG else [],
        script=desk.href(scripts.uri(scripts.NARROW)),
        meta={
            "title": "Since last time",
            "description": "Which statements of this handbook say something else now, what they said before, and why.",
            "hide": ["navigation", "toc"],
        },
    )


def view(desk: PageContext, day: ChangeDay) -> DayView:
    """A day as seen from one page."""
    moved = sorted(day.moved, key=lambda move: WAYS.index(move.way))
    folded = [
        (_many(addresses, word), _pages(desk, addresses))
        for addresses, word in ((day.new, "new"), (day.gone, "gone"))
        if addresses
    ]
    return DayView(
        day=day.day,
        anchor=anchor(day.day),
        counts=counts(day),
        note=day.note,
        moved=[_move(desk, same) for same in alike(moved)],
        folded=folded,
    )


def counts(day: ChangeDay) -> str:
    """``6 statements moved: 2 firmer, 4 weaker.``"""
    ways = Counter(move.way for move in day.moved)
    told = ", ".join(f"{ways[way]} {way}" for way in WAYS if ways[way])
    return (
        f"{counted(len(day.moved), 'statement')} moved: {told}." if told else "No statement moved."
    )


def headline(day: ChangeDay) -> str:
    """``6 statements moved on 30 November 2026: 2 firmer, 4 weaker.``"""
    return counts(day).replace(" moved", f" moved on {day_words(day.day)}", 1)


def alike(moved: list[Move]) -> list[list[Move]]:
    """Moves of the same two exercises in the same words, together: one measurement can answer for several parts."""
    groups: dict[tuple[object, ...], list[Move]] = {}
    for move in moved:
        key = move.way, move.first, move.second, move.outcome, differing(move.before, move.now)
        groups.setdefault(key, []).append(move)
    return list(groups.values())


def subject(shelf: RenderContext, move: Move) -> str:
    """What a statement is on: ``Crate curl against cable curl: growth, long head``."""
    return f"{pair(shelf, move)}: {move.outcome}, {parts_of(shelf, move)}"


def pair(shelf: RenderContext, move: Move) -> str:
    """What is compared: two exercises, or two parts in one of them."""
    names = shelf.names
    if move.is_claim and shelf.catalog.part(move.second) is not None:
        return f"{upper_first(bare(names.exercise(move.first)))} against {bare(names.part(move.second))}"
    first, second = (bare(names.exercise(id)) for id in (move.first, move.second))
    return upper_first(f"{first} against {second}")


def parts_of(shelf: RenderContext, move: Move) -> str:
    """The parts that a statement answers for."""
    names = shelf.names
    told = listed([bare(names.part(answer.part)) for answer in move.now.answers])
    return told + (f" relative to {names.part(move.relative_to)}" if move.relative_to else "")


def why(shelf: RenderContext, move: Move) -> str:
    """What is known of the reason, in a sentence or two."""
    before, now = set(move.before.rests_on), set(move.now.rests_on)

    def told(keys: set[str]) -> str:
        return listed([_source(shelf, key) for key in sorted(keys)])

    if now - before or before - now:
        said = [f"{told(now - before)} came in." if now - before else ""]
        said.append(f"{told(before - now)} no longer counts." if before - now else "")
        return " ".join(filter(None, said))
    if move.because:
        return " ".join(_because(shelf, move))
    if now:
        study = "Same study" if len(now) == 1 else "Same studies"
        return f"{study}, weighed anew: {told(now)}."
    return "Reckoned from postures by the model of lengths." if move.outcome == "length" else ""


def _because(shelf: RenderContext, move: Move) -> Iterator[str]:
    """What changed behind a move whose studies are the same."""
    of: dict[str, list[str]] = {}
    for kind, _, name in (one.partition(" ") for one in move.because):
        of.setdefault(kind, []).append(name)
    if keys := [*of.get("study", ()), *of.get("reference", ())]:
        yield f"What is entered of {listed([_source(shelf, key) for key in dict.fromkeys(keys)])} changed."
    if names := of.get("convention"):
        yield f"A convention changed: {listed([name.replace('_', ' ') for name in names])}."
    if "entry" in of:
        yield "What is entered of the exercises or their muscles changed."
    if "vocabulary" in of:
        yield "What is laid down of measures, designs or positions changed."
    if "model" in of:
        yield "The model of lengths changed."
    if "rule" in of:
        same = listed([_source(shelf, key) for key in move.now.rests_on])
        yield "A rule of the program changed" + (
            f"; {same} {'is' if len(move.now.rests_on) == 1 else 'are'} as before." if same else "."
        )


def place(shelf: RenderContext, move: Move) -> tuple[str, str | None] | None:
    """Page and anchor of a statement as they are now: a claim may have another number, a page may lead on to its successor."""
    uri = _page(shelf, move.page)
    if uri is None or not uri.endswith(".md"):
        return (uri, None) if uri else None
    found = _claim_anchor(shelf, move) if move.is_claim else move.at.partition("#")[2]
    return uri, found if found in shelf.addresses.anchors(uri) else None


def _page(shelf: RenderContext, page: str) -> str | None:
    path = page.strip("/")
    uris = (f"{path}.md", f"{path}/index.html")
    return next((uri for uri in uris if uri in shelf.addresses), None)


def _claim_anchor(shelf: RenderContext, move: Move) -> str | None:
    for conclusion in shelf.conclusions.of(move.first):
        claim = shelf.catalog.exercises[move.first].data.emphasis[conclusion.index]
        other = claim.comparator.exercise or claim.comparator.part
        parts = [answer.part for answer in move.now.answers]
        if (claim.outcome, claim.relative_to, other, list(conclusion.parts)) == (
            move.outcome,
            move.relative_to,
            move.second,
            parts,
        ):
            return f"claim-{conclusion.index + 1}"
    return None


def _source(shelf: RenderContext, key: str) -> str:
    return shelf.short(key) if key in shelf.catalog.references else key


def _move(desk: PageContext, same: list[Move]) -> MoveView:
    shelf, first = desk.shelf, same[0]
    links = []
    for move in same:
        where = place(shelf, move)
        text = subject(shelf, move) if len(same) == 1 else parts_of(shelf, move)
        links.append(Link(text, desk.href(*where) if where else ""))
    before, now = differing(first.before, first.now)
    parts = (answer.part for move in same for answer in move.now.answers)
    return MoveView(
        way=first.way,
        on=f"{pair(shelf, first)}: {first.outcome}" if len(same) > 1 else "",
        links=links,
        now=now,
        before=before,
        why=why(shelf, first),
        values={
            "muscle": list(dict.fromkeys(part.partition("/")[0] for part in parts)),
            "way": [first.way.replace(" ", "-")],
        },
    )


def _many(addresses: list[str], word: str) -> str:
    claims = sum(at.startswith("/exercises/") for at in addresses)
    kinds = [(claims, "statement", "on exercises"), (len(addresses) - claims, "pair", "on parts")]
    told = [f"{counted(number, kind)} {where}" for number, kind, where in kinds if number]
    return upper_first(f"{word}: {' and '.join(told)}")


def _pages(desk: PageContext, addresses: list[str]) -> list[tuple[Link, int]]:
    """Each page by its name, with how many statements on it."""
    numbers = Counter(at.partition("#")[0] for at in addresses)
    found = []
    for page, number in numbers.items():
        uri = _page(desk.shelf, page)
        _, folder, id = page.rstrip("/").split("/", 2)
        names = desk.shelf.names
        name = names.exercise(id) if folder == "exercises" else names.part(id)
        found.append((Link(upper_first(bare(name)), desk.href(uri) if uri else ""), number))
    return sorted(found, key=lambda one: one[0].text.casefold())


def _fields(shelf: RenderContext, moved: list[MoveView]) -> list[NarrowingField]:
    muscles = {id for move in moved for id in move.values["muscle"]}
    ways = {move.way for move in moved}
    return [
        NarrowingField(
            "muscle",
            "Muscle",
            [(id, m.data.name) for id, m in shelf.catalog.muscles.items() if id in muscles],
        ),
        NarrowingField(
            "way",
            "How it moved",
            [(way.replace(" ", "-"), upper_first(way)) for way in WAYS if way in ways],
        ),
    ]
