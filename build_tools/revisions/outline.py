"""A difference as an outline of plain texts, most important first, that every form for people is laid out from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple, get_args

from ..committed.moves import (
    NO_SIDE,
    NOT_RATED,
    Answered,
    Asked,
    Move,
    Saying,
    Way,
    differing,
)
from ..english import counted, listed, upper_first
from . import places
from .difference import CatalogDifference
from .entries import KINDS, EntryChange, Fate
from .reasons import MoveReason
from .snapshot import NOW, Snapshot

WAYS: tuple[Way, ...] = get_args(Way)
FATES: tuple[Fate, ...] = get_args(Fate)
_ONE = {
    "exercises": "exercise",
    "muscles": "muscle",
    "studies": "study",
    "references": "reference",
}
#: How many numbers of a study, other leaves of an entry or file, and names in a line are told.
_NUMBERS, _LEAVES, _NAMES = 8, 4, 6
#: From how many changed entries on their fields are counted, too.
_MANY = 5


class Item(NamedTuple):
    """One thing that differs."""

    head: str
    lines: list[tuple[str, str]] = []
    """What is told of it: label and text."""


class Section(NamedTuple):
    """Things of one kind."""

    title: str
    items: list[Item]
    urgent: bool = False
    """Whether a reviewer reads it first; the rest can be folded."""


class Outline(NamedTuple):
    """The whole."""

    title: str
    counts: list[str]
    """What a reader would notice, one line each."""
    notes: list[str]
    sections: list[Section]


def outline(found: CatalogDifference) -> Outline:
    """``found`` in the order in which a reviewer wants it."""
    sections = [
        _dying(found),
        _moved(found),
        *(_entries(found, kind) for kind in KINDS),
        _files(found),
        _reworded(found),
        *(_pages(found, title, of) for title, of in _came_and_went(found)),
        Section("New addresses", [Item(address) for address in found.new_addresses]),
    ]
    return Outline(
        f"The catalog {_of_now(found)} against {found.before.label}",
        list(_counts(found)),
        [*found.notes, *_program(found)],
        [section for section in sections if section.items],
    )


def _of_now(found: CatalogDifference) -> str:
    return found.now.label if found.now.label == NOW else f"of {found.now.label}"


def _counts(found: CatalogDifference) -> Iterator[str]:
    if found.is_empty:
        yield "It says the same" if found.has_answers else "Nothing that was compared differs"
        return
    if found.dying:
        yield f"{counted(len(found.dying), 'published address', 'published addresses')} would die"
    ways = Counter(one.move.way for one in found.moved)
    if found.moved:
        told = ", ".join(f"{ways[way]:,} {way}" for way in WAYS if ways[way])
        yield f"{counted(len(found.moved), 'answer')} moved: {told}{_causes(found)}"
    else:
        yield "No answer moved" if found.has_answers else "Answers were not compared"
    if found.new or found.gone:
        numbers = ((found.new, "new"), (found.gone, "gone"))
        yield f"Statements: {', '.join(f'{len(of):,} {word}' for of, word in numbers if of)}"
    if found.reworded:
        number = counted(len(found.reworded), "sentence tells", "sentences tell")
        by_rule = sum(_is_rule(one.why) for one in found.reworded)
        all_or_some = "all" if by_rule == len(found.reworded) else f"{by_rule:,} of them"
        program = f", {all_or_some} by the program alone" if by_rule else ""
        yield f"{number} the same answer in other words or numbers{program}"
    for kind, one in _ONE.items():
        changes = [change for change in found.entries if change.kind == kind]
        fates = Counter(change.fate for change in changes)
        if changes:
            each = ", ".join(f"{fates[fate]:,} {fate}" for fate in FATES if fates[fate])
            told = f"{upper_first(kind)}: {each}" if len(changes) > 1 else f"1 {one} {each[2:]}"
            yield told + _kinds_of_fields(changes)


def _kinds_of_fields(changes: Sequence[EntryChange]) -> str:
    """In how many entries each kind of field changed, where they are too many to read one by one."""
    kinds = Counter(
        called.partition(" (")[0] for change in changes for called in change.called.values()
    )
    if len(changes) < _MANY or not kinds:
        return ""
    return "; " + ", ".join(f"{kind} in {n:,}" for kind, n in kinds.most_common(_NAMES))


def _causes(found: CatalogDifference) -> str:
    kinds = Counter(kind for one in found.moved for kind in _kinds(one.why))
    words = {"study": "studies", "rule": "a rule of the program", "convention": "conventions"}
    words |= {"entry": "entries", "reference": "references", "model": "the model of lengths"}
    words |= {"vocabulary": "the vocabulary", "unknown": "something farther off"}
    return "; behind them: " + ", ".join(f"{words[kind]} {n:,}" for kind, n in kinds.most_common())


def _is_rule(why: Sequence[MoveReason]) -> bool:
    return _kinds(why) == ["rule"]


def _kinds(why: Sequence[MoveReason]) -> list[str]:
    return list(dict.fromkeys(reason.kind for reason in why))


def _program(found: CatalogDifference) -> Iterator[str]:
    whys = [*(one.why for one in found.moved), *(one.why for one in found.reworded)]
    if found.program and any(reason.kind == "rule" for why in whys for reason in why):
        yield f"Of the program changed since: {_some(found.program)}"


def _dying(found: CatalogDifference) -> Section:
    items = [Item(one.address, [("mend", one.remedy)]) for one in found.dying]
    return Section("Addresses that would die", items, urgent=True)


def _moved(found: CatalogDifference) -> Section:
    items = []
    for way in WAYS:
        moves = [one for one in found.moved if one.move.way == way]
        for same in _alike([(one.move, one.move.before, one.move.now, one.why) for one in moves]):
            answers = _answers(found, [one.move for one in moves if one.move in same.on])
            lines = [("answer", told) for told in answers] + _sentences(same)
            items.append(Item(f"{upper_first(way)}: {_subject(found, same.on[0])}", lines))
    return Section("Answers that moved", items, urgent=True)


def _answers(found: CatalogDifference, same: Sequence[Move]) -> list[str]:
    """From what to what, with the parts that it holds for."""
    parts: dict[str, list[str]] = {}
    for move in same:
        for was, now in zip(move.before.answers, move.now.answers, strict=True):
            if was != now:
                parts.setdefault(_answer(found, move, was, now), []).append(now.part)
    return [f"{listed(list(dict.fromkeys(of)))}: {told}" for told, of in parts.items()]


def _answer(found: CatalogDifference, asked: Asked, was: Answered, now: Answered) -> str:
    """``hinted → found for Crate curl, certainty low``."""

    def ahead(side: str) -> str:
        id = {"more": asked.first, "less": asked.second}.get(side)
        return _side(found.now, id) if id else "neither side"

    told = _from_to(was.finding, now.finding)
    if was.side != now.side:
        told += f", ahead {ahead(was.side)} → {ahead(now.side)}"
    elif now.side != NO_SIDE:
        told += f" for {ahead(now.side)}"
    if {was.certainty, now.certainty} != {NOT_RATED}:
        told += f", certainty {_from_to(was.certainty, now.certainty)}"
    return told


def _from_to(before: str, now: str) -> str:
    return now if before == now else f"{before} → {now}"


def _reworded(found: CatalogDifference) -> Section:
    told = [
        (one.reworded.asked, one.reworded.before, one.reworded.now, one.why)
        for one in found.reworded
    ]
    items = [Item(_subject(found, same.on[0]), _sentences(same)) for same in _alike(told)]
    return Section("Same answer in other words or numbers", items)


class _Alike(NamedTuple):
    """Statements of the same two things that changed in the same words: a claim, its mirror image, their pair."""

    on: list[Asked]
    before: str
    now: str
    why: list[str]


def _alike(
    told: Sequence[tuple[Asked, Saying, Saying, Sequence[MoveReason]]],
) -> list[_Alike]:
    groups: dict[tuple[object, ...], _Alike] = {}
    for asked, was, is_now, why in told:
        before, now = map(places.value, differing(was, is_now))
        key = frozenset((asked.first, asked.second)), asked.outcome, asked.relative_to, before, now
        group = groups.setdefault(key, _Alike([], before, now, []))
        group.on.append(asked)
        group.why.extend(reason.says for reason in why if reason.says not in group.why)
    return list(groups.values())


def _sentences(same: _Alike) -> list[tuple[str, str]]:
    both = [("before", same.before), ("now", same.now)]
    return [
        *(both if same.before != same.now else [("says", same.now)]),
        *(("why", told) for told in same.why),
        ("at", _some([asked.at for asked in same.on])),
    ]


def _subject(found: CatalogDifference, asked: Asked) -> str:
    first, second = _side(found.now, asked.first), _side(found.now, asked.second)
    relative = f" relative to {asked.relative_to}" if asked.relative_to else ""
    return f"{first} against {second}, {asked.outcome}{relative}"


def _side(snapshot: Snapshot, id: str) -> str:
    return id if "/" in id else snapshot.name(id)


def _entries(found: CatalogDifference, kind: str) -> Section:
    changes = [change for change in found.entries if change.kind == kind]
    items = [
        Item(f"{upper_first(change.fate)}: {_titled(change)}", list(_of(found, change)))
        for change in sorted(changes, key=lambda change: _FIRST.index(change.fate))
    ]
    return Section(upper_first(kind), items)


#: What breaks something comes before what is new, and that before what is only otherwise.
_FIRST: tuple[Fate, ...] = ("removed", "retired", "renamed", "added", "changed")


def _titled(change: EntryChange) -> str:
    if change.kind in ("studies", "references"):
        return change.id
    return f"{change.name} ({change.id})" if change.name else change.id


def _of(found: CatalogDifference, change: EntryChange) -> Iterator[tuple[str, str]]:
    if change.was:
        yield "was", change.was
    if change.successor:
        yield "leads on to", change.successor
    if change.kind in ("studies", "references") and change.name and change.fate == "added":
        yield "title", change.name
    if change.fields:
        yield "what" if change.fate == "added" else "changed", "; ".join(change.fields)
    if change.numbers:
        for told in change.numbers[:_NUMBERS]:
            yield "number", told
        if len(change.numbers) > _NUMBERS:
            yield "number", f"and {len(change.numbers) - _NUMBERS:,} more"
    elif change.kind != "references":
        yield from _texts(found, change)


def _texts(found: CatalogDifference, change: EntryChange) -> Iterator[tuple[str, str]]:
    """Texts that were written otherwise."""
    old = found.before.mapping(f"{change.kind}/{change.was or change.id}.yaml")
    new = found.now.mapping(f"{change.kind}/{change.id}.yaml")
    shown = [leaf for leaf in change.leaves if leaf.path[:1] != ("reviewed",)]
    for leaf in shown[:_LEAVES]:
        yield "differs", places.told(leaf, old, new)
    if len(shown) > _LEAVES:
        yield "differs", f"and {len(shown) - _LEAVES:,} more"


def _files(found: CatalogDifference) -> Section:
    items = []
    for file in found.files:
        lines = [("changed", told) for told in file.told[:_LEAVES]]
        if len(file.told) > _LEAVES:
            lines.append(("changed", f"and {len(file.told) - _LEAVES:,} more"))
        items.append(Item(file.path, lines))
    return Section("Conventions and other files", items)


def _came_and_went(found: CatalogDifference) -> list[tuple[str, list[str]]]:
    return [("New statements", found.new), ("Statements that are gone", found.gone)]


def _pages(found: CatalogDifference, title: str, addresses: Sequence[str]) -> Section:
    pages: dict[str, list[str]] = {}
    for address in addresses:
        page, _, place = address.partition("#")
        pages.setdefault(page, []).append(place)
    items = [Item(f"{page}: {len(at):,}", [("at", _some(at))]) for page, at in pages.items()]
    return Section(title, items)


def _some(names: Sequence[str]) -> str:
    more = len(names) - _NAMES
    return ", ".join(names[:_NAMES]) + (f" and {more:,} more" if more > 0 else "")
