"""Keeps what is found of an entry as long as the entry lives, so that a preview finds anew only what changed."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, Concatenate, ParamSpec, TypeVar

from .load import Loaded

Asked = ParamSpec("Asked")
Found = TypeVar("Found")


def once_per_entry(
    find: Callable[Concatenate[Loaded[Any], Asked], Found],
) -> Callable[Concatenate[Loaded[Any], Asked], Found]:
    """``find``, asked once of the same arguments, the very same objects; it must find what it finds of these alone.

    What was found stays with the entry, and the last other arguments with it.
    """

    @wraps(find)
    def remembered(entry: Loaded[Any], /, *others: Asked.args, **named: Asked.kwargs) -> Found:
        assert not named
        known: tuple[tuple[object, ...], Found] | None = entry.found.get(find)
        if known is None or [*map(id, known[0])] != [*map(id, others)]:
            entry.found[find] = known = (others, find(entry, *others, **named))
        return known[1]

    return remembered
