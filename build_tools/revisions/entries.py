"""Which entries were added, changed, renamed, retired or removed, and which kinds of fields changed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from ..english import counted
from . import leaves, places
from .leaves import Leaf
from .snapshot import Snapshot

Fate = Literal["added", "changed", "renamed", "retired", "removed"]
#: Kind of entry (its folder) -> the list of moved.yaml that leads on from its ids.
KINDS = {
    "exercises": "exercises",
    "muscles": "muscles",
    "studies": "sources",
    "references": "sources",
}
#: What people call the fields whose key says little.
_CALLED = {
    "emphasis": "claims",
    "movement": "posture and load",
    "set_credit": "how sets count",
    "version_ranges": "ranges of versions",
    "body_weight_fraction": "share of body weight",
    "also_called": "other names",
    "reviewed": "day of review",
    "same_sample_as": "whose people they are",
    "says": "what it found",
    "read": "how much was read",
    "readat": "where it was read",
    "recheck": "what is to be confirmed",
}


@dataclass(frozen=True)
class EntryChange:
    """One entry that is not what it was."""

    kind: str
    """``exercises``, ``muscles``, ``studies`` or ``references``."""
    fate: Fate
    id: str
    """As it is called now; of one that is gone, as it was called last."""
    name: str
    was: str | None = None
    """The former id of a renamed one."""
    successor: str | None = None
    """What a retired one leads on to."""
    leaves: tuple[Leaf, ...] = ()
    called: Mapping[str, str] = field(default_factory=dict)
    """Key -> each kind of field that changed, as people call it, counted where it is a list."""
    remarks: tuple[str, ...] = ()
    """What a new study holds; how a file that cannot be read differs as text."""
    numbers: tuple[str, ...] = ()
    """Of a study: each number that changed, with its place."""

    @property
    def file(self) -> str:
        """The file it stands in."""
        return "references.bib" if self.kind == "references" else f"{self.kind}/{self.id}.yaml"

    @property
    def fields(self) -> list[str]:
        """What to say of it."""
        return [*self.called.values(), *self.remarks]

    @property
    def keys(self) -> set[str]:
        """Top keys under which something changed; empty for a file that could not be read."""
        return {str(leaf.path[0]) for leaf in self.leaves if leaf.path}


def changes(before: Snapshot, now: Snapshot) -> list[EntryChange]:
    """Every entry that changed, kind by kind, by id."""
    found: list[EntryChange] = []
    every = {kind: renamed(before, now, kind) for kind in KINDS}
    mentions = {**every["exercises"], **every["muscles"], **every["studies"]}
    for kind, led in every.items():
        old, new = ids(before, kind), ids(now, kind)
        former = {new_id: old_id for old_id, new_id in led.items()}
        for id in sorted(old | new):
            if id in new:
                was = id if id in old else former.get(id)
                found += _one(before, now, kind, was, id, mentions)
            elif id not in led:
                successor = _successor(now, kind, id)
                fate: Fate = "retired" if successor else "removed"
                found.append(
                    EntryChange(kind, fate, id, _name(before, kind, id), successor=successor)
                )
    return found


def renamed(before: Snapshot, now: Snapshot, kind: str) -> dict[str, str]:
    """Former id -> present id of what moved.yaml leads on to an entry that was not there."""
    old, new = ids(before, kind), ids(now, kind)
    found: dict[str, str] = {}
    for id in sorted(old - new):
        successor = _successor(now, kind, id)
        if successor and successor not in old and successor not in found.values():
            found[id] = successor
    return found


def ids(snapshot: Snapshot, kind: str) -> set[str]:
    """Ids of a kind."""
    return set(snapshot.references) if kind == "references" else snapshot.ids(kind)


def _one(
    before: Snapshot,
    now: Snapshot,
    kind: str,
    was: str | None,
    id: str,
    mentions: Mapping[str, str],
) -> Iterator[EntryChange]:
    name = _name(now, kind, id)
    if was is None:
        yield EntryChange(kind, "added", id, name, remarks=tuple(_holds(now, kind, id)))
        return
    fate: Fate = "changed" if was == id else "renamed"
    other = None if was == id else was
    texts = [side.texts.get(f"{kind}/{key}.yaml", "") for side, key in ((before, was), (now, id))]
    if kind != "references" and fate == "changed" and texts[0] == texts[1]:
        return
    old, new = _data(before, kind, was), _data(now, kind, id)
    if old is None or new is None:
        if texts[0] != texts[1]:
            unread = "as it is now" if new is None else "as it was"
            remarks = (f"as text {lines(*texts)}; the file cannot be read {unread}",)
            yield EntryChange(kind, fate, id, name, other, remarks=remarks)
        return
    if mentions:  # an entry that only names a renamed one says what it said
        old = _renamed(old, mentions)
    found = tuple(leaves.differing(old, new))
    if found or fate == "renamed":
        numbers = tuple(places.numbers(found, old, new)) if kind == "studies" else ()
        called = dict(_called(old, new, found))
        yield EntryChange(kind, fate, id, name, other, leaves=found, called=called, numbers=numbers)


def _renamed(value: Any, mentions: Mapping[str, str]) -> Any:
    if isinstance(value, dict):
        return {_renamed(key, mentions): _renamed(item, mentions) for key, item in value.items()}
    if isinstance(value, list):
        return [_renamed(item, mentions) for item in value]
    if isinstance(value, str):
        muscle, slash, part = value.partition("/")
        return f"{mentions.get(muscle, muscle)}{slash}{part}"
    return value


def lines(before: str, now: str) -> str:
    """``3 lines added, 1 taken out`` of a text."""
    old, new = Counter(before.splitlines()), Counter(now.splitlines())
    return f"{counted((new - old).total(), 'line')} added, {(old - new).total():,} taken out"


def _data(snapshot: Snapshot, kind: str, id: str) -> Mapping[str, Any] | None:
    found = (
        snapshot.references.get(id) if kind == "references" else snapshot.data(f"{kind}/{id}.yaml")
    )
    return found if isinstance(found, dict) else None


def _name(snapshot: Snapshot, kind: str, id: str) -> str:
    if kind in ("studies", "references"):
        return snapshot.references.get(id, {}).get("title", "")
    return str((_data(snapshot, kind, id) or {}).get("name", ""))


def _successor(now: Snapshot, kind: str, id: str) -> str | None:
    moved, living, seen = now.moved(KINDS[kind]), ids(now, kind), {id}
    while id in moved and moved[id] not in seen:
        id = moved[id]
        seen.add(id)
        if id in living:
            return id
    return None


def _called(
    old: Mapping[str, Any], new: Mapping[str, Any], found: Sequence[Leaf]
) -> Iterator[tuple[str, str]]:
    for key in dict.fromkeys(str(leaf.path[0]) for leaf in found if leaf.path):
        called = _CALLED.get(key, key.replace("_", " "))
        values = old.get(key), new.get(key)
        numbers = leaves.counted_changes(*values)
        if any(numbers) and any(map(_is_listed, values)):
            words = zip(numbers, ("added", "changed", "taken out"), strict=True)
            yield key, f"{called} ({', '.join(f'{n:,} {word}' for n, word in words if n)})"
        elif None in values:
            yield key, f"{called} ({'new' if values[0] is None else 'taken out'})"
        else:
            yield key, called


def _is_listed(value: object) -> bool:
    """Whether a field is a list of things, or lists by name, as cues are."""
    if isinstance(value, dict):
        return bool(value) and all(isinstance(item, list) for item in value.values())
    return isinstance(value, list)


def _holds(now: Snapshot, kind: str, id: str) -> Iterator[str]:
    """What a new study brings: people, and what it measured."""
    if kind != "studies":
        return
    data = _data(now, kind, id) or {}
    people = data.get("people")
    if isinstance(people, dict) and isinstance(people.get("n"), int):
        yield counted(people["n"], "person", "people")
    if isinstance(results := data.get("results"), list):
        yield counted(len(results), "result")
