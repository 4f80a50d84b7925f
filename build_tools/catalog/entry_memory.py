"""Keeps what is found of an entry as long as the entry lives, so that a preview finds anew only what changed."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, Concatenate, ParamSpec, TypeVar
from weakref import WeakKeyDictionary

from .load import Loaded

Asked = ParamSpec("Asked")
Found = TypeVar("Found")


def once_per_entry(
    find: Callable[Concatenate[Loaded[Any], Asked], Found],
) -> Callable[Concatenate[Loaded[Any], Asked], Found]:
    """``find``, asked once of the same arguments, the very same objects; it must find what it finds of these alone.

    What was found goes with the entry. The last other arguments are held till then.
    """
    known: WeakKeyDictionary[Loaded[Any], tuple[tuple[object, ...], Found]] = WeakKeyDictionary()

    @wraps(find)
    def remembered(entry: Loaded[Any], /, *others: Asked.args, **named: Asked.kwargs) -> Found:
        assert not named
        before = known.get(entry)
        if before is None or [*map(id, before[0])] != [*map(id, others)]:
            known[entry] = before = (others, find(entry, *others, **named))
        return before[1]

    return remembered
