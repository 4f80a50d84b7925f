"""Where two pieces of plain data differ: one leaf for each text, number or list that is another."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from typing import Any, NamedTuple

Path = tuple[str | int, ...]


class Leaf(NamedTuple):
    """One place that differs. ``None`` stands where there is nothing on that side."""

    path: Path
    """Keys and indices (of the newer side where it has the place)."""
    before: Any
    now: Any

    @property
    def is_number(self) -> bool:
        """Whether a number, or a span of numbers, came, went or changed."""
        return any(map(_is_number, (self.before, self.now)))


def differing(before: Any, now: Any, path: Path = ()) -> Iterator[Leaf]:
    """Every leaf that differs, in the order of the newer side, what is gone last."""
    if isinstance(before, dict) and isinstance(now, dict):
        for key in dict.fromkeys((*now, *before)):
            yield from differing(before.get(key), now.get(key), (*path, key))
    elif isinstance(before, list) and isinstance(now, list) and not _is_plain(before + now):
        yield from _of_lists(before, now, path)
    elif isinstance(now, dict) and before is None and path:
        for key, value in now.items():
            yield from differing(None, value, (*path, key))
    elif isinstance(before, dict) and now is None and path:
        for key, value in before.items():
            yield from differing(value, None, (*path, key))
    elif before != now or type(before) is not type(now):
        yield Leaf(path, before, now)


def counted_changes(before: Any, now: Any) -> tuple[int, int, int]:
    """Of the items of all lists within: how many were added, changed and taken out."""
    if isinstance(before, dict) or isinstance(now, dict):
        old, new = (side if isinstance(side, dict) else {} for side in (before, now))
        each = [counted_changes(old.get(key), new.get(key)) for key in {*old, *new}]
        return sum(a for a, _, _ in each), sum(c for _, c, _ in each), sum(o for _, _, o in each)
    old_items, new_items = (side if isinstance(side, list) else [] for side in (before, now))
    added = changed = out = 0
    for tag, a, b, c, d in _steps(old_items, new_items):
        if tag != "equal":
            both = min(b - a, d - c)
            added, changed, out = added + d - c - both, changed + both, out + b - a - both
    return added, changed, out


def _of_lists(before: Sequence[Any], now: Sequence[Any], path: Path) -> Iterator[Leaf]:
    for tag, a, b, c, d in _steps(before, now):
        if tag == "equal":
            continue
        for step in range(max(b - a, d - c)):
            old = before[a + step] if a + step < b else None
            new = now[c + step] if c + step < d else None
            place = (*path, c + step if new is not None else a + step)
            if old is None or new is None:
                yield Leaf(place, old, new)
            else:
                yield from differing(old, new, place)


def _steps(before: Sequence[Any], now: Sequence[Any]) -> Sequence[tuple[str, int, int, int, int]]:
    old, new = ([json.dumps(item, sort_keys=True) for item in side] for side in (before, now))
    return SequenceMatcher(None, old, new, autojunk=False).get_opcodes()


def _is_plain(items: Sequence[Any]) -> bool:
    return not any(isinstance(item, (dict, list)) for item in items)


def _is_number(value: Any) -> bool:
    if isinstance(value, list):
        return bool(value) and all(map(_is_number, value))
    return isinstance(value, (int, float)) and not isinstance(value, bool)
